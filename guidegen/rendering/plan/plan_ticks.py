"""What a plan's script needs to keep ticks with the bench's, batch by batch, and to say where one is."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from guidegen.base.suggest import folded
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.plan.jobs import Job
from guidegen.computing.plan.planned_pass import PlannedPass, painted_before, planned_passes
from guidegen.computing.plan.project import Project
from guidegen.computing.plan.units import UnitScheme
from guidegen.rendering.guide.clock_data import store_key
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.site_context import SiteContext

SCRIPT_WORDS = ("plan.ticked", "plan.print-sitting", "plan.bench", "plan.copy", "plan.copied")


class UnitTicks:
    """A unit's steps and batches as the bench counts them: by the figures of a batch that have had a coat."""

    def __init__(self, project: Project, unit: UnitScheme) -> None:
        self.unit = unit
        self.passes: tuple[PlannedPass, ...] = planned_passes(unit, project.plan.change)
        self.step_of = {p.work.n: p for p in self.passes}

    def first(self, batch: int) -> int:
        """The first figure of a batch, counted through the unit from 1."""
        return sum(self.unit.batches[: batch - 1]) + 1

    def members(self, batch: int, n: int) -> tuple[int, int]:
        """The first and the last figure of a batch that a step is for; the last is before the first for none."""
        first = self.first(batch)
        last = first + self.unit.batches[batch - 1] - 1
        low, high = self.step_of[n].figures or (first, last)
        return max(first, low), min(last, high)

    def count(self, batch: int, n: int) -> int:
        """How many figures of a batch the bench counts at a step: one where all are done in one go."""
        low, high = self.members(batch, n)
        return min(high - low + 1, 1) if not self.step_of[n].work.each else max(0, high - low + 1)

    def of_job(self, job: Job) -> tuple[int, int]:
        """How many figures have had a job's coat before it, and after it."""
        if not self.step_of[job.n].work.each:
            return 0, 1
        low, _ = self.members(job.batch, job.n)
        return job.figures[0] - low, job.figures[1] - low + 1

    def behind(self, batch: int) -> int:
        """The last step that a batch had behind it when the plan began, 0 for none."""
        before = painted_before(self.unit, batch, self.passes)
        return self.passes[before - 1].work.n if before else 0


def ticks_data(
    project: Project,
    ticks: Mapping[int, UnitTicks],
    names: Mapping[int, str],
    places: Mapping[int, Mapping[int, str]],
    context: SiteContext,
) -> str:
    """The plan's units with their steps and batches, as JSON. `places` lead to a unit's steps on its guide's page."""
    units = [
        _unit(project, ticks[one.unit], names[one.unit], places[one.unit], context) for one in project.units
    ]
    words = {key: context.language.phrases[key] for key in SCRIPT_WORDS}
    return script_json({"plan": project.plan.slug, "units": units, "words": words})


def _unit(
    project: Project, ticks: UnitTicks, name: str, places: Mapping[int, str], context: SiteContext
) -> dict[str, Any]:
    unit = ticks.unit
    seen = unit.guide.slug in context.guides
    place = f"{project.plan.slug}.{unit.unit}"
    steps = [step for step in unit.scheme.steps if step.n in ticks.step_of]
    last = {folded(step.step.title): step.n for step in steps}
    folder = posixpath.dirname(next(iter(places.values()), ""))
    key = store_key(unit.guide, context, unit=place)
    bench = f"{folder}/" if seen and folder and not unit.guide.handbook else ""
    options = {
        step.n: folded(step.step.only[unit.choice].text) for step in steps if unit.choice in step.step.only
    }
    pages = {option: _page(places.get(n, "")) for n, option in reversed(options.items())}
    keys = key.removesuffix("1") if seen else f"guidegen:{context.site.title}::{place}:"
    return {
        "n": unit.unit,
        "place": place,
        "name": name,
        "bench": bench,
        "steps": [
            {
                **_on_page(step.n, places),
                # A step of one option only, whose figures are not the whole batch.
                **({"own": True} if step.n in options else {}),
                "coats": step.step.coats,
                # `done` means the last step of a title.
                "title": step.step.title if seen and last[folded(step.step.title)] == step.n else "",
            }
            for step in steps
        ],
        "batches": [_batch(ticks, number, steps, pages, keys) for number in range(1, len(unit.batches) + 1)],
    }


def _on_page(n: int, places: Mapping[int, str]) -> dict[str, Any]:
    """Where a step stands. A guide without a page has no places, and its words stay unsaid."""
    place = places.get(n, "")
    return {"n": n, "page": _page(place), "id": place.partition("#")[2] or str(n)}


def _batch(
    ticks: UnitTicks, number: int, steps: Iterable[SchemeStep], pages: Mapping[str, str], keys: str
) -> dict[str, Any]:
    """A batch by its number: what the browser keeps it under, how large it is, and what of it is done."""
    return {
        "key": f"{keys}{number}",
        "figures": ticks.unit.batches[number - 1],
        "behind": ticks.behind(number),
        "counts": [ticks.count(number, step.n) for step in steps],
        **_mixture(ticks, number, pages),
    }


def _mixture(ticks: UnitTicks, batch: int, pages: Mapping[str, str]) -> dict[str, Any]:
    """How many figures of a batch take each option of a mixed choice, and the page of the first that has any.

    `pages` has the page of each option's own steps. The steps that all options have are painted by that page's bench.
    """
    unit = ticks.unit
    if not unit.varieties:
        return {}
    first = ticks.first(batch)
    last, begins, mixed = first + unit.batches[batch - 1] - 1, 1, dict[str, int]()
    for one in unit.varieties:
        there = min(last, begins + one.figures - 1) - max(first, begins) + 1
        if there > 0:
            mixed[one.option] = there
        begins += one.figures
    page = next((pages[folded(option)] for option in mixed if folded(option) in pages), "index")
    return {"mixed": {unit.choice: mixed}, "page": page}


def _page(place: str) -> str:
    return posixpath.basename(place.partition("#")[0]).removesuffix(".html") or "index"


def all_ticks(project: Project) -> dict[int, UnitTicks]:
    """Every unit's, by its number."""
    units: Sequence[UnitScheme] = project.units
    return {unit.unit: UnitTicks(project, unit) for unit in units}
