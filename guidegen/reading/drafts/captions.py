"""Captions of a film: WebVTT (W3C, WebVTT: The Web Video Text Tracks Format) and SubRip (.srt, which no paper settles)."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from guidegen.reading.drafts.records import Cue
from guidegen.reading.paint_lists.rows import Problem

# Far more than anybody says in a day.
MOST_CUES = 20_000
LONGEST_CUE = 2_000
LONGEST_FILM = 24 * 3_600_000

_TIME = r"(?:(\d{1,4}):)?(\d{1,2}):(\d{1,2})(?:[.,](\d{1,3}))?"
_TIMING = re.compile(rf"\s*{_TIME}\s*-->\s*{_TIME}(?:\s.*)?")
_TAG = re.compile(r"<[^<>]{0,200}>|\{\\[^{}]{0,40}\}")
_VOICE = re.compile(r"<v(?:\.[^\s>]{0,40})?\s+([^<>]{1,80})>")
_NAMED = re.compile(r"(?:[-–>]+\s*)?([A-ZÄÖÜ][\w.]{1,20}):\s+(?=\S)")
# Two arrows say that another voice goes on, as is the custom in captions.
_ARROWS = re.compile(r"(?:^|(?<=\s))>{2,}\s*")
_NOISE = re.compile(r"\[[^\[\]]{0,60}\]|\([A-Z ]{3,40}\)|[♪♫]+")


class Captions(NamedTuple):
    """The cues in the order of the film, the language if the file says it, and what could not be read."""

    cues: tuple[Cue, ...]
    language: str
    problems: tuple[Problem, ...]


def read_captions(text: str) -> Captions:
    """The cues of a film; what other programs put around them (numbers, styles, places) is left out."""
    lines = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    problems: list[Problem] = []
    cues = sorted(_cues(lines, problems), key=lambda cue: cue.start or 0)
    if not cues and not problems:
        problems.append(
            Problem(1, "There are no captions in it: a line such as 00:04.000 --> 00:06.500 is missing.")
        )
    header = re.search(r"^Language:\s*([A-Za-z-]{2,12})\s*$", "\n".join(lines[:20]), re.MULTILINE)
    return Captions(
        tuple(_with_speakers(list(_without_echo(cues)))), header[1] if header else "", tuple(problems)
    )


def _cues(lines: list[str], problems: list[Problem]) -> Iterator[Cue]:
    count, at = 0, 0
    while at < len(lines):
        line = lines[at]
        at += 1
        if "-->" not in line:
            continue
        timing = _TIMING.fullmatch(line[:200])
        start, end = (_ms(timing.groups()[:4]), _ms(timing.groups()[4:])) if timing else (None, None)
        if start is None or end is None or start > LONGEST_FILM:
            problems.append(Problem(at, "The time of the caption cannot be read, so it was left out."))
            if len(problems) > 100:
                return
            continue
        count += 1
        if count > MOST_CUES:
            problems.append(
                Problem(at, f"There are more than {MOST_CUES:,} captions; the rest was left out.")
            )
            return
        body: list[str] = []
        first = at + 1
        while at < len(lines) and lines[at].strip() and "-->" not in lines[at]:
            body.append(lines[at])
            at += 1
        if body and at < len(lines) and "-->" in lines[at] and body[-1].strip().isdigit():
            body.pop()
        yield from _spoken(" \n".join(body)[:LONGEST_CUE], first, start, max(start, end))


def _spoken(text: str, line: int, start: int, end: int) -> Iterator[Cue]:
    """The words of a cue, one for each voice in it."""
    pieces = _VOICE.split(text)
    for speaker, words in zip(["", *pieces[1::2]], pieces[::2], strict=True):
        said = " ".join(_NOISE.sub(" ", html.unescape(_TAG.sub("", words))).split())
        if said:
            yield Cue("".join(c for c in said if c.isprintable()), line, start, end, speaker.strip())


def _with_speakers(cues: Sequence[Cue]) -> Iterator[Cue]:
    """Names before a colon as speakers, where at least two people are named so over and over, and voices that take turns."""
    named = [found[1] for cue in cues if not cue.speaker and (found := _NAMED.match(cue.text))]
    voices = {name for name in named if named.count(name) >= 3} if len(set(named)) < 12 else set()
    if not voices and any(_ARROWS.search(cue.text) for cue in cues):
        yield from _with_turns(cues)
        return
    speaker = ""
    for cue in cues:
        found = _NAMED.match(cue.text)
        if found and found[1] in voices and len(voices) > 1:
            speaker = found[1]
            yield replace(cue, text=cue.text[found.end() :], speaker=speaker)
        else:
            yield cue if cue.speaker or not speaker else replace(cue, speaker=speaker)


def _with_turns(cues: Sequence[Cue]) -> Iterator[Cue]:
    """The cues by the turn of voices, where arrows only tell that another goes on."""
    turn = 0
    for cue in cues:
        for at, text in enumerate(_ARROWS.split(cue.text)):
            turn += at > 0
            if text.strip():
                yield replace(cue, text=text.strip(), turn=turn)


def _without_echo(cues: Sequence[Cue]) -> Iterator[Cue]:
    """Rolling captions show each line twice: what the cue before ended with is taken off a cue's beginning."""
    before: list[str] = []
    for cue in cues:
        words = cue.text.split()
        same = next((n for n in range(min(len(before), len(words)), 0, -1) if before[-n:] == words[:n]), 0)
        rolling = same >= 3 or (same and same == len(words))
        if len(words) > (same if rolling else 0):
            fresh = words[same:] if rolling else words
            yield Cue(" ".join(fresh), cue.line, cue.start, cue.end, cue.speaker)
        before = words


def _ms(parts: tuple[str | None, ...]) -> int | None:
    hours, minutes, seconds, thousandths = (part or "0" for part in parts)
    if int(seconds) > 59:
        return None
    return ((int(hours) * 60 + int(minutes)) * 60 + int(seconds)) * 1000 + int(thousandths.ljust(3, "0"))
