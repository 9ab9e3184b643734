"""What the rules over one guide look at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.base.source import Span
from guidegen.base.suggest import nearest
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.computing.guide.scheme import Scheme, SchemeStep, scheme_of
from guidegen.model.guide import Guide, Step
from guidegen.model.names import Name
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan, Unit
from guidegen.reading.types.parse_context import list_of_words


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideCase:
    """A guide with the scheme of every variant: the default first, then each other option by itself.

    `addresses` are the slugs of all guides; `chart_areas` those of the guide's chart, None where it has none.
    """

    guide: Guide
    palette_tools: PaletteTools
    schemes: tuple[Scheme, ...]
    addresses: frozenset[str] = frozenset()
    chart_areas: frozenset[str] | None = None

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
    chart_areas: frozenset[str] | None = None,
) -> GuideCase:
    """Make the case for a guide; variants are taken one at a time, not in every combination."""
    choices: list[Mapping[str, str]] = [guide.default_choice]
    for name, options in guide.choose.items():
        choices += [guide.default_choice | {name: option} for option in options[1:]]
    return GuideCase(
        guide=guide,
        palette_tools=palette_tools,
        schemes=tuple(scheme_of(guide, palette_tools.palette, choice) for choice in choices),
        addresses=addresses,
        chart_areas=chart_areas,
    )


def span_of(record: Guide | Step | Plan | Unit, key: str) -> Span:
    """Where a key's value stands, else the record itself."""
    return record.places.get(key, record.span)


def did_you_mean(asked: str, known: Mapping[str, object] | frozenset[str] | tuple[str, ...]) -> str:
    """A help line's opening: the near name, or the names there are."""
    best = nearest(asked, known)
    if best is not None:
        return f"Write {best}."
    some = sorted(known)[:8]
    return f"There is {list_of_words(some)}." if some else ""


def called(case: GuideCase, step: Step) -> str:
    """What a sentence calls a step: by its number in the guide, an inserted one by its title and its list.

    So a mistake in a shared list is told once, however many guides insert it.
    """
    if step.shared is not None:
        return f"Step “{step.title}” of {step.shared}"
    return f"Step {next(n for n, other in enumerate(case.guide.steps, 1) if other is step)}"


def called_in_full(case: GuideCase, step: Step) -> str:
    """The same with its title, ready to be followed by a verb."""
    return called(case, step) if step.shared is not None else f"{called(case, step)}, “{step.title}”,"


def where(case: GuideCase, step: Step) -> tuple[str, ...]:
    """A note on which guide an inserted step is spoken of, where that makes a difference."""
    return (f"That is so in “{case.guide.title}”.",) if step.shared is not None else ()


def said(name: Name) -> str:
    """A name in quotes as it was typed."""
    return f"“{name.text}”"
