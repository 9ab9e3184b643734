"""The paints closest to a paint or a colour: exact CIEDE2000 over the palette, like compared with like."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.difference_bound import GREATEST_SL, Polar, least_squared
from guidegen.computing.colour.spaces import DECIMALS, Floats, delta_e_2000, lab_of
from guidegen.model.paint import FILMS, Kind, Paint, Palette

# Beyond this two colours are no substitutes for each other, and a longer list helps nobody: common practice, no source.
FARTHEST = 10.0
MOST = 5

OPAQUE, FILM, METAL = "opaque", "film", "metal"

# A see-through film is no substitute for a covering paint, nor a metal for a flat colour.
_ROLES: dict[Kind, str] = {
    **dict.fromkeys((Kind.PAINT, Kind.PRIMER, Kind.INK, Kind.OIL, Kind.EFFECT), OPAQUE),
    **dict.fromkeys(FILMS, FILM),
    Kind.METALLIC: METAL,
}

# Whatever is further off in L* than this needs no look.
_WINDOW = FARTHEST * GREATEST_SL + 1e-3
_FARTHEST_SQUARED = (FARTHEST + 1e-3) ** 2


def role_of(kind: Kind) -> str | None:
    """`opaque`, `film` or `metal`; None for what has no substitutes by colour: grounds, pigments, mediums, finishes."""
    return _ROLES.get(kind)


@dataclass(frozen=True, slots=True)
class Match:
    """A paint and how far it is from what was asked for, in CIEDE2000."""

    paint: Paint
    de00: float


class _Shelf:
    """The paints of one role, by lightness."""

    def __init__(self, paints: list[Paint]) -> None:
        lab = lab_of([paint.colour or "" for paint in paints])
        order = np.argsort(lab[:, 0], kind="stable")
        self._paints = [paints[i] for i in order.tolist()]
        self._lab = lab[order]
        self._lightness = self._lab[:, 0].copy()
        self._polar = Polar.of(self._lab)
        by_name = sorted(range(len(paints)), key=lambda i: self._paints[i].full_name)
        self._place_by_name = np.empty(len(paints), dtype=np.intp)
        self._place_by_name[by_name] = np.arange(len(paints))
        self._near: dict[bytes, tuple[NDArray[np.intp], Floats]] = {}
        self._wanted: dict[Callable[[Paint], bool], NDArray[np.bool_]] = {}

    def closest(self, lab: Floats, wanted: Callable[[Paint], bool], but: str = "") -> tuple[Match, ...]:
        """The paints closest to a colour that are wanted, without the one of that full name."""
        if wanted not in self._wanted:
            self._wanted[wanted] = np.array([wanted(paint) for paint in self._paints], dtype=bool)
        at, away = self._by_distance(lab)
        kept = np.flatnonzero(self._wanted[wanted][at])
        others = (i for i in kept if self._paints[at[i]].full_name != but)
        return tuple(Match(self._paints[at[i]], float(away[i])) for i in islice(others, MOST))

    def _by_distance(self, lab: Floats) -> tuple[NDArray[np.intp], Floats]:
        """The places of the paints that are near, closest first, then by name, and their differences."""
        key = lab.tobytes()
        if key not in self._near:  # asked for again at once, among the paints at home and those still sold
            at = self.candidates(lab)
            away = delta_e_2000(lab, self._lab[at]).round(DECIMALS)
            near = away <= FARTHEST
            at, away = at[near], away[near]
            order = np.lexsort((self._place_by_name[at], away))
            self._near = {key: (at[order], away[order])}
        return self._near[key]

    def candidates(self, lab: Floats) -> NDArray[np.intp]:
        """The places of all paints that may be near a colour: none that is near is left out."""
        low = int(np.searchsorted(self._lightness, lab[0] - _WINDOW))
        high = int(np.searchsorted(self._lightness, lab[0] + _WINDOW))
        least = least_squared(Polar.of(lab), self._polar.within(slice(low, high)))
        return low + np.flatnonzero(least <= _FARTHEST_SQUARED)


class Matcher:
    """Answers what is closest within one palette; its colours are turned into CIELAB once."""

    def __init__(self, palette: Palette) -> None:
        """Shelve the palette's paints by role. House mixes are never offered: nobody can buy one."""
        shelves: dict[str, list[Paint]] = {}
        for paint in palette.paints:
            role = role_of(paint.kind)
            if role is not None and paint.colour is not None:
                shelves.setdefault(role, []).append(paint)
        self._shelves = {role: _Shelf(paints) for role, paints in shelves.items()}
        self._known: dict[tuple[object, ...], tuple[Match, ...]] = {}

    def closest(self, paint: Paint) -> tuple[Match, ...]:
        """At most five other paints of the same role, 10 or less away, closest first, then by full name."""
        return self._near_paint(paint, _is_any)

    def closest_owned(self, paint: Paint) -> tuple[Match, ...]:
        """The same among the paints that are on the shelf at home."""
        return self._near_paint(paint, is_owned)

    def closest_still_sold(self, paint: Paint) -> tuple[Match, ...]:
        """The same among the paints that can still be bought."""
        return self._near_paint(paint, _is_still_sold)

    def closest_to_colour(self, colour: str, role: str | None = OPAQUE) -> tuple[Match, ...]:
        """The same for a bare `#rrggbb` colour, which counts as opaque unless a role is given."""
        return self._near_colour(colour, role, _is_any)

    def closest_owned_to_colour(self, colour: str, role: str | None = OPAQUE) -> tuple[Match, ...]:
        """The same among the paints that are on the shelf at home."""
        return self._near_colour(colour, role, is_owned)

    def _near_paint(self, paint: Paint, wanted: Callable[[Paint], bool]) -> tuple[Match, ...]:
        if paint.colour is None:
            return ()
        # Every guide that uses a paint asks for its neighbours, and each page of the paint once more.
        itself = paint.full_name
        asked = itself, paint.colour, paint.kind, wanted
        if asked not in self._known:
            self._known[asked] = self._near_colour(paint.colour, role_of(paint.kind), wanted, itself)
        return self._known[asked]

    def _near_colour(
        self, colour: str, role: str | None, wanted: Callable[[Paint], bool], but: str = ""
    ) -> tuple[Match, ...]:
        shelf = self._shelves.get(role or "")
        return shelf.closest(lab_of([colour])[0], wanted, but) if shelf is not None else ()


def _is_any(_paint: Paint) -> bool:
    return True


def is_owned(paint: Paint) -> bool:
    """Whether a pot is on the shelf at home."""
    return paint.owned > 0


def _is_still_sold(paint: Paint) -> bool:
    return not paint.discontinued
