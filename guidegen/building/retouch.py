"""A build after guides' texts were edited, in a process that did one before: no more is looked at than those."""

from __future__ import annotations

import time
from collections.abc import Collection
from dataclasses import replace

from guidegen.base.diagnostic import has_errors, in_order
from guidegen.building.build import Built, Order, check_found, counts_of
from guidegen.building.memory import AtHand, Memory
from guidegen.building.page_builder import Press
from guidegen.building.photos import photos_of
from guidegen.building.publishable import sound_of, stops
from guidegen.building.site import broken_templates_told, placeholder_for, published
from guidegen.model.guide import Guide
from guidegen.model.site import Archive
from guidegen.reading.content.discover import looked_at_again
from guidegen.rendering.page.site_context import SiteContext
from guidegen.writing.publish import publish_again


def retouch(order: Order, memory: Memory, changed: Collection[str]) -> Built | None:
    """Put the pages of edited guides in place, and leave those about all guides as they are for `build` to make.

    `changed` are the paths in content that were written to since the last build. None, with nothing written, where
    more than that may be otherwise: another file, photos, a page that comes or goes, a site somebody else wrote to.
    """
    started = time.monotonic()
    hand = memory.at_hand
    found = looked_at_again(hand.found, changed) if hand is not None else None
    if hand is None or found is None:
        return None
    memory.look_again_at(found)
    if (hand := memory.at_hand) is None:
        return None
    checked = check_found(order.content, found, memory)
    diagnostics = in_order((*checked.diagnostics, *hand.told))
    checked = replace(checked, diagnostics=diagnostics, sound=sound_of(checked.sound, diagnostics))
    if stops(diagnostics, leave_out_faulty=order.leave_out_faulty):
        return Built(diagnostics=diagnostics, counts=None)
    if has_errors(diagnostics):
        return None
    archive = published(checked.sound, drafts=order.drafts)
    context = _desk_again(hand.context, archive)
    if (
        context is None
        or context.palette_tools is not checked.palette_tools
        or not _same_photos(archive, memory, hand)
    ):
        return None
    with broken_templates_told() as broken:
        press = Press(context, checked.palette_tools, hand.templates, hand.version, memory)
        artifacts = press.pages_of_guides(archive)
        if artifacts is None:
            return None
        # Whatever becomes of it now, the site is no longer as it was.
        memory.at_hand = None
        put = publish_again(artifacts, hand.site, placeholder=placeholder_for(archive.site))
    if broken:
        return Built(diagnostics=in_order((*diagnostics, *broken)), counts=None)
    if put is None:
        return None
    memory.at_hand = replace(hand, context=context, site=put.left)
    counts = counts_of(started, pages=hand.pages, written=put.written, unchanged=put.unchanged)
    return Built(diagnostics=diagnostics, counts=counts, exchanged=put.exchanged)


def _desk_again(before: SiteContext, archive: Archive) -> SiteContext | None:
    """The desk with today's titles and charts; None where something else on it has changed."""
    lists = {one.name for one in archive.shared}
    if archive.site != before.site or bool(archive.plans) != before.plans or lists != set(before.shared):
        return None
    titles = {guide.slug: guide.title for guide in archive.guides}
    return replace(before, guides=titles, charts=archive.charts)


def _same_photos(archive: Archive, memory: Memory, hand: AtHand) -> bool:
    """Whether guides whose text has changed show the same photos, and nothing is to be told of these."""
    told = {diagnostic.span.file for diagnostic in hand.told}
    for guide in archive.guides:
        kept = memory.pages.get(guide.slug)
        before = kept.made_of[-1] if kept is not None else None
        if before is not guide and (
            not isinstance(before, Guide) or guide.file in told or _photos(guide) != _photos(before)
        ):
            return False
    return True


def _photos(guide: Guide) -> set[str | None]:
    return {photo.path for photo in photos_of(guide)}
