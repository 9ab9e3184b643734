"""The cautions of a guide, without anybody having asked: from its labels, its techniques and its authors."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.computing.guide.caution_signs import guide_signs, step_paints, step_signs, uncured_under
from guidegen.computing.guide.hazards import Statement, read_entry
from guidegen.computing.guide.materials import supplies
from guidegen.computing.guide.scheme import Scheme, SchemeStep
from guidegen.model.paint import Paint, Palette

# The usual cautions of the bench, in the order in which they are shown where two begin at the same step: the gravest
# first. What each says, and where it comes from, stands in the tables of the languages.
PRACTICE = (
    "isocyanate", "sprays", "airbrush", "warm solvent", "solvents", "ammonia", "stripping", "oily rags", "resin dust",
    "uncured", "uv resin", "lead", "cadmium", "super glue", "blades", "warm air", "magnifier", "powder", "dropper",
    "foam", "curing", "brushes",
)  # fmt: skip

# Ends every list of cautions.
ALWAYS = "always"

# What a step's technique and paints tell for certain: named among the guide's tools, it concerns those steps only.
OF_STEPS = frozenset({"sprays", "airbrush", "solvents", "oily rags", "powder"})

# The paints of each step, by its number.
Paints = Mapping[int, tuple[Paint, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing to beware of: what goes with a way of working, by its `key`; what a `label` says; or an author's `text`.

    `steps` are the steps it concerns, to be shown before the first of them; none where it concerns the whole guide.
    `subject` is what an author's is about, `paints` the full names of the pots whose label has the code.
    """

    key: str = ""
    label: Statement | None = None
    text: str = ""
    steps: tuple[int, ...]
    subject: str = ""
    paints: tuple[str, ...] = ()

    @property
    def code(self) -> str | None:
        """The code on a label, None for any other caution."""
        return None if self.label is None else self.label.code


@dataclass(slots=True)
class _Label:
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
    return (*ordered, Caution(key=ALWAYS, steps=()))


def _practices(scheme: Scheme, paints: Paints) -> Iterator[Caution]:
    whole = guide_signs(scheme.guide)
    signs = {step.n: _signs(step, scheme, paints, whole) for step in scheme.steps}
    for key in PRACTICE:
        steps = tuple(n for n, keys in signs.items() if key in keys)
        if steps or key in whole:
            yield Caution(key=key, steps=steps if key in OF_STEPS or key not in whole else ())


def _signs(step: SchemeStep, scheme: Scheme, paints: Paints, whole: set[str]) -> set[str]:
    signs = step_signs(step, paints[step.n])
    if "warm air" in signs | whole and signs & {"solvents", "sprays"}:
        signs.add("warm solvent")
    if signs & {"curing", "solvents"} and uncured_under(scheme.steps[: step.n - 1], paints):
        return signs | {"curing"}
    return signs - {"curing"}


def _labels(paints: Paints) -> Iterator[Caution]:
    labels: dict[Statement, _Label] = {}
    for n, used in paints.items():
        for paint in used:
            for entry in paint.hazards:
                for found in read_entry(entry.text):
                    label = labels.setdefault(found, _Label())
                    label.steps[n] = None
                    label.paints[paint.full_name] = None
    for found, label in sorted(labels.items(), key=lambda row: (row[0].code, row[0].substance)):
        yield Caution(label=found, steps=tuple(label.steps), paints=tuple(label.paints))


def _authors(scheme: Scheme) -> Iterator[Caution]:
    materials, tools = supplies(scheme)
    for supply in (*materials, *tools):
        for text in supply.cautions:
            yield Caution(text=text, steps=supply.steps, subject=supply.name)
