"""What every area looks like after every step that touches it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.computing.colour.blend import Blend
from guidegen.computing.colour.layers import ReliefColours, film_over
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.reflectance import curves_of
from guidegen.computing.guide.scheme import Scheme, SchemeStep
from guidegen.model.paint import COLOURLESS
from guidegen.model.technique import Role, Technique

GLOSS = "gloss"

_BARE = ReliefColours.of_one(None)


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaState:
    """An area after step `n`. `laid` is the blend that the step put on it, None for none.

    `metal` and `metal_edges` say whether the flats and the raised edges glint; `finish` is matt, satin, gloss or ''
    where nobody said; `estimate` that a colour of it is worked out and not the palette's own.
    """

    n: int
    relief: ReliefColours
    laid: Blend | None
    technique: Technique
    metal: bool = False
    metal_edges: bool = False
    finish: str = ""
    estimate: bool = False


def area_states(
    scheme: Scheme, mixer: Mixer, only: Mapping[str, int] | None = None
) -> dict[str, tuple[AreaState, ...]]:
    """Each area's states in order, one for every step of the scheme that is on it.

    With `only`, those of these areas, each up to the step with that number.
    """
    states: dict[str, list[AreaState]] = {area: [] for area in scheme.areas if only is None or area in only}
    for step in scheme.steps:
        if step.technique.role is Role.FILM:
            _prepare_film(step, states, mixer)
        for area in step.areas:
            if only is not None and step.n > only.get(area, 0):
                continue
            before = states[area][-1] if states[area] else None
            states[area].append(_after(before, step, step.laid.get(area), mixer))
    return {area: tuple(those) for area, those in states.items()}


def _prepare_film(step: SchemeStep, states: Mapping[str, list[AreaState]], mixer: Mixer) -> None:
    """Compute the reflectance curves of all colours under the film in one call: each single call takes as long as one."""
    colours = {mixer.predict(laid).colour for laid in step.laid.values()}
    for area in step.areas:
        if states.get(area):
            relief = states[area][-1].relief
            colours |= {relief.edges, relief.flats, relief.recesses}
    curves_of(sorted(colour for colour in colours if colour is not None))


def _after(before: AreaState | None, step: SchemeStep, laid: Blend | None, mixer: Mixer) -> AreaState:
    technique = step.technique
    relief = before.relief if before else _BARE
    metal, metal_edges = (before.metal, before.metal_edges) if before else (False, False)
    finish, estimate = (before.finish, before.estimate) if before else ("", False)
    if laid is not None:
        own = finish_of(laid, mixer)
        # A varnish or a medium leaves the hue, whatever it is put on with: an airbrush, say.
        if technique.role in (Role.FINISH, Role.GROUND) or not mixer.has_colour(laid):
            finish = own or finish
        elif technique.role is Role.EDGES:
            found = mixer.predict(laid)
            relief = ReliefColours(edges=found.colour, flats=relief.flats, recesses=relief.recesses)
            metal_edges, estimate = mixer.has_metal(laid), estimate or found.estimate
        elif technique.role is Role.FILM:
            relief = _filmed(relief, step, laid, mixer, over_gloss=finish == GLOSS)
            finish, estimate = own or finish, True
        else:
            found = mixer.predict(laid)
            relief = ReliefColours.of_one(found.colour)
            metal = metal_edges = mixer.has_metal(laid)
            finish, estimate = own, found.estimate
    return AreaState(
        n=step.n,
        relief=relief,
        laid=laid,
        technique=technique,
        metal=metal,
        metal_edges=metal_edges,
        finish=finish,
        estimate=estimate,
    )


def _filmed(
    relief: ReliefColours, step: SchemeStep, laid: Blend, mixer: Mixer, *, over_gloss: bool
) -> ReliefColours:
    thin = step.step.thin
    return film_over(
        relief,
        mixer.predict(laid).colour,
        strength=mixer.film_strength(laid),
        technique=step.technique.name,
        paint_share=thin.paint_share if thin is not None else 1.0,
        over_gloss=over_gloss,
        coats=step.step.coats,
    )


def finish_of(laid: Blend, mixer: Mixer) -> str:
    """The finish that all the paints and varnishes of a blend share; mediums and thinners say nothing of it."""
    paints = [item.paint for item in mixer.ingredients(laid)]
    finishes = {paint.finish for paint in paints if paint.kind not in COLOURLESS or paint.finish}
    return finishes.pop() if len(finishes) == 1 else ""
