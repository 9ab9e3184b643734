"""What a draft is made of: cues with their times, steps as far as they were told, stops, doubts."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Cue:
    """Words that were said or noted together. `start` and `end` in ms, None where there is no film; `turn` counts voices."""

    text: str
    line: int
    start: int | None = None
    end: int | None = None
    speaker: str = ""
    turn: int = 0


@dataclass(slots=True, kw_only=True)
class DraftStep:
    """A step as far as it was told. `paints` are names as a guide writes them, `parts` how much of each, as typed.

    Times are in ms: `at` in the film, `dry` in the air, `warm` under a hair dryer, `each` for a figure. `technique_said`
    is False where the technique is what such pots are usually for, `guessed` True where the paint was not named. `only`
    names who gets the step, `nouns` are words by which it can be meant later. `said` becomes the step's text, `beside`
    and `doubts` comments.
    """

    paints: list[str] = field(default_factory=list)
    parts: dict[str, str] = field(default_factory=dict)
    technique: str = ""
    technique_said: bool = False
    areas: list[str] = field(default_factory=list)
    title: str = ""
    at: int | None = None
    dry: int | None = None
    warm: int | None = None
    each: int | None = None
    coats: int = 1
    brush: str = ""
    thin: str = ""
    instead: list[tuple[str, str]] = field(default_factory=list)
    mind: list[str] = field(default_factory=list)
    look_for: list[str] = field(default_factory=list)
    if_wrong: list[str] = field(default_factory=list)
    spots: list[str] = field(default_factory=list)
    stray: list[str] = field(default_factory=list)
    optional: bool = False
    only: str = ""
    as_before: bool = False
    guessed: bool = False
    nouns: set[str] = field(default_factory=set)
    said: list[str] = field(default_factory=list)
    beside: list[str] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)
    photos: list[str] = field(default_factory=list)
    other_photos: list[str] = field(default_factory=list)


@dataclass(slots=True, kw_only=True)
class DraftStop:
    """A place to call it done; `said` are the words by which it was known."""

    name: str
    said: str = ""


Entry = DraftStep | DraftStop


@dataclass(slots=True, kw_only=True)
class Draft:
    """Steps and stops in order, and what is told of them on the terminal.

    `likely` are names heard with the pot that each was taken for, `unknown` names that no pot has.
    """

    language: str
    entries: list[Entry] = field(default_factory=list)
    likely: dict[str, str] = field(default_factory=dict)
    unknown: list[str] = field(default_factory=list)
    intro: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)

    @property
    def steps(self) -> list[DraftStep]:
        """The steps alone."""
        return [entry for entry in self.entries if isinstance(entry, DraftStep)]
