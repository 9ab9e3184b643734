"""`guidegen plan`: a painting project over the sittings there are, its finish, and what to buy for it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.base.exit_codes import FAULTS
from guidegen.terminal.common import content_option, json_option, print_json

if TYPE_CHECKING:
    from guidegen.base.diagnostic import Diagnostic
    from guidegen.building.check import Checked
    from guidegen.computing.plan.project import Project
    from guidegen.model.plan import Plan
    from guidegen.model.site import Archive

EXAMPLE = """\b
Examples:
  guidegen plan regatta
  guidegen plan regatta --json
"""


@click.command(epilog=EXAMPLE)
@click.argument("name")
@content_option
@json_option
def command(name: str, content: Path, *, as_json: bool) -> None:
    """Spread the painting over the sittings there are: what is painted when, when the last figure is dry, what to buy.

    NAME is the plan's file in plans/, without .yaml. A plan that misses its deadline is no error; what would mend it
    is said. Mistakes in the plan, its guides, the palette or site.yaml end with 1, those elsewhere are no matter.
    """
    from guidegen.building.check import check
    from guidegen.computing.plan.project import project_of

    checked = check(content)
    archive = checked.archive
    project = project_of(_plan(checked, name), archive.guides, archive.palette)
    if as_json:
        from guidegen.rendering.plan.plan_json import plan_data

        print_json(plan_data(project))
    else:
        click.echo(_text(project, archive.site.currency), nl=False)


def _plan(checked: Checked, name: str) -> Plan:
    """The plan that is asked for; without it, or with a mistake in what it needs, leave with 1."""
    from guidegen.base.diagnostic import has_errors
    from guidegen.base.suggest import folded
    from guidegen.commands.at_hand import known_help, leave
    from guidegen.terminal.common import show

    key = folded(name.removeprefix("plans/").removesuffix(".yaml"))
    plan = next((plan for plan in checked.archive.plans if folded(plan.slug) == key), None)
    concerned = [
        diagnostic for diagnostic in checked.diagnostics if _concerns(diagnostic, key, plan, checked.archive)
    ]
    if has_errors(concerned):
        show(concerned, checked.content)
        raise SystemExit(FAULTS)
    if plan is None:
        known = [plan.slug for plan in checked.archive.plans]
        leave(
            f"There is no plan “{name}”.", known_help(name, known, "Make one with guidegen start plans/NAME.")
        )
    return plan


def _concerns(diagnostic: Diagnostic, key: str, plan: Plan | None, archive: Archive) -> bool:
    """Whether a diagnostic lies in the plan, in a guide of it or a list that guide inserts, or in no guide or plan."""
    from guidegen.base.suggest import folded

    folder, _, rest = diagnostic.span.file.partition("/")
    if folder == "plans":
        return folded(rest.removesuffix(".yaml")) == key
    if folder not in ("guides", "shared"):
        return True
    units = {folded(unit.guide.text) for unit in plan.units} if plan else set()
    if folder == "guides":
        return folded(rest.partition("/")[0].removesuffix(".md")) in units
    inserted = {name for guide in archive.guides if folded(guide.slug) in units for name in guide.inserts}
    return rest.removesuffix(".yaml") in inserted


def _text(project: Project, currency: str) -> str:
    from guidegen.rendering.plan.plan_text import plan_text
    from guidegen.reporting.cells import harmless

    return "\n".join(map(harmless, plan_text(project, currency).split("\n")))
