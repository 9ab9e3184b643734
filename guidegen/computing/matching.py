"""The paints closest to a paint or a colour: exact CIEDE2000 over the palette, like compared with like."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from guidegen.computing.colour import Floats, delta_e_2000, lab_of
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

# The lightness term alone bounds CIEDE2000 from below: the rest under the root is never less than nought, because
# |R_T| ≤ 2. S_L is at most this, at L* 0 and 100, so a paint further off in L* than FARTHEST · S_L needs no look.
_GREATEST_SL = 1.0 + 0.015 * 2500.0 / 2520.0**0.5
_WINDOW = FARTHEST * _GREATEST_SL + 1e-9

# Differences are told apart to this many decimals, here and wherever they are printed.
_DECIMALS = 4


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

    def closest(self, lab: Floats, wanted: Callable[[Paint], bool]) -> tuple[Match, ...]:
        low = int(np.searchsorted(self._lightness, lab[0] - _WINDOW))
        high = int(np.searchsorted(self._lightness, lab[0] + _WINDOW))
        away = delta_e_2000(lab, self._lab[low:high]).round(_DECIMALS)
        near = np.flatnonzero(away <= FARTHEST).tolist()
        found = sorted((float(away[i]), self._paints[low + i].full_name, low + i) for i in near)
        matches = (Match(self._paints[i], de00) for de00, _, i in found if wanted(self._paints[i]))
        return tuple(match for match, _ in zip(matches, range(MOST), strict=False))


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
        return self._near_paint(paint, _is_owned)

    def closest_living(self, paint: Paint) -> tuple[Match, ...]:
        """The same among the paints that can still be bought."""
        return self._near_paint(paint, _is_living)

    def closest_to_colour(self, colour: str, role: str | None = OPAQUE) -> tuple[Match, ...]:
        """The same for a bare `#rrggbb` colour, which counts as opaque unless a role is given."""
        return self._near_colour(colour, role, _is_any)

    def closest_owned_to_colour(self, colour: str, role: str | None = OPAQUE) -> tuple[Match, ...]:
        """The same among the paints that are on the shelf at home."""
        return self._near_colour(colour, role, _is_owned)

    def _near_paint(self, paint: Paint, wanted: Callable[[Paint], bool]) -> tuple[Match, ...]:
        if paint.colour is None:
            return ()
        # Every guide that uses a paint asks for its neighbours, and each page of the paint once more.
        itself = paint.full_name
        asked = itself, paint.colour, paint.kind, wanted
        if asked not in self._known:
            self._known[asked] = self._near_colour(
                paint.colour, role_of(paint.kind), lambda other: other.full_name != itself and wanted(other)
            )
        return self._known[asked]

    def _near_colour(
        self, colour: str, role: str | None, wanted: Callable[[Paint], bool]
    ) -> tuple[Match, ...]:
        shelf = self._shelves.get(role or "")
        return shelf.closest(lab_of([colour])[0], wanted) if shelf is not None else ()


def _is_any(_paint: Paint) -> bool:
    return True


def _is_owned(paint: Paint) -> bool:
    return paint.owned > 0


def _is_living(paint: Paint) -> bool:
    return not paint.discontinued
