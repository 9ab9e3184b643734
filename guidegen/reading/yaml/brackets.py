"""What is wrong with brackets and braces, and with what stands between them."""

from __future__ import annotations

import re

from guidegen.reading.yaml.fault import Edit, Fault, RefusedAt
from guidegen.reading.yaml.quoting import in_quotes, quoted, shortened

_CLOSING = {"[": "]", "{": "}"}
# Quoted texts and remarks, to be passed over; brackets; and where a line begins. A quote within a word opens nothing,
# and so no line has more than one that is looked at to its end in vain.
_PIECES = re.compile(
    r"(?<![^\s\[{,:])\"(?:[^\"\\\n]|\\.)*+\"|(?<![^\s\[{,:])'[^'\n]*'|(?<=[\s\[{,])#[^\n]*|[\[{]|[\]}]|\n( *)(?=\S)"
)
_KEY_ALONE = re.compile(r"([^\W\d]\w*):(\s*\?)?\s*\Z")
# What a value does not begin with as plain text: quotes, brackets, and what YAML has a meaning for.
SIGNS = "\"'[]{},#&*!|>@`%?-:"


def brackets(place: RefusedAt) -> Fault | None:
    """The fault, None where it lies elsewhere."""
    text, at, since = place.text, place.at, place.since
    no_value = _no_value(place)
    if no_value is not None:
        return no_value
    if "node content" in place.problem:
        since = innermost_open(text, place.start, at)
        if place.sign == "," and (since is None or text.count("\n", since, at) == 0):
            return Fault(
                "Nothing stands before this comma.",
                "Take the comma out.",
                at,
                at + 1,
                edit=Edit(at, at + 1, ""),
            )
        return _not_closed(place, since) if since is not None else None
    if "',' or" in place.problem and since is not None and text[since] in _CLOSING:
        close = _CLOSING[text[since]]
        if place.sign in {"]", "}"} and place.sign != close:
            return Fault(
                f"The {text[since]} opened before is closed with {place.sign} here.",
                f"Put {close} here, or before this.",
                at,
                at + 1,
                (since, f"opens with {text[since]}."),
                Edit(at, at + 1, close),
            )
        if not place.sign or not _is_closed(text, since, place.stop):
            return _not_closed(place, since)
        return _within(place, since)
    if place.sign in {"]", "}"}:
        return Fault(
            f"The {place.sign} here closes nothing.", "Take it out.", at, at + 1, edit=Edit(at, at + 1, "")
        )
    return None


def _no_value(place: RefusedAt) -> Fault | None:
    """A key in brackets with nothing after its colon, not even a blank, or with a question mark only."""
    text, at = place.text, place.at
    if not (place.sign == ":" and "unexpected ':'" in place.problem) and place.sign != "?":
        return None
    end = at + 1
    found = _KEY_ALONE.search(text, place.start_of_line(at), end)
    if found is None or not re.match(r"\s*[,\]}]", text[end : end + 20]):
        return None
    begin, close = found.span()
    # Only within its line, since an edit lies in one.
    comma = re.match(r"[ \t]*,[ \t]*", text[close : place.stop])
    if text[:begin].rstrip(" \t").endswith(","):
        begin = text.rindex(",", 0, begin)
    elif comma:
        close += comma.end()
    return Fault(
        f"Nothing stands after {found[1]}." if not found[2] else f"Only a ? stands after {found[1]}.",
        f"Write its value after {found[1]}: and a space, or take {found[1]}: out.",
        *found.span(),
        edit=Edit(begin, close, ""),
        tears=True,
    )


def _not_closed(place: RefusedAt, since: int) -> Fault:
    """A bracket, at `since`, that finds no end."""
    sign = place.text[since]
    line = place.text[since : place.end_of_line(since)]
    hidden = re.search(r"(?<=[\s\[{,])#(?=\s|$)", line)
    return Fault(
        f"The {sign} opened here is not closed.",
        "The # begins a remark that hides the rest of the line; move the remark to a line of its own."
        if hidden
        else f"Put {_CLOSING[sign]} where it ends. Text with a bracket in it has to stand in quotes.",
        since,
        since + 1,
        edit=Edit(since + hidden.start(), since + hidden.start(), f"{_CLOSING[sign]} ")
        if hidden
        else _closed(place, since),
        sure=hidden is None and _ends_with_its_line(place, since),
        tears=True,
    )


