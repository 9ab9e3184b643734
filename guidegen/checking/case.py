"""What the rules over one guide look at."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.base.listed import list_of_words
from guidegen.base.source import Span
from guidegen.base.suggest import folded, nearest
from guidegen.checking.area_names import MisnamedArea, misnamed_areas
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.computing.guide.scheme import Scheme, SchemeStep, scheme_of
from guidegen.model.guide import Guide, Step
from guidegen.model.names import Name
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideCase:
    """A guide with the scheme of every variant: the default first, then each other option by itself.

    `addresses` are the slugs of all guides, `gone` those that were taken away; `chart_areas` those of the guide's chart,
    None where it has none. `numbers` has the number of each step, by its `id`, on the first page that shows it.
    `misnamed` are the misnamed areas by their folded names; what follows from such a slip is not told as well.
    """

    guide: Guide
    palette_tools: PaletteTools
    schemes: tuple[Scheme, ...]
    addresses: frozenset[str] = frozenset()
    gone: frozenset[str] = frozenset()
    chart_areas: frozenset[str] | None = None
    numbers: Mapping[int, str] = field(default_factory=dict)
    misnamed: Mapping[str, MisnamedArea] = field(default_factory=dict)

    def areas_meant(self, areas: Iterable[str]) -> set[str]:
        """The areas that are meant by the misnamed ones among these, all of them folded."""
        return {meant for area in areas if area in self.misnamed for meant in self.misnamed[area].meant}

    @property
    def palette(self) -> Palette:
        """The archive's palette."""
        return self.palette_tools.palette

    def painted(self) -> Iterator[tuple[Scheme, SchemeStep]]:
        """Every step once, in the first variant that has it."""
        seen: set[int] = set()
        for scheme in self.schemes:
            for step in scheme.steps:
                if id(step.step) not in seen:
                    seen.add(id(step.step))
                    yield scheme, step


def case_of(
    guide: Guide,
    palette_tools: PaletteTools,
    *,
    addresses: frozenset[str] = frozenset(),
    gone: frozenset[str] = frozenset(),
    chart_areas: frozenset[str] | None = None,
) -> GuideCase:
    """Make the case for a guide; variants are taken one at a time, not in every combination."""
    choices: list[Mapping[str, str]] = [guide.default_choice]
    for name, options in guide.choose.items():
        choices += [guide.default_choice | {name: option} for option in options[1:]]
    schemes = tuple(scheme_of(guide, palette_tools.palette, choice) for choice in choices)
    return GuideCase(
        guide=guide,
        palette_tools=palette_tools,
        schemes=schemes,
        addresses=addresses,
        gone=gone,
        chart_areas=chart_areas,
        numbers=_numbers(guide, schemes),
        misnamed={folded(one.area.text): one for one in misnamed_areas(guide, chart_areas)},
    )


def _numbers(guide: Guide, schemes: tuple[Scheme, ...]) -> dict[int, str]:
    """Each step's number as its page has it, with the variant where that is not the guide's own page."""
    numbers: dict[int, str] = {}
    for scheme in schemes:
        others = (
            f"{name}: {option}"
            for name, option in scheme.choice.items()
            if option != guide.default_choice.get(name)
        )
        variant = f" ({', '.join(others)})" if scheme is not schemes[0] else ""
        for step in scheme.steps:
            numbers.setdefault(id(step.step), f"{step.n}{variant}")
    return numbers


def span_of(record: Guide | Step | Plan | Unit, key: str) -> Span:
    """Where a key's value stands, else the record itself."""
    return record.places.get(key, record.span)


def did_you_mean(asked: str, known: Mapping[str, object] | frozenset[str] | tuple[str, ...]) -> str:
    """A help line's opening: the near name, the one that has what was asked in it, or the names there are."""
    holding = [name for name in known if folded(asked) in folded(name)]
    best = nearest(asked, known) or (holding[0] if len(holding) == 1 else None)
    if best is not None:
        return f"Write {best}."
    some = sorted(known)[:8]
    return f"There is {list_of_words(some)}." if some else ""


def called(case: GuideCase, step: Step) -> str:
    """What a sentence calls a step: by the number that its page shows, an inserted one by its title and its list.

    So a mistake in a shared list is told once, however many guides insert it.
    """
    if step.shared is not None:
        return f"Step “{step.title}” of {step.shared}"
    number = case.numbers.get(id(step))
    return f"Step {number}" if number else f"Step “{step.title}”"


def called_in_full(case: GuideCase, step: Step) -> str:
    """The same with its title, ready to be followed by a verb."""
    told = called(case, step)
    return told if step.shared is not None or id(step) not in case.numbers else f"{told}, “{step.title}”,"


def guide_note(case: GuideCase, step: Step) -> tuple[str, ...]:
    """The notes of a diagnostic on an inserted step: for which guide it holds; () for a step of the guide's own."""
    return (f"That is so in “{case.guide.title}”.",) if step.shared is not None else ()


def quoted_name(name: Name) -> str:
    """A name in quotes as it was typed."""
    return f"“{name.text}”"
