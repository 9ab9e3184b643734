"""The calendar file of a plan: read back by icalendar, in its zone, the same bytes each time."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar, Component
from support.languages import ENGLISH
from support.plans import computed, guide_of, plan_of, step, unit

from guidegen.computing.plan.project import project_of
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan
from guidegen.model.site import Site
from guidegen.model.web_address import WebAddress
from guidegen.rendering.plan.calendar import calendar
from guidegen.rendering.plan.timezones import describe_zone

TITLE = "Ferry watch in wet oilskins; ten of them, with a title as long as the jetty"
WATCH = replace(
    guide_of("ferry-watch", step("Prime, thinly", 5, 2, 30), step("Coats", 0, 3, 10, coats=2)), title=TITLE
)
DELTA = Site(url=WebAddress.parse("https://ferry.example/club"))
# From the last Saturday of winter time to the Sunday night on which it ends, in October as well.
PLAN = plan_of(
    unit(WATCH, 12),
    start=dt.date(2026, 3, 28),
    week={5: ((1380, 1500),), 6: ((600, 660),)},
    timezone="Europe/Amsterdam",
)


def written(plan: Plan = PLAN, site: Site = DELTA) -> bytes:
    return calendar(project_of(plan, [WATCH], Palette()), site, ENGLISH)


def read(data: bytes) -> Component:
    found = Calendar.from_ical(data)
    assert found.errors == []
    assert all(part.errors == [] for part in found.walk())
    return found


def test_every_sitting_is_an_event_in_the_sites_zone():
    sittings = computed(PLAN, WATCH).sittings
    events = read(written()).walk("VEVENT")
    assert [(event["dtstart"].dt, event["dtend"].dt) for event in events] == [
        (
            sitting.start.replace(tzinfo=ZoneInfo("Europe/Amsterdam")),
            sitting.end.replace(tzinfo=ZoneInfo("Europe/Amsterdam")),
        )
        for sitting in sittings
    ]
    assert {event["dtstart"].params["TZID"] for event in events} == {"Europe/Amsterdam"}
    assert [event["summary"] for event in events] == ["Regatta"] * len(sittings)


def test_the_description_is_the_to_do_list():
    (event, *_) = read(written()).walk("VEVENT")
    assert event["description"].splitlines() == [
        f"23:00 to 23:29: Prime, thinly, figures 1–12 ({TITLE})",
        f"23:37 to 00:13: Coats, coat 1 of 2, figures 1–12 ({TITLE})",
        f"00:13 to 00:49: Coats, coat 2 of 2, figures 1–12 ({TITLE})",
    ]


def test_stamps_are_the_plans_first_midnight():
    for event in read(written()).walk("VEVENT"):
        assert event["dtstamp"].dt == dt.datetime(2026, 3, 28, tzinfo=dt.UTC)


def test_reading_and_writing_again_changes_nothing():
    data = written()
    assert read(data).to_ical() == data
    assert written() == data


def test_lines_are_folded_and_end_as_the_rfc_asks():
    """RFC 5545, section 3.1: lines end in CRLF and are no longer than 75 octets."""
    lines = written().split(b"\r\n")
    assert lines[-1] == b""
    assert all(len(line) <= 75 and b"\n" not in line for line in lines)


def test_a_sitting_keeps_its_uid_when_other_things_change():
    def uids(data: bytes) -> list[str]:
        return [event["uid"] for event in read(data).walk("VEVENT")]

    more = replace(PLAN, title="Regatta on the weir", units=(unit(WATCH, 40),))
    assert uids(written(more))[0] == uids(written())[0]
    assert len(set(uids(written(more)))) == len(uids(written(more))) > 1
    assert uids(written(replace(PLAN, slug="night-ferry"))) != uids(written())


def test_a_site_in_utc_needs_no_zone():
    found = read(written(replace(PLAN, timezone="UTC")))
    assert found.walk("VTIMEZONE") == []
    assert found.walk("VEVENT")[0]["dtstart"].to_ical() == b"20260328T230000Z"


@pytest.mark.parametrize("zone", ["America", "No/Such", "", "../etc"])
def test_an_unknown_zone_leaves_local_times(zone: str):
    event = read(written(replace(PLAN, timezone=zone))).walk("VEVENT")[0]
    assert event["dtstart"].to_ical() == b"20260328T230000"
    assert "TZID" not in event["dtstart"].params


def test_a_plan_with_nothing_to_do_is_an_empty_calendar():
    assert read(written(replace(PLAN, units=()))).walk("VEVENT") == []


def test_the_zones_changes_begin_in_the_time_before_them():
    """RFC 5545, section 3.6.5: an onset is local time by the offset that it ends.

    Summer time in the European Union runs from 01:00 UTC on the last Sunday of March to the last of October
    (Directive 2000/84/EC).
    """
    zone = describe_zone(
        "Europe/Amsterdam", ZoneInfo("Europe/Amsterdam"), dt.date(2026, 5, 1), dt.date(2026, 6, 1)
    )
    found = [
        (part.name, part["dtstart"].to_ical(), part["tzoffsetfrom"].to_ical(), part["tzoffsetto"].to_ical())
        for part in zone.subcomponents
    ]
    assert found == [
        ("STANDARD", b"20251231T010000", "+0100", "+0100"),
        ("DAYLIGHT", b"20260329T020000", "+0100", "+0200"),
        ("STANDARD", b"20261025T030000", "+0200", "+0100"),
    ]


@pytest.mark.parametrize(
    "name", ["Europe/Dublin", "America/St_Johns", "Australia/Lord_Howe", "Africa/Casablanca", "Asia/Tokyo"]
)
def test_the_zone_as_described_is_the_zone(name: str):
    """The offsets in force by the written rules alone are the time zone database's, hour by hour for a year."""
    zone = ZoneInfo(name)
    described = describe_zone(name, zone, dt.date(2026, 1, 1), dt.date(2026, 12, 31))
    onsets = sorted(
        (part["dtstart"].dt - part["tzoffsetfrom"].td, part["tzoffsetto"].td)
        for part in described.subcomponents
    )
    moment = dt.datetime(2026, 1, 1, tzinfo=dt.UTC)
    for hour in range(365 * 24):
        now = moment + dt.timedelta(hours=hour)
        by_rules = [offset for onset, offset in onsets if onset <= now.replace(tzinfo=None)][-1]
        assert by_rules == now.astimezone(zone).utcoffset()


