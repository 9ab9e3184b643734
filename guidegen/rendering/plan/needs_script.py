"""What a plan takes as a script, for its page when the reader has told of pots: paints and amounts, as data alone."""

from __future__ import annotations

from guidegen.computing.guide.materials import paint_needs
from guidegen.computing.guide.scheme import Scheme
from guidegen.computing.plan.project import Project
from guidegen.rendering.guide.paints_script import sets_of
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.own_pots import OwnPots, own_pots_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import plan_file

NEEDS_SCRIPT = "paints.js"


def needs_script(project: Project, context: SiteContext) -> bytes:
    """The script's bytes: what each unit's paints ask of stand-ins, and how much of each it takes.

    Where a unit stops, the plan says.
    """
    palette = context.palette_tools.palette

    def told(scheme: Scheme, figures: int) -> dict[str, object]:
        data = sets_of(scheme, paint_needs(scheme, palette, figures), context).data | {"stops": []}
        if scheme.guide.slug in context.guides:
            return data
        # Of a guide that nobody can read yet only its paints are told.
        unnamed = {"title": context.language.t("plan.unpublished"), "areas": [""] * len(scheme.areas)}
        return data | {"slug": ""} | unnamed

    every = [told(scheme, figures) for unit in project.units for scheme, figures in unit.schemes]
    return f"guidegenNeeds({script_json(every)});\n".encode(errors="replace")


def plan_own(slug: str, context: SiteContext) -> OwnPots:
    """What the plan's page needs to ask for it."""
    return own_pots_of(context, plan_file(slug), context.assets.own_lists, plan_file(slug, NEEDS_SCRIPT))