def _ends_with_its_line(place: RefusedAt, since: int) -> bool:
    """Whether a bracket can only be meant to close at the end of its line: it is the only sign of its kind there, with
    more behind it, and the next line is set in no further.
    """
    end = place.end_of_line(since)
    inside = place.text[since + 1 : end]
    plain = re.search(r"\w", inside) is not None and re.search(r"[\[\]{}\"'#]", inside) is None
    return plain and inside.rstrip()[-1:] not in {",", ":"} and _closed(place, since).start == end


def _closed(place: RefusedAt, since: int) -> Edit:
    """Close a bracket at the end of its line, or of the last below that is set in further."""
    start = place.start_of_line(since)
    own, _ = place.content(start)
    end = place.end_of_line(since)
    below = place.after_line(end)
    while below < place.stop and place.content(below)[0] - below > own - start:
        end = place.end_of_line(below)
        below = place.after_line(end)
    return Edit(end, end, _CLOSING[place.text[since]])


def _within(place: RefusedAt, since: int) -> Fault:
    """What is wrong between brackets that are closed."""
    text, at = place.text, place.at
    begin = max(text.rfind(",", since, at), since) + 1
    begin += len(text[begin:at]) - len(text[begin:at].lstrip())
    if place.sign == ":" and "\n" in text[begin:at]:
        return _no_comma(place, begin)
    if place.sign == ":":
        end = min((i for i in (text.find(c, at, place.stop) for c in ",]}\n") if i >= 0), default=place.stop)
        end = max(at + 1, begin + len(text[begin:end].rstrip()))
        key, _, rest = text[begin:end].partition(": ")
        value = end - len(rest.lstrip())
        return Fault(
            f"“{shortened(text[begin:end])}” has two colons.",
            f"Put the text in quotes, {key}: {quoted(rest)}, or a comma before a second key.",
            begin,
            end,
            edit=Edit(value, end, in_quotes(text[value:end])) if rest else None,
            sure=bool(rest) and rest.lstrip()[0] not in SIGNS and " #" not in rest,
            tears=re.search(r"\s[a-z_]{2,20}:\s", text[begin : place.end_of_line(at)]) is not None,
        )
    if place.sign and place.sign in "[{":
        return Fault(
            f"A {place.sign} stands in the middle of a text.",
            "Put the text in quotes, or a comma before the bracket.",
            at,
            at + 1,
            edit=_bracket_in_quotes(place, begin),
        )
    return Fault(
        f"A comma or {_CLOSING[text[since]]} is missing before this.",
        "Put a comma between two values, and quotes around a text that has a sign of its own in it.",
        at,
        max(place.end_of_line(at), at),
    )


def _no_comma(place: RefusedAt, begin: int) -> Fault:
    """A value that would go on over the beginning of the next line, where a key stands."""
    line_start = place.start_of_line(place.at)
    key, _ = place.content(line_start)
    before = place.text[begin:line_start].rstrip()
    end = begin + len(before)
    return Fault(
        f"A comma is missing before {place.text[key : place.at].strip() or 'this'}.",
        f"Put one after “{shortened(before)}”.",
        key,
        place.at,
        edit=Edit(end, end, ",") if "#" not in before else None,
    )


def _bracket_in_quotes(place: RefusedAt, begin: int) -> Edit | None:
    """Quotes around a value with brackets in it, up to the next comma or closing bracket outside of them."""
    line = place.text[begin : place.end_of_line(begin)]
    found = re.match(r"(?:[^\W\d][\w ]*:\s+)?((?:[^,\[\]{}]|\[[^\[\]{}]*\]|\{[^\[\]{}]*\})+)", line)
    if found is None:
        return None
    value = found[1].rstrip()
    return Edit(begin + found.start(1), begin + found.start(1) + len(value), in_quotes(value))


def _is_closed(text: str, since: int, stop: int) -> bool:
    """Whether a bracket finds its end before a line that is set in no further than its own."""
    line_start = text.rfind("\n", 0, since) + 1
    own = len(text[line_start:since]) - len(text[line_start:since].lstrip())
    depth = 0
    for found in _PIECES.finditer(text, since, stop):
        piece = found[0]
        if piece[0] == "\n":
            following = text[found.end()]
            if len(found[1]) <= own and following not in "]}":
                return False
        elif piece in _CLOSING:
            depth += 1
        elif piece in {"]", "}"}:
            depth -= 1
            if depth == 0:
                return True
    return False


def innermost_open(text: str, start: int, at: int) -> int | None:
    """The bracket that a place stands in."""
    opened: list[int] = []
    for found in _PIECES.finditer(text, start, at):
        if found[0] in _CLOSING:
            opened.append(found.start())
        elif found[0] in {"]", "}"} and opened:
            opened.pop()
    return opened[-1] if opened else None
