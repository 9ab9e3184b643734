"""plans/<slug>.yaml: a painting project."""

from __future__ import annotations

import datetime as dt

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.source import Source
from guidegen.base.units import DAY
from guidegen.model.plan import Plan, Timetable, Unit
from guidegen.reading.content.guide import BATCH, CHOSEN, FIGURES, GUIDE_NAME, MIXED
from guidegen.reading.content.plan_values import ChangeOf, DoneOf, Moment
from guidegen.reading.content.steps import DRYING, DURATION
from guidegen.reading.types.base import SHORT_TEXT, Fields, Label, list_of
from guidegen.reading.types.keys import Key, Record, read_whole, record_of
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.times import DATE, TimetableOf

# Stands in where a plan's start is left out or cannot be read; the plan is faulty then and is not computed.
NO_START = dt.date(2000, 1, 1)

# Every day of two years.
MOST_DAYS_OFF = 731

# As many steps as a guide may have.
MOST_STEPS_LEFT_OUT = 500

TIMETABLE = TimetableOf()
_STEP_NAME = Label(expected="the name of a step", example="Puddles")

UNIT = Record(
    noun="unit",
    about="Figures to paint by one guide.",
    keys=(
        Key(
            "guide", GUIDE_NAME, "The guide, by its folder's or file's name, or by its title.", required=True
        ),
        Key(
            "figures",
            FIGURES,
            "How many figures.",
            required=True,
            instead_of=("count", "number", "models"),
        ),
        Key("batch", BATCH, "How many at a time, or all.", default="the guide's, else the site's, else all"),
        Key(
            "to",
            Label(expected="the name of a stop", example="Fit to field"),
            "The stop that they are painted up to.",
            default="the guide's end",
        ),
        Key(
            "choose",
            CHOSEN,
            "The variant that is painted.",
            default="the guide's first",
        ),
        Key(
            "mixed",
            MIXED,
            "How many figures take each option of one choice, in this order.",
            default="all alike",
        ),
        Key(
            "trial", FIGURES, "Test figures, which go to the unit's end before the others begin.", example="1"
        ),
        Key(
            "done",
            DoneOf(),
            "The step or stop up to which all is painted already, for the unit or for each batch.",
            example='"Coats"',
        ),
        Key(
            "without",
            list_of(_STEP_NAME, "the names of steps, or optional", most=MOST_STEPS_LEFT_OUT),
            "Steps that are left out; optional stands for all optional ones.",
            example="optional",
        ),
    ),
)


def _unit(fields: Fields) -> Unit | None:
    """A unit whose figures cannot be read counts one, so that its other names are looked at all the same."""
    if "guide" not in fields.values:
        return None
    return Unit(**({"figures": 1} | fields.values), span=fields.span, places=fields.places)


PLAN = Record(
    noun="plan",
    about="A painting project: what is to be painted, and when there is time for it.",
    beside=(UNIT,),
    keys=(
        Key("title", SHORT_TEXT, "What the project is called.", required=True, example="The regatta"),
        Key(
            "start",
            DATE,
            "The first day.",
            required=True,
            example="2026-06-01",
            instead_of=("begin", "starts"),
        ),
        Key(
            "deadline",
            DATE,
            "The day it has to be done.",
            example="2026-06-20",
            instead_of=("due", "end", "until"),
        ),
        Key(
            "sittings",
            TIMETABLE,
            "When there is time to paint; a date beats a day, a day beats a range of days.",
            required=True,
        ),
        Key(
            "spraying",
            TIMETABLE,
            "When spraying is possible; steps with can or airbrush wait for it.",
            default="in every sitting",
            example='{sat: "10:00-12:00"}',
        ),
        Key(
            "skip",
            list_of(DATE, "a list of dates", most=MOST_DAYS_OFF),
            "Days on which nothing is painted.",
            example="[2026-06-10]",
        ),
        Key(
            "change",
            ChangeOf(),
            "What changing over to another pot costs, one time for all or one for each kind.",
            default="2 min for a paint, 5 min for a mixture, a metal, an airbrush colour",
        ),
        Key("set_up", DURATION, "Laying out at the beginning of a sitting.", default="0", example="10 min"),
        Key("clean_up", DURATION, "Clearing up at the end of a sitting.", default="0", example="10 min"),
        Key(
            "cure",
            DRYING,
            "How long water-based paint lies before a can, solvent or tape touches it.",
            default="the site's, else 24 h",
            example="24 h",
        ),
        Key(
            "from",
            Moment(),
            "The moment to go on from; what lies before it is past.",
            default="the start",
            field="since",
        ),
        Key(
            "units",
            list_of(record_of(UNIT, _unit), "a list of units, each beginning with - guide:", lone=False),
            "What is to be painted.",
            required=True,
            example="[{guide: ferry-watch, figures: 10, batch: 5}]",
        ),
    ),
)


def read_plan(
    source: Source, *, slug: str, cure: int = DAY, timezone: str = "UTC"
) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """A plan, a pure function of what it is given; None where its file cannot be read at all.

    What cannot be read is told and left out; a start that is missing is `NO_START`, sittings that are missing are
    empty. A plan with an error in its file is for checking names, not for computing evenings.
    """
    context = ParseContext(source)
    fields = read_whole(
        PLAN,
        context,
        empty="This plan has no title, start, sittings and units.",
        help_line="Add title:, start:, sittings: and units:.",
    )
    if fields is None:
        return None, tuple(context.diagnostics)
    values = dict(fields.values)
    values.setdefault("title", "")
    values.setdefault("start", NO_START)
    values.setdefault("sittings", Timetable())
    values.setdefault("cure", cure)
    values["timezone"] = timezone
    values["skip"] = frozenset(values.get("skip", ()))
    values["units"] = tuple(values.get("units", ()))
    whole = not has_errors(context.diagnostics)
    plan = Plan(**values, slug=slug, file=source.file, whole=whole, span=fields.span, places=fields.places)
    return plan, tuple(context.diagnostics)
