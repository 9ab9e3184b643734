"""What is wrong with a text that YAML refuses, in a painter's words and at the place to mend."""

from __future__ import annotations

import re

from guidegen.reading.yaml.brackets import SIGNS, brackets, innermost_open
from guidegen.reading.yaml.fault import Edit, Fault, Refusal, RefusedAt, sign_refused, tab_refused, too_deep
from guidegen.reading.yaml.indents import other_sign, set_in
from guidegen.reading.yaml.quoting import in_quotes, quoted, shortened

_KEY_AND_VALUE = re.compile(r"(\s*(?:- +)*)([^\s:#\"'\[\]{},-][^:#\"'\[\]{}]*):[ \t]+(\S.*)")
# A text in brackets up to the next key, or to the bracket that closes.
_TO_KEY_OR_END = re.compile(r"(.+?)(?=,\s*[^\W\d][\w ]*:\s|\s*[\]}])")
# So many lines may lie between a quote that is left open and the next one.
_FAR = 20
_TO_BRACKET_OR_COMMA = re.compile(r"[^,\[\]{}]*")
_NO_SPACE = re.compile(r"\s*(?:- +)*([a-z_]{2,20}):([^\s:/].*)")


def painters_words(text: str, start: int, stop: int, refusal: Refusal) -> Fault:
    """The fault behind a refusal of `text[start:stop]`; the refusal's own words are never shown."""
    place = RefusedAt(text, start, stop, refusal)
    for look in (_signs, _quotes, _colons, brackets, _indents):
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
        return tab_refused(at, Edit(at, at + 1, "  "))
    if "start any token" in problem and place.sign:
        return _to_quote(place, at, f"A value cannot begin with {place.sign} unless it stands in quotes.")
    wrong_sign = other_sign(place, place.start_of_line(at))
    if wrong_sign is not None:
        return wrong_sign
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
    if innermost_open(place.text, place.start, at) is not None:
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
    in_brackets = innermost_open(text, place.start, since) is not None
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
    """A text in quotes, from `opened` on, that goes on after its second quote."""
    text = place.text
    end = opened + len(text[opened : place.end_of_line(opened)].rstrip(",]} "))
    if innermost_open(text, place.start, opened) is not None:
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
    if value.endswith("}") and value.count("{") < value.count("}"):
        at = found.start(2)
        return Fault(
            "A } ends this line, and no { begins it.",
            f"Put {{ before {key}.",
            at,
            end,
            edit=Edit(at, end, f"{{{place.text[at:end]}"),
            sure=True,
        )
    below = place.text[place.after_line(end) : place.stop]
    goes_on = len(below) - len(below.lstrip(" ")) > found.start(2) - place.start_of_line(start)
    # Quotes are what is missing only where this is a value from its first sign to the end of the line, and no further.
    sure = value[0] not in SIGNS and " #" not in value and not goes_on
    return Fault(
        f"“{shortened(value)}” has a colon and a space in it, which would make another key of its beginning.",
        f"Put it in quotes: {key}: {quoted(value)}.",
        start,
        end,
        edit=Edit(start, end, in_quotes(value)),
        sure=sure,
        tears=re.search(r"\s[a-z_]{2,20}:\s", value) is not None,
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
    """A line with a key and no colon, or none with a space after it."""
    start, end = place.content(line_start)
    line = place.text[start:end]
    squeezed = _NO_SPACE.fullmatch(line)
    if squeezed:
        return no_space(start, end, line[: squeezed.start(1)], squeezed[1], squeezed[2])
    if not re.search(r":(\s|$)", line):
        below = place.after_line(end)
        is_bare = re.fullmatch("[a-z_]{2,20}", line) is not None and below < place.stop
        if is_bare and place.content(below)[0] - below >= start - line_start:
            edit: Edit | None = Edit(start, end, f"{line}:")
            help_line = f"Write {line}: with its colon."
        else:
            pair = re.fullmatch(r"((?:- +)*([a-z_]{2,20}))\s*([=; ])\s*(\S.*)", line)
            edit = Edit(start, end, f"{pair[1]}: {in_quotes(pair[4])}") if pair else None
            help_line = "Write the key, a colon, a space and the value."
            # A word and a blank may begin a sentence as well; a key stands elsewhere in the file too.
            if pair and (pair[3] != " " or re.search(rf"(?:^|[\s{{,]){pair[2]}:\s", place.text)):
                help_line = f"Write {pair[1]}: {shortened(pair[4])}."
        return Fault(
            f"“{shortened(line)}” has no colon after its key.",
            help_line,
            start,
            end,
            edit=edit,
            sure=is_bare and edit is not None and edit.text == f"{line}:",
        )
    return None


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