def test_years_at_the_ends_of_the_calendar_do_no_harm():
    for day in (dt.date.min, dt.date.max):
        assert describe_zone("Asia/Tokyo", ZoneInfo("Asia/Tokyo"), day, day).subcomponents


# From the Saturday before the clocks change; the hours are minutes of Sunday, 60 of which are skipped or come twice.
CHANGES = {
    "Europe/Amsterdam": (dt.date(2026, 3, 28), dt.date(2026, 10, 24), 120),
    "America/St_Johns": (dt.date(2026, 3, 7), dt.date(2026, 10, 31), 120),
    "America/Havana": (dt.date(2026, 3, 7), dt.date(2026, 10, 31), 0),
    "America/Asuncion": (dt.date(2023, 9, 30), dt.date(2023, 3, 25), 0),
    "Australia/Lord_Howe": (dt.date(2026, 10, 3), dt.date(2026, 4, 4), 120),
    "Pacific/Apia": (dt.date(2011, 12, 29), dt.date(2011, 4, 2), 600),
}
# Around the hour, in it, over its ends; the middle one is what nobody's clock shows in spring.
AROUND = ((-60, -30), (-30, 15), (15, 45), (50, 75), (75, 120))


@pytest.mark.parametrize("spring", [True, False])
@pytest.mark.parametrize("name", CHANGES)
def test_no_sitting_ends_before_it_begins_when_clocks_change(name: str, *, spring: bool):
    march, october, hour = CHANGES[name]
    start = march if spring else october
    hours = tuple((hour + begin, hour + end) for begin, end in AROUND if hour + begin >= 0)
    long = guide_of("heron", step("Feathers", 0, 5, 0))
    plan = plan_of(unit(long, 100), start=start, week=dict.fromkeys(range(7), hours), timezone=name)
    data = calendar(project_of(plan, [long], Palette()), Site(), ENGLISH)
    found = []
    for event in read(data).walk("VEVENT"):
        begin, end = (event[key].dt for key in ("dtstart", "dtend"))
        # What is written exists, so that no program has to guess.
        for moment in (begin, end):
            there = moment.astimezone(dt.UTC).astimezone(ZoneInfo(name))
            assert there.replace(tzinfo=None) == moment.replace(tzinfo=None)
        found.append((begin.astimezone(dt.UTC), end.astimezone(dt.UTC)))
    assert len(found) > 2 * len(hours)
    assert all(begin < end for begin, end in found)
    assert [begin for begin, _ in found] == sorted(begin for begin, _ in found)
    # On all other days a sitting is as long as it was planned.
    usual = {dt.timedelta(minutes=end - begin) for begin, end in hours}
    odd = [end - begin for begin, end in found if end - begin not in usual]
    assert len(odd) <= 2


def test_a_sitting_that_the_clocks_skip_is_not_held_and_one_in_part_is_shorter():
    """Clocks in Amsterdam go from 02:00 to 03:00 on 29 March 2026 (Directive 2000/84/EC)."""
    plan = plan_of(
        unit(WATCH, 30),
        start=dt.date(2026, 3, 29),
        week={6: ((120, 150), (170, 200), (230, 270))},
        timezone="Europe/Amsterdam",
    )
    data = calendar(project_of(plan, [WATCH], Palette()), DELTA, ENGLISH)
    events = read(data).walk("VEVENT")[:3]
    assert [f"{event['dtstart'].dt:%d %H:%M}-{event['dtend'].dt:%H:%M}" for event in events] == [
        "29 03:00-03:20",
        "29 03:50-04:30",
        "05 02:00-02:30",
    ]
