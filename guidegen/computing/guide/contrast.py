"""Light and dark, step by step: what a highlight stands out from, what a wash darkens, the ladder of an area."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.spaces import lightness
from guidegen.computing.guide.area_states import AreaState
from guidegen.computing.guide.scheme import Scheme
from guidegen.model.technique import Role

# Under this a highlight is hardly seen at arm's length: common practice, no source.
LEAST_HIGHLIGHT = 3.0

# Films that are there to darken; a glaze or a stain is there to change the hue and may well be the lighter.
SHADING = frozenset({"wash", "pin wash", "oil wash"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrast:
    """Step `n` on an area: L* of what was put on and of what lay under it just before."""

    n: int
    area: str
    laid: float
    under: float

    @property
    def gain(self) -> float:
        """How much lighter (L*) what was put on is than what lay under it; less than nought is darker."""
        return self.laid - self.under


def looked_at(scheme: Scheme) -> dict[str, int]:
    """The areas with a highlight or a shading wash, each with the number of the last step that is one."""
    return {
        area: step.n
        for step in scheme.steps
        if step.technique.role is Role.EDGES or step.technique.name in SHADING
        for area in step.areas
    }


def highlight_contrast(area: str, states: Iterable[AreaState]) -> tuple[Contrast, ...]:
    """Each highlight on an area against its raised edges as they were just before, washes and all.

    A metal on either side is left out: its glint makes the contrast. So is whatever has no known colour.
    """
    return tuple(
        Contrast(
            n=after.n, area=area, laid=lightness(after.relief.edges), under=lightness(before.relief.edges)
        )
        for before, after in _steps(states)
        if after.technique.role is Role.EDGES
        and after.laid is not None
        and not (before.metal_edges or after.metal_edges)
        and before.relief.edges is not None
        and after.relief.edges is not None
    )


def shade_contrast(area: str, states: Iterable[AreaState], mixer: Mixer) -> tuple[Contrast, ...]:
    """Each wash on an area (see `SHADING`): its own chip against the flats as they were just before."""
    found = []
    for before, after in _steps(states):
        under = before.relief.flats
        if after.technique.name not in SHADING or after.laid is None or under is None or before.metal:
            continue
        colour = mixer.predict(after.laid).colour
        if colour is not None:
            found.append(Contrast(n=after.n, area=area, laid=lightness(colour), under=lightness(under)))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """What step `n` laid on an area, and its L*."""

    n: int
    colour: str
    lightness: float


def lightness_ladder(states: Iterable[AreaState], mixer: Mixer) -> tuple[Rung, ...]:
    """What was laid on an area with these states, from the first step to the last, as far as its colour is known."""
    rungs = []
    for state in states:
        if state.laid is None or state.technique.role in (Role.FINISH, Role.GROUND):
            continue
        colour = mixer.predict(state.laid).colour
        if colour is not None:
            rungs.append(Rung(n=state.n, colour=colour, lightness=lightness(colour)))
    return tuple(rungs)


def _steps(states: Iterable[AreaState]) -> Iterable[tuple[AreaState, AreaState]]:
    return pairwise(states)
