"""Everything that is worked out of one guide for one choice of variants, gathered for pages and exports."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.computing.colour.blend import Blend
from guidegen.computing.colour.closest import Match
from guidegen.computing.colour.mixing import Mixer, Prediction
from guidegen.computing.guide.area_states import AreaState, area_states
from guidegen.computing.guide.batch import GuideTimes, guide_times
from guidegen.computing.guide.cautions import Caution, cautions
from guidegen.computing.guide.materials import PaintNeed, Supply, paint_needs, supplies
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.computing.guide.substitutes import Substitute, substitutes
from guidegen.model.guide import Guide
from guidegen.model.paint import Mix, Paint


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendUse:
    """A mixture that the scheme uses: a house mix, or parts mixed in a step."""

    blend: Blend
    mix: Mix | None
    prediction: Prediction
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComputedGuide:
    """One guide, one variant, one number of figures. `closest` and `closest_owned` go by a paint's full name.

    So do `substitutes`, which has the paints that are not owned; None for one that nothing on the shelf stands in for.
    """

    guide: Guide
    scheme: Scheme
    figures: int
    times: GuideTimes
    needs: tuple[PaintNeed, ...]
    materials: tuple[Supply, ...]
    tools: tuple[Supply, ...]
    cautions: tuple[Caution, ...]
    states: Mapping[str, tuple[AreaState, ...]]
    blends: tuple[BlendUse, ...]
    closest: Mapping[str, tuple[Match, ...]] = field(default_factory=dict)
    closest_owned: Mapping[str, tuple[Match, ...]] = field(default_factory=dict)
    substitutes: Mapping[str, Substitute | None] = field(default_factory=dict)


def compute_guide(
    guide: Guide,
    palette_tools: PaletteTools,
    *,
    figures: int | None = None,
    choice: Mapping[str, str] | None = None,
) -> ComputedGuide:
    """Work a guide out; the author's number of figures and the first options stand where nothing is asked."""
    palette = palette_tools.palette
    scheme = scheme_of(guide, palette, choice)
    count = guide.figures if figures is None else figures
    needs = paint_needs(scheme, palette, count)
    materials, tools = supplies(scheme)
    paints = [need.paint for need in needs]
    return ComputedGuide(
        guide=guide,
        scheme=scheme,
        figures=count,
        times=guide_times(scheme, count),
        needs=needs,
        materials=materials,
        tools=tools,
        cautions=cautions(scheme, palette),
        states=area_states(scheme, palette_tools.mixer),
        blends=_blends(scheme, palette_tools.mixer),
        closest={paint.full_name: palette_tools.matcher.closest(paint) for paint in paints},
        closest_owned={paint.full_name: palette_tools.matcher.closest_owned(paint) for paint in paints},
        substitutes=substitutes(scheme, paints, palette_tools),
    )


def _blends(scheme: Scheme, mixer: Mixer) -> tuple[BlendUse, ...]:
    steps: dict[Blend, list[int]] = {}
    for step in scheme.steps:
        for blend in step.brushed:
            if not isinstance(blend.pot, Paint):
                steps.setdefault(blend, []).append(step.n)
    return tuple(
        BlendUse(
            blend=blend,
            mix=blend.pot if isinstance(blend.pot, Mix) else None,
            prediction=mixer.predict(blend),
            steps=tuple(numbers),
        )
        for blend, numbers in steps.items()
    )
