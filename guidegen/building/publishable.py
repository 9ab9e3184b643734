"""What of an archive can be published in spite of its errors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import PurePosixPath

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.paths import slug
from guidegen.base.suggest import folded
from guidegen.model.site import Archive

# What lies in these folders can be left out while the rest is published.
_BY_THEMSELVES = ("guides/", "shared/", "plans/", "pages/")


def sound_of(archive: Archive, diagnostics: Sequence[Diagnostic]) -> Archive:
    """The archive without guides, plans, shared lists and pages that have errors, and without those that need one of them."""
    faulty = {diagnostic.span.file for diagnostic in diagnostics if diagnostic.is_fault}
    lists = {slug(PurePosixPath(file).stem) for file in faulty if file.startswith("shared/")}
    guides = tuple(
        guide
        for guide in archive.guides
        if faulty.isdisjoint({guide.file, guide.chart}) and lists.isdisjoint(guide.inserts)
    )
    # Without one of its guides a plan would promise too much.
    there = {folded(guide.slug) for guide in guides}
    plans = tuple(
        plan
        for plan in archive.plans
        if plan.file not in faulty and all(folded(unit.guide.text) in there for unit in plan.units)
    )
    shared = tuple(one for one in archive.shared if one.name not in lists)
    pages = tuple(page for page in archive.pages if page.file not in faulty)
    return replace(archive, guides=guides, plans=plans, shared=shared, pages=pages)


def stops(diagnostics: Sequence[Diagnostic], *, leave_out_faulty: bool) -> bool:
    """Whether errors forbid writing: any, or with faulty guides left out those of palette and site."""
    if not leave_out_faulty:
        return has_errors(diagnostics)
    return any(
        has_errors([diagnostic]) and not diagnostic.span.file.startswith(_BY_THEMSELVES)
        for diagnostic in diagnostics
    )
