"""Advice that its author says is meant is given no more."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator

from guidegen.base.codes import Severity
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.slips import only_meant
from guidegen.base.suggest import folded
from guidegen.checking.case import GuideCase, did_you_mean, quoted_name
from guidegen.model.guide import Guide, Step
from guidegen.model.site import Archive
from guidegen.reading.yaml.quoting import fix_of


def steps_are_known(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-step: `meant` names steps by their titles."""
    titles = tuple(step.title for step in case.guide.steps)
    known = set(map(folded, titles))
    diagnosed: set[str] = set()
    for one in case.guide.meant:
        if one.step is None or folded(one.step.text) in known | diagnosed:
            continue
        diagnosed.add(folded(one.step.text))
        yield Diagnostic(
            code="unknown-step",
            message=f"The guide has no step {quoted_name(one.step)}.",
            span=one.step.span,
            help=did_you_mean(one.step.text, titles) or "Write the title of a step.",
            fix=fix_of(one.step, only_meant(one.step.text, titles)),
        )


def without_meant(diagnostics: Iterable[Diagnostic], guide: Guide) -> Iterator[Diagnostic]:
    """What is told about a guide, but for the advice that it says is meant."""
    by_code: dict[str, set[str]] = {}
    for one in guide.meant:
        by_code.setdefault(one.code, set()).add("" if one.step is None else folded(one.step.text))
    steps = sorted((step for step in guide.steps if by_code), key=lambda step: step.span)
    starts = [step.span for step in steps]
    for diagnostic in diagnostics:
        meant = by_code.get(diagnostic.code, set())
        step = _step_of(diagnostic, steps[: bisect_right(starts, diagnostic.span)])
        if not meant & {"", step} or diagnostic.severity is Severity.ERROR:
            yield diagnostic


def _step_of(diagnostic: Diagnostic, above: list[Step]) -> str:
    """The folded title of the step that a place lies in: the last one that begins above it in its file."""
    last = above[-1] if above else None
    return folded(last.title) if last is not None and last.span.file == diagnostic.span.file else " "


def all_without_meant(diagnostics: Iterable[Diagnostic], archive: Archive) -> Iterator[Diagnostic]:
    """The same for all content, by the file of each guide, and by what holds for the whole site."""
    guides = {guide.file: guide for guide in archive.guides if guide.meant}
    for diagnostic in diagnostics:
        if diagnostic.severity is not Severity.ERROR and diagnostic.code in archive.site.meant:
            continue
        guide = guides.get(diagnostic.span.file)
        yield from [diagnostic] if guide is None else without_meant([diagnostic], guide)
