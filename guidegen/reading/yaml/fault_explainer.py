"""What is wrong with a text that YAML refuses, in a painter's words and at the place to mend."""

from __future__ import annotations

import re

from guidegen.reading.yaml.fault import Edit, Fault, Refusal, RefusedAt, sign_refused, too_deep
from guidegen.reading.yaml.indents import set_in
from guidegen.reading.yaml.quoting import in_quotes, quoted, shortened

_CLOSING = {"[": "]", "{": "}"}
_KEY_AND_VALUE = re.compile(r"(\s*(?:- +)*)([^\s:#\"'\[\]{},-][^:#\"'\[\]{}]*):[ \t]+(\S.*)")
# Quoted texts and remarks, to be passed over; brackets; and where a line begins. A quote within a word opens nothing,
# and so no line has more than one that is looked at to its end in vain.
_PIECES = re.compile(
    r"(?<![^\s\[{,:])\"(?:[^\"\\\n]|\\.)*+\"|(?<![^\s\[{,:])'[^'\n]*'|(?<=[\s\[{,])#[^\n]*|[\[{]|[\]}]|\n( *)(?=\S)"
)
# A text in brackets up to the next key, or to the bracket that closes.
_TO_KEY_OR_END = re.compile(r"(.+?)(?=,\s*[^\W\d][\w ]*:\s|\s*[\]}])")
# So many lines may lie between a quote that is left open and the next one.
_FAR = 20
# What a value does not begin with as plain text: quotes, brackets, and what YAML has a meaning for.
_SIGNS = "\"'[]{},#&*!|>@`%?-:"
_TO_BRACKET_OR_COMMA = re.compile(r"[^,\[\]{}]*")
_NO_SPACE = re.compile(r"\s*(?:- +)*([a-z_]{2,20}):([^\s:/].*)")


def painters_words(text: str, start: int, stop: int, refusal: Refusal) -> Fault:
    """The fault behind a refusal of `text[start:stop]`; the refusal's own words are never shown."""
    place = RefusedAt(text, start, stop, refusal)
    for look in (_signs, _quotes, _colons, _brackets, _indents):
        fault = look(place)
        if fault is not None:
            return fault
    return Fault(
        "From here on the file cannot be read.",
        "Look here and on the line above for a quote or a bracket that is not closed, or a line set in wrongly.",
        place.at,
        place.end_of_line(place.at),
    )


def _signs(place: RefusedAt) -> Fault | None:
    """Characters that may not stand where they do."""
    text, at, problem = place.text, place.at, place.problem
    if "increasing" in place.context or "depth" in problem:
        return too_deep(at if at < place.stop else place.stop - 1)
    if "tab character" in problem or (place.sign == "\t" and "start any token" in problem):
        tab = text.find("\t", place.start_of_line(at), place.end_of_line(at) + 1)
        at = at if tab < 0 else tab
        return Fault(
            "A tab stands where the line is set in; only spaces count there.",
            "Delete the tab and set the line in with spaces.",
            at,
            min(at + 1, place.stop),
            edit=Edit(at, at + 1, "  "),
        )
    if "start any token" in problem and place.sign:
        return _to_quote(place, at, f"A value cannot begin with {place.sign} unless it stands in quotes.")
    since = place.since
    if since is not None and any(word in place.context for word in ("alias", "anchor", "tag")):
        return sign_refused(text, since, place.stop)
    if since is not None and "block scalar" in place.context:
        end = place.end_of_line(since)
        return Fault(
            f"After {text[since]} the text has to begin on a line of its own.",
            f"Begin a new line after it, or put the text in quotes: {quoted(text[since:end])}.",
            since,
            end,
            edit=Edit(since, end, in_quotes(text[since:end])),
        )
    if "mapping keys" in problem:
        return _to_quote(place, at, "A value cannot begin with ? and a space.")
    return None


def _to_quote(place: RefusedAt, at: int, message: str) -> Fault:
    """A value that has to stand in quotes, to the end of its line or of its place in brackets."""
    end = place.end_of_line(at)
    if _innermost_open(place.text, place.start, at) is not None:
        end = at + len(_TO_BRACKET_OR_COMMA.match(place.text[at:end])[0].rstrip())  # type: ignore[index]
    value = place.text[at:end]
    right = in_quotes(value)
    sure = " #" not in value
    return Fault(message, f"Write {quoted(value)}.", at, end, edit=Edit(at, end, right), sure=sure)


