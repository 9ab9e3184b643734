"""What a scheme is undercoated in."""

from __future__ import annotations

from guidegen.computing.colour.blend import Blend
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.guide.scheme import Scheme, SchemeStep
from guidegen.model.paint import Kind
from guidegen.model.technique import UNDERCOATS


def is_undercoat(step: SchemeStep, laid: Blend, mixer: Mixer) -> bool:
    """Whether a step lays an undercoat: by its technique, or with a primer."""
    return step.technique.name in UNDERCOATS or mixer.kind(laid) is Kind.PRIMER


def undercoat_of(scheme: Scheme, mixer: Mixer) -> str | None:
    """The colour of the first undercoat, `#rrggbb`; None where there is none, or its colour is not known."""
    laid = (
        blend for step in scheme.steps for blend in step.laid.values() if is_undercoat(step, blend, mixer)
    )
    first = next(laid, None)
    return None if first is None else mixer.predict(first).colour
