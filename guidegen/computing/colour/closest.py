"""The paints closest to a paint or a colour: exact CIEDE2000 over the palette, like compared with like."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.spaces import Floats, delta_e_2000, lab_of
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

# Differences are told apart to this many decimals, here and wherever they are printed.
_DECIMALS = 4

# What follows bounds CIEDE2000 from below, so that most paints are passed over without working it out; the numbers are
# the equations of the paper that `colour.delta_e_2000` names.
#
# The lightness term alone: the rest under the root (22) is never less than nought, because |R_T| ≤ 2. S_L (18) is at
# most this, at L* 0 and 100, so a paint further off in L* than FARTHEST · S_L needs no look.
_GREATEST_SL = 1.0 + 0.015 * 2500.0 / 2520.0**0.5
_WINDOW = FARTHEST * _GREATEST_SL + 1e-3
# For one pair, S_L ≤ 1 + 0.015 · |mean L* − 50|, since 20 + x² ≥ x².
_SL_SLOPE = 0.015
# Chroma and hue: S_H ≤ S_C, as T ≤ 1.93; ΔC'² + ΔH'² = Δa'² + Δb² ≥ Δa² + Δb²; (5) makes no C' more than 6.5 larger
# than C, so S_C ≤ 1 + 0.045 · (mean C + 6.5). So their squares come to at least (Δa² + Δb²) / S_C². The rotation (21)
# leaves at least 1 − sin 60° of that; all of it where ΔC' and ΔH' have opposite signs, because −2 < R_T ≤ 0; and nearly
# all where no hue from one to the other is within 275° ± 60°, since |R_T| ≤ 2 sin(60° · exp(−(60/25)²)) < 0.0067 there.
_SC_LEAST, _SC_SLOPE = 1.0 + 0.045 * 6.5, 0.045
_UNROTATED, _ROTATED = 0.9966, 0.1339
# The hues that are not within 275° ± 60°, in one piece. (5) stretches a* by 1 to 1.5, which takes none of them in there.
_AWAY_FROM_BLUE = (-25.0, 215.0)
_STRETCH_SQUARED = 1.5**2
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
        self._chroma, self._hue = _polar(self._lab)
        self._safe_hue = _is_away_from_blue(self._hue)
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
            away = delta_e_2000(lab, self._lab[at]).round(_DECIMALS)
            near = away <= FARTHEST
            at, away = at[near], away[near]
            order = np.lexsort((self._place_by_name[at], away))
            self._near = {key: (at[order], away[order])}
        return self._near[key]

    def candidates(self, lab: Floats) -> NDArray[np.intp]:
        """The places of all paints that may be near a colour: none that is near is left out."""
        low = int(np.searchsorted(self._lightness, lab[0] - _WINDOW))
        high = int(np.searchsorted(self._lightness, lab[0] + _WINDOW))
        window = slice(low, high)
        chroma, hue = _polar(lab)
        others = self._lab[window]
        a, b, delta = others[:, 1], others[:, 2], others - lab
        sl = 1.0 + _SL_SLOPE * np.abs(lab[0] + 0.5 * delta[:, 0] - 50.0)
        sc = _SC_LEAST + _SC_SLOPE * 0.5 * (self._chroma[window] + chroma)
        aside = (delta[:, 1] ** 2 + delta[:, 2] ** 2) / sc**2
        # The sign of ΔH' is that of `turn`; that of ΔC' is known where it is the same at both ends of the stretch.
        turn = lab[1] * b - lab[2] * a
        da, db = a * a - lab[1] ** 2, b * b - lab[2] ** 2
        unrotated = np.maximum(turn * (da + db), turn * (_STRETCH_SQUARED * da + db)) < -1e-6
        if _is_away_from_blue(hue):
            unrotated |= self._safe_hue[window] & (np.abs(self._hue[window] - hue) < 180.0)
        least = (delta[:, 0] / sl) ** 2 + np.where(unrotated, _UNROTATED, _ROTATED) * aside
        return low + np.flatnonzero(least <= _FARTHEST_SQUARED)


def _polar(lab: Floats) -> tuple[Floats, Floats]:
    """Chroma, and hue in degrees from -45 on, so that the sector away from blue is in one piece."""
    turn = np.degrees(np.arctan2(lab[..., 2], lab[..., 1]))
    return np.hypot(lab[..., 1], lab[..., 2]), (turn + 45.0) % 360.0 - 45.0


def _is_away_from_blue(hue: Floats) -> NDArray[np.bool_]:
    away: NDArray[np.bool_] = (_AWAY_FROM_BLUE[0] < hue) & (hue < _AWAY_FROM_BLUE[1])
    return away


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
            self._known[asked] = self._near_colour(paint.colour, role_of(paint.kind), wanted, itself)
        return self._known[asked]

    def _near_colour(
        self, colour: str, role: str | None, wanted: Callable[[Paint], bool], but: str = ""
    ) -> tuple[Match, ...]:
        shelf = self._shelves.get(role or "")
        return shelf.closest(lab_of([colour])[0], wanted, but) if shelf is not None else ()


def _is_any(_paint: Paint) -> bool:
    return True


def _is_owned(paint: Paint) -> bool:
    return paint.owned > 0


def _is_living(paint: Paint) -> bool:
    return not paint.discontinued