def _quotes(place: RefusedAt) -> Fault | None:
    text, at = place.text, place.at
    if "escape" in place.problem or "hexdecimal" in place.problem or "hexadecimal" in place.problem:
        slash = text.rfind("\\", place.start, at + 1)
        slash = at if slash < 0 else slash
        return Fault(
            f"In double quotes the sign \\ has a meaning of its own, and “{text[slash : slash + 2]}” has none.",
            "Put the text in single quotes, and write / between folders.",
            slash,
            min(slash + 2, place.stop),
            edit=Edit(slash, slash + 1, "\\\\"),
        )
    if "quoted scalar" in place.context and place.since is not None:
        return _quote_not_closed(place, place.since)
    before = text[place.start_of_line(at) : at].rstrip()
    if place.sign and place.sign not in ",]}:" and before[-1:] in {'"', "'"} and "expected" in place.problem:
        mark = before[-1]
        since = _quote_left_open(place, mark)
        if since is not None:
            return _quote_not_closed(place, since)
        first = re.search(rf"(?:^|[\s:,\[{{]){mark}", before)
        opened = place.start_of_line(at) + (first.end() - 1 if first else len(before) - 1)
        return _text_after_quote(place, mark, opened)
    return None


def _quote_left_open(place: RefusedAt, mark: str) -> int | None:
    """The quote that a line not far above opens as its value and does not close, so that the next one does."""
    at = place.line_above(place.at)
    for _ in range(_FAR):
        if at is None:
            return None
        found = re.match(rf"\s*(?:- +)*(?:[^\W\d][\w ]*:[ \t]+)?({mark})[^{mark}]*\Z", place.line(at))
        if found:
            return at + found.start(1)
        at = place.line_above(at)
    return None


def _quote_not_closed(place: RefusedAt, since: int) -> Fault:
    text, mark = place.text, place.text[since]
    end = place.end_of_line(since)
    value = text[since:end]
    in_brackets = _innermost_open(text, place.start, since) is not None
    if in_brackets:
        found = _TO_KEY_OR_END.match(value)
        end = since + found.end(1) if found else end
        value = text[since:end]
    sure = not in_brackets and mark not in value[1:] and "\\" not in value and " #" not in value
    return Fault(
        f"The quote {mark} opened here is not closed.",
        f"Put {mark} at the end of the text."
        + (" If the text has a ' in it, put it all in \" instead." if mark == "'" else ""),
        since,
        since + 1,
        edit=Edit(since, end, f"{value}{mark}" if mark not in value[1:] else in_quotes(value)),
        sure=sure,
    )


def _text_after_quote(place: RefusedAt, mark: str, opened: int) -> Fault:
    text = place.text
    end = opened + len(text[opened : place.end_of_line(opened)].rstrip(",]} "))
    if _innermost_open(text, place.start, opened) is not None:
        # Up to the quote that a comma or a bracket follows, else to the next key.
        found = re.match(rf"{mark}.*?{mark}(?=\s*[,\]}}])", text[opened : place.end_of_line(opened)])
        found = found or _TO_KEY_OR_END.match(text[opened : place.end_of_line(opened)])
        end = opened + len(found[0]) if found else end
    value = text[opened:end]
    # 'Fisherman's Cheek' has its own sign within: the other kind of quotes keeps it.
    whole = (
        mark == "'"
        and value[-1] == mark
        and '"' not in value
        and "\\" not in value
        and value.count(mark) == 3
    )
    return Fault(
        f"Text goes on after the closing quote {mark}.",
        f"Write {quoted(value[1:-1])}."
        if whole
        else "Put the quote at the end of the text."
        + (" Where the text has a ' in it, put it all in \" instead." if mark == "'" else ""),
        opened,
        end,
        edit=Edit(opened, end, in_quotes(value[1:-1] if whole else value)),
        sure=whole,
    )


