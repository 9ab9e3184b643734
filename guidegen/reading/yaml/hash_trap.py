"""The trap of the #: after a space it begins a remark, so `name: Grey #2` loses its end without a word.

Such places are looked for before YAML complains. The text is read with another character in their stead:
what then turns out to lie within a plain value is a value cut short; what lies within quotes or another
remark is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import islice
from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic, Fix
from guidegen.base.source import Source
from guidegen.reading.yaml.quoting import in_quotes, quoted, shortened

# More than anybody types by mistake; the rest is told once these are mended.
_MOST = 500
# How far to look for the beginning of a line and for what stands below it: longer than any line that is typed.
_FAR = 4_000

_SPACED = re.compile(r"(?<=[ \t])#(?=\S)")
_TIGHT = re.compile(r"(?<=[\[{,])#(?=\S)")
_TEXT_BLOCK = re.compile(r"(?:^|[\s:-])[|>][-+0-9]{0,2}$")
_BARE_KEY = re.compile(r"[^\[\]{}\"'#]+:")


class Reading(NamedTuple):
    """One way to read the text: some # under a stand-in, the others as remarks.

    `remarks` leads from the end of what stands before such a remark to its #.
    """

    text: str
    stand_in: str
    remarks: Mapping[int, int]

    def restored(self, value: str) -> str:
        """A value with the # put back."""
        return value.replace(self.stand_in, "#") if self.stand_in else value

    def is_cut_short(self, start: int, end: int) -> bool:
        """Whether a plain value has a # in it that YAML would take for a remark, or for one after a bracket."""
        at = self.text.find(self.stand_in, start, end) if self.stand_in else -1
        while at >= 0:
            if at == start or self.text[at - 1] in " \t":
                return True
            at = self.text.find(self.stand_in, at + 1, end)
        return False


def readings(text: str, start: int, stop: int) -> Iterator[Reading]:
    """The ways to read a text, in the order to try them; mostly one, as it stands."""
    several = (found.start() for found in _SPACED.finditer(text, start, stop))
    spaced = list(islice((at for at in several if _may_be_meant(text, at)), _MOST))
    tight = [found.start() for found in islice(_TIGHT.finditer(text, start, stop), _MOST)]
    inside = [at for at in spaced if not _is_surely_a_remark(text, at, stop)]
    if inside:
        yield _reading(text, inside, sorted(set(spaced) - set(inside)))
    yield _reading(text, [], spaced)
    if tight:
        yield _reading(text, inside + tight, sorted(set(spaced) - set(inside)))


def _reading(text: str, replaced: list[int], left: list[int]) -> Reading:
    # A private-use character that the text has not; with all of them in it, every # stays a remark.
    stand_in = (
        next((chr(code) for code in range(0xE000, 0xF8FF) if chr(code) not in text), "") if replaced else ""
    )
    if not stand_in:
        return Reading(text, "", {_end_before(text, at): at for at in (*left, *replaced)})
    characters = list(text)
    for at in replaced:
        characters[at] = stand_in
    return Reading("".join(characters), stand_in, {_end_before(text, at): at for at in left})


def _end_before(text: str, at: int) -> int:
    """The end of what stands before an offset, blanks aside."""
    while at > 0 and text[at - 1] in " \t":
        at -= 1
    return at


def _before(text: str, at: int) -> str:
    """What stands before an offset on its line, without blanks at its end."""
    near = max(at - _FAR, 0)
    return text[max(text.rfind("\n", near, at) + 1, near) : at].rstrip()


def _may_be_meant(text: str, at: int) -> bool:
    """Whether a # may belong to a value: something that is no remark stands before it on its line."""
    before = _before(text, at)
    return bool(before) and not before.lstrip().startswith("#")


def _is_surely_a_remark(text: str, at: int, stop: int) -> bool:
    """Whether a # begins a remark, since it follows a quote, a bracket, the sign of a block of text, or a key whose value
    stands on the lines below.
    """
    before = _before(text, at)
    if before[-1] in "\"']}" or before in {"---", "..."} or _TEXT_BLOCK.search(before):
        return True
    if not _BARE_KEY.fullmatch(before):
        return False
    own = len(before) - len(before.lstrip())
    below = text.find("\n", at, stop) + 1 or stop
    for line in text[below : min(below + _FAR, stop)].split("\n"):
        content = line.strip()
        if content and not content.startswith("#"):
            set_in = len(line) - len(line.lstrip())
            return set_in > own or (
                set_in == own and content.startswith("- ") and not before.lstrip().startswith("-")
            )
    return False


def is_colour_key(key: str) -> bool:
    """Whether what stands after this key is a colour, in every table."""
    return key.casefold() in {"colour", "color"}


def cut_short(source: Source, key: str, value: str, start: int, end: int) -> Diagnostic:
    """bad-colour or text-after-hash for a value that loses what stands from its # on. `key` is '' in a list."""
    span = source.span(start, end)
    label = f"{key}: " if key else ""
    # A second # may begin a real remark, and what lies on several lines is for the author to put together.
    alone = value.count("#") == 1 and "\n" not in source.text[start:end] and source.text[start:end] == value
    fix = Fix(span=span, text=in_quotes(value)) if alone else None
    if is_colour_key(key):
        return Diagnostic(
            code="bad-colour",
            message=f"The colour {shortened(value)} is lost: after a space, # begins a remark.",
            span=span,
            help=f"Put it in quotes, {label}{quoted(value)}, or leave the # out.",
            fix=fix,
        )
    lost = value[max(value.find(" #") + 1, 0) :]
    return Diagnostic(
        code="text-after-hash",
        message=f"“{shortened(lost)}” is lost: after a space, # begins a remark.",
        span=span,
        help=f"Put the value in quotes: {label}{quoted(value)}. A real remark needs a space after the #.",
        fix=fix,
    )
