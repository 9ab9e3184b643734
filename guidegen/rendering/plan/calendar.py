"""A plan for a calendar program: iCalendar after RFC 5545, one event for each sitting.

Nothing in it comes from a clock, so the same plan gives the same bytes: DTSTAMP is the plan's first midnight in UTC,
and a sitting keeps its UID for as long as it begins at the same time.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Mapping
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from guidegen.computing.plan.jobs import Job, Sitting
from guidegen.computing.plan.local_clock import zone_of
from guidegen.computing.plan.project import Project
from guidegen.model.plan import Plan
from guidegen.model.site import Site
from guidegen.rendering.page.urls import plan_file
from guidegen.rendering.plan.plan_words import clock_of, coat_of, figures_of, unit_names
from guidegen.rendering.plan.timezones import describe_zone, reached
from guidegen.words.language import Language

if TYPE_CHECKING:
    from icalendar import Event

# The identifier of what made the file, the same in every language.
PRODUCT = "-//guidegen//painting plans//EN"


def calendar(project: Project, site: Site, language: Language) -> bytes:
    """The calendar file of a computed plan, in words of a language.

    Times stand in the site's time zone with its VTIMEZONE, in UTC for a site that keeps it, and without a zone, so
    as local time wherever they are read, where this machine does not know the site's.
    """
    from icalendar import Calendar

    plan, computed, names = project.plan, project.schedule, unit_names(project.units, language)
    zone = zone_of(plan.timezone)
    found = Calendar()
    found.add("prodid", PRODUCT)
    found.add("version", "2.0")
    found.add("calscale", "GREGORIAN")
    found.add("name", plan.title)
    # What older programs read instead of RFC 7986's NAME.
    found.add("x-wr-calname", plan.title)
    if isinstance(zone, ZoneInfo) and computed.sittings:
        days = computed.sittings[0].start.date(), computed.sittings[-1].end.date()
        found.add_component(describe_zone(zone.key, zone, *days))
    for sitting in computed.sittings:
        found.add_component(_event(plan, sitting, site, zone, names, language))
    return bytes(found.to_ical())


def _event(
    plan: Plan,
    sitting: Sitting,
    site: Site,
    zone: dt.tzinfo | None,
    names: Mapping[int, str],
    language: Language,
) -> Event:
    from icalendar import Event

    address = site.url.file(plan_file(plan.slug)) if site.url else ""
    event = Event()
    event.add(
        "uid", str(uuid.uuid5(uuid.NAMESPACE_URL, f"{address or plan.slug}#{sitting.start.isoformat()}"))
    )
    event.add("dtstamp", dt.datetime.combine(plan.start, dt.time(), tzinfo=dt.UTC))
    for key, moment in (("dtstart", sitting.start), ("dtend", sitting.end)):
        event.add(key, moment if zone is None else reached(moment, zone))
    event.add("summary", plan.title)
    event.add("description", "\n".join(_line(job, names, language) for job in sitting.jobs))
    if address:
        event.add("url", address)
    return event


def _line(job: Job, names: Mapping[int, str], language: Language) -> str:
    return language.t(
        "plan.job",
        start=clock_of(job.start),
        end=clock_of(job.end),
        step=", ".join(filter(None, (job.title, coat_of(job, language)))),
        figures=figures_of(job, language),
        unit=names[job.unit],
    )