def _colons(place: RefusedAt) -> Fault | None:
    if "mapping values" in place.problem:
        line_start = place.start_of_line(place.at)
        found = _KEY_AND_VALUE.match(place.text, line_start, place.end_of_line(place.at))
        if found and found.start(3) <= place.at:
            return _second_colon(found, place)
        above = place.line_above(place.at)
        fault = _key_without_colon(place, above) if above is not None else None
        return fault or set_in(place, line_start)
    if "find expected ':'" in place.problem:
        since = place.at if place.since is None else place.since
        line_start = place.start_of_line(since)
        fault = _key_without_colon(place, line_start)
        return set_in(place, line_start) if fault is None and place.text[since] in "{[" else fault
    return None


def _second_colon(found: re.Match[str], place: RefusedAt) -> Fault:
    key, start, end = found[2], found.start(3), place.end_of_line(place.at)
    value = place.text[start:end]
    below = place.text[place.after_line(end) : place.stop]
    goes_on = len(below) - len(below.lstrip(" ")) > found.start(2) - place.start_of_line(start)
    # Quotes are what is missing only where this is a value from its first sign to the end of the line, and no further.
    sure = value[0] not in _SIGNS and " #" not in value and not goes_on
    return Fault(
        f"“{shortened(value)}” has a colon and a space in it, which would make another key of its beginning.",
        f"Put it in quotes: {key}: {quoted(value)}.",
        start,
        end,
        edit=Edit(start, end, in_quotes(value)),
        sure=sure,
    )


def no_space(start: int, end: int, before: str, key: str, value: str) -> Fault:
    """A key, with what stands `before` it, and its value after a colon only."""
    return Fault(
        "There is no space after the colon.",
        f"Write {key}: {shortened(value)}.",
        start,
        end,
        edit=Edit(start, end, f"{before}{key}: {value}"),
        sure=True,
    )


def _key_without_colon(place: RefusedAt, line_start: int) -> Fault | None:
    start, end = place.content(line_start)
    line = place.text[start:end]
    squeezed = _NO_SPACE.fullmatch(line)
    if squeezed:
        return no_space(start, end, line[: squeezed.start(1)], squeezed[1], squeezed[2])
    if not re.search(r":(\s|$)", line):
        return Fault(
            f"“{shortened(line)}” has no colon after its key.",
            "Write the key, a colon, a space and the value.",
            start,
            end,
        )
    return None


def _brackets(place: RefusedAt) -> Fault | None:
    text, at, since = place.text, place.at, place.since
    if "node content" in place.problem:
        since = _innermost_open(text, place.start, at)
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
        return _within_brackets(place, since)
    if place.sign in {"]", "}"}:
        return Fault(
            f"The {place.sign} here closes nothing.", "Take it out.", at, at + 1, edit=Edit(at, at + 1, "")
        )
    return None


def _not_closed(place: RefusedAt, since: int) -> Fault:
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
    )


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


def _within_brackets(place: RefusedAt, since: int) -> Fault:
    text, at = place.text, place.at
    begin = max(text.rfind(",", since, at), since) + 1
    begin += len(text[begin:at]) - len(text[begin:at].lstrip())
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
            sure=bool(rest) and rest.lstrip()[0] not in _SIGNS and " #" not in rest,
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


def _innermost_open(text: str, start: int, at: int) -> int | None:
    opened: list[int] = []
    for found in _PIECES.finditer(text, start, at):
        if found[0] in _CLOSING:
            opened.append(found.start())
        elif found[0] in {"]", "}"} and opened:
            opened.pop()
    return opened[-1] if opened else None


def _indents(place: RefusedAt) -> Fault | None:
    at = place.at
    if "block sequence entries" in place.problem or "sequence entries" in place.problem:
        start = place.start_of_line(at)
        if place.text[start:at].strip():
            return Fault(
                "A list with - cannot begin on the line of its key.",
                "Begin a new line for each entry, or write the list in brackets: [first, second].",
                at,
                place.end_of_line(at),
                edit=Edit(at, at + 1, " "),
            )
        return set_in(place, start)
    if "expected" in place.problem and at < place.stop:
        return set_in(place, place.start_of_line(at))
    return None
