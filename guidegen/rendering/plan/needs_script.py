"""What a plan takes as a script, for its page when the reader has told of pots: paints and amounts, as data alone."""

from __future__ import annotations

from collections.abc import Iterable

from guidegen.computing.guide.materials import PaintNeed, round_ml
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.own_pots import OwnPots, own_pots_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import plan_file

NEEDS_SCRIPT = "paints.js"


def needs_script(needs: Iterable[PaintNeed]) -> bytes:
    """The script's bytes."""
    told = [(need.paint.full_name, round_ml(need.ml)) for need in needs]
    return f"guidegenNeeds({script_json(told)});\n".encode(errors="replace")


def plan_own(slug: str, context: SiteContext) -> OwnPots:
    """What the plan's page needs to ask for it."""
    return own_pots_of(context, plan_file(slug), context.assets.own_lists, plan_file(slug, NEEDS_SCRIPT))
