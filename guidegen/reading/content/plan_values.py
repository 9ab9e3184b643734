"""What a plan's own keys take: costs of changing over, what is painted already, a moment to go on from."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.model.names import Name
from guidegen.model.plan import Changes
from guidegen.reading.content.steps import DURATION
from guidegen.reading.types.base import Complaint, Label, Type, Words
from guidegen.reading.types.keys import Key, Record, record_of
from guidegen.reading.types.maps import named_entries
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.times import DATE
from guidegen.reading.yaml.nodes import MapNode, Node

CHANGE = Record(
    noun="change",
    about="What changing over to another pot costs.",
    keys=(
        Key("paint", DURATION, "Another paint.", default="2 min"),
        Key("mix", DURATION, "A mixture, with its own water and brush.", default="5 min"),
        Key("metal", DURATION, "A metal, with its own water and brush.", default="5 min"),
        Key("airbrush", DURATION, "Another colour in the airbrush.", default="5 min"),
    ),
)


_CHANGE_RECORD = record_of(CHANGE, lambda fields: Changes(**fields.values))


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeOf(Type[Changes]):
    """One time for every change, or one for each kind of pot."""

    expected: str = "a time such as 2 min, or {paint, mix, metal, airbrush}"
    example: str = "{paint: 2 min, mix: 5 min}"
    code: str = "bad-duration"
    record: Record = CHANGE

    def read(self, node: Node, key: str, context: ParseContext) -> Changes | None:
        if isinstance(node, MapNode):
            return _CHANGE_RECORD.read(node, key, context)
        every = DURATION.read(node, key, context)
        return None if every is None else Changes(paint=every, mix=every, metal=every, airbrush=every)


_DONE = Label(expected="the name of a step or stop", example="Coats")


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneOf(Type[Mapping[int, Name]]):
    """The step or stop up to which all is painted, one for the whole unit (0) or by the number of the batch."""

    expected: str = "a step or stop, or one for each batch such as {1: Coats}"
    example: str = "Coats"

    def read(self, node: Node, key: str, context: ParseContext) -> Mapping[int, Name] | None:
        if not isinstance(node, MapNode):
            name = _DONE.read(node, key, context)
            return None if name is None else {0: name}
        found: dict[int, Name] = {}
        for batch, entry in named_entries(node, key, context):
            if not re.fullmatch("[1-9][0-9]{0,5}", batch):
                context.bad(entry.key, key, "the number of a batch", f"Write it as in {key}: {{1: Coats}}")
                continue
            name = _DONE.read(entry.value, key, context)
            if name is not None:
                found[int(batch)] = name
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment(Words[dt.datetime]):
    """A day with the time on the clock there, or the day alone for its midnight."""

    expected: str = "a day with a time such as 2026-06-04T20:00"
    example: str = "2026-06-04T20:00"
    code: str = "bad-date"

    def of(self, text: str) -> dt.datetime | Complaint:
        found = re.fullmatch(r"([0-9-]+)(?:(?:T|t| |, *)([0-9]{1,2}):([0-9]{2})(?::00)?)?", text)
        day = DATE.of(found[1] if found else text)
        if isinstance(day, Complaint):
            return day
        hour, minute = (int(found[2] or 0), int(found[3] or 0)) if found else (0, 0)
        if hour > 23 or minute > 59:
            return Complaint("A day goes from 0:00 to 23:59.")
        return dt.datetime.combine(day, dt.time(hour, minute))
