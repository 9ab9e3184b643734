"""The cautions of a guide, without anybody having asked: from its labels, its techniques and its authors."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.computing.hazards import HAZARDS, read_entry
from guidegen.computing.materials import supplies
from guidegen.computing.practice import ALWAYS, PRACTICE
from guidegen.computing.scheme import Scheme, SchemeStep
from guidegen.computing.signs import guide_signs, step_paints, step_signs, uncured_under
from guidegen.model.paint import Paint, Palette

__all__ = ["HAZARDS", "Caution", "cautions"]

# What a step's technique and paints tell for certain: named among the guide's tools, it concerns those steps only.
OF_STEPS = frozenset({"sprays", "airbrush", "solvents", "oily rags", "powder"})

# The paints of each step, by its number.
Paints = Mapping[int, tuple[Paint, ...]]

BY_AUTHOR = "the author of the guide"


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing to beware of. `code` is a label's, None for what goes with a technique or comes from the author.

    `steps` are the steps it concerns, to be shown before the first of them; none where it concerns the whole guide.
    `subject` is what it is about in a word or two, `paints` the full names of the pots whose label has the code.
    """

    code: str | None
    text: str
    steps: tuple[int, ...]
    source: str
    subject: str = ""
    paints: tuple[str, ...] = ()


@dataclass(slots=True)
class _Label:
    text: str
    source: str
    steps: dict[int, None] = field(default_factory=dict)
    paints: dict[str, None] = field(default_factory=dict)


def cautions(scheme: Scheme, palette: Palette) -> tuple[Caution, ...]:
    """Every caution of a scheme, those for the whole guide first, then by the first step they concern.

    At one step the cautions of practice come first, gravest first, then the label's codes, then the author's own.
    The last line, always there, sends the reader to the label, the safety data sheet, local rules and trained people.
    """
    paints = {step.n: step_paints(step, palette) for step in scheme.steps}
    found = (*_practices(scheme, paints), *_labels(paints), *_authors(scheme))
    ordered = sorted(found, key=lambda caution: caution.steps[0] if caution.steps else 0)
    return (*ordered, _always())


def _practices(scheme: Scheme, paints: Paints) -> Iterator[Caution]:
    whole = guide_signs(scheme.guide)
    signs = {step.n: _signs(step, scheme, paints, whole) for step in scheme.steps}
    for key, practice in PRACTICE.items():
        steps = tuple(n for n, keys in signs.items() if key in keys)
        if steps or key in whole:
            yield Caution(
                code=None,
                text=practice.text,
                steps=steps if key in OF_STEPS or key not in whole else (),
                source=practice.source,
                subject=practice.subject,
            )


def _signs(step: SchemeStep, scheme: Scheme, paints: Paints, whole: set[str]) -> set[str]:
    signs = step_signs(step, paints[step.n])
    if "warm air" in signs | whole and signs & {"solvents", "sprays"}:
        signs.add("warm solvent")
    if signs & {"curing", "solvents"} and uncured_under(scheme.steps[: step.n - 1], paints):
        return signs | {"curing"}
    return signs - {"curing"}


def _labels(paints: Paints) -> Iterator[Caution]:
    labels: dict[tuple[str, str], _Label] = {}
    for n, used in paints.items():
        for paint in used:
            for entry in paint.hazards:
                for found in read_entry(entry.text):
                    label = labels.setdefault((found.code, found.text), _Label(found.text, found.source))
                    label.steps[n] = None
                    label.paints[paint.full_name] = None
    for (code, _), label in sorted(labels.items()):
        yield Caution(
            code=code,
            text=label.text,
            steps=tuple(label.steps),
            source=label.source,
            subject="Label",
            paints=tuple(label.paints),
        )


def _authors(scheme: Scheme) -> Iterator[Caution]:
    materials, tools = supplies(scheme)
    for supply in (*materials, *tools):
        for text in supply.cautions:
            yield Caution(code=None, text=text, steps=supply.steps, source=BY_AUTHOR, subject=supply.name)


def _always() -> Caution:
    return Caution(code=None, text=ALWAYS.text, steps=(), source=ALWAYS.source, subject=ALWAYS.subject)
