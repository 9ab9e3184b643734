"""Our own scripts and styles without what only their writers need: remarks, indentation, idle spaces.

Names stay as they are, so that what runs can still be read. Texts, templates and patterns stay to the letter.
"""

from __future__ import annotations

import re

_WORD = re.compile(r"[\w$]")

# In a script: a remark, white space, a text, a pattern (where a value may stand), or any other sign.
_REMARK = re.compile(r"//[^\n]*|/\*.*?\*/", re.DOTALL)
_SPACE = re.compile(r"\s+")
_TEXT = re.compile(r"\"(?:[^\"\\\n]|\\.)*\"|'(?:[^'\\\n]|\\.)*'")
_PATTERN = re.compile(r"/(?![/*])(?:[^/\\\[\n]|\\.|\[(?:[^\]\\\n]|\\.)*\])+/[a-z]*")
_PLAIN = re.compile(r"[\w$]+|.", re.DOTALL)

# After these a slash begins a pattern; after anything else it divides.
_BEFORE_PATTERN = frozenset("(,=:[!&|?{};+-*%<>~^") | {""}
# A line end ends a statement only between one of the first and one of the second.
_MAY_END = re.compile(r"[\w$\]})\"'`+\-/]")
_MAY_BEGIN = re.compile(r"[\w$\[({\"'`+\-!~/]")

_STYLE_PART = re.compile(
    r"\"(?:[^\"\\]|\\.)*\"|'(?:[^'\\]|\\.)*'|/\*.*?\*/|\s+|[{}]|[^\s\"'/{}]+|/", re.DOTALL
)


def squeezed_script(source: str) -> str:
    """The same script in fewer bytes, if written as ours are: no loop is without a body, and a pattern follows only an
    operator or an opening bracket.
    """
    kept: list[str] = []
    gap = ""
    last = ""
    for part in _script_parts(source):
        if part.isspace() or _REMARK.match(part):
            gap = "\n" if "\n" in part + gap else " "
            continue
        if part == "}" and last == ";":
            kept.pop()
        elif last and gap:
            kept.append(_between(last, gap, part[0]))
        kept.append(part)
        gap, last = "", part[-1]
    return "".join(kept) + "\n" if kept else ""


def _between(before: str, gap: str, after: str) -> str:
    """What has to stay of white space between two signs."""
    if gap == "\n":
        return "\n" if _MAY_END.match(before) and _MAY_BEGIN.match(after) else ""
    both_words = _WORD.match(before) and _WORD.match(after)
    return " " if both_words or (before in "+-" and after == before) else ""


def _script_parts(source: str) -> list[str]:
    parts: list[str] = []
    at = 0
    last = ""
    while at < len(source):
        found = _REMARK.match(source, at) or _SPACE.match(source, at)
        if found is None:
            if source[at] == "`":
                end = _template_end(source, at)
                parts.append(source[at:end])
                last, at = "`", end
                continue
            found = _TEXT.match(source, at)
            if found is None and last in _BEFORE_PATTERN:
                found = _PATTERN.match(source, at)
            found = found or _PLAIN.match(source, at)
            if found is None:
                break
            last = found[0][-1]
        parts.append(found[0])
        at = found.end()
    return parts


def _template_end(source: str, start: int) -> int:
    """Where a template ends that begins at `start`, whatever templates stand within its holes."""
    at = start + 1
    depth = 0
    while at < len(source):
        sign = source[at]
        if depth:
            depth += (sign == "{") - (sign == "}")
            text = _TEXT.match(source, at)
            at = _template_end(source, at) if sign == "`" else text.end() if text else at + 1
        elif sign == "`":
            return at + 1
        elif source.startswith("${", at):
            depth = 1
            at += 2
        else:
            at += 2 if sign == "\\" else 1
    return at


def squeezed_style(source: str) -> str:
    """The same style in fewer bytes, a line for each rule."""
    text = ""
    for part in _STYLE_PART.findall(source):
        if part.startswith("/*") or part.isspace():
            text += "" if not text or text[-1] in " \n{;,:" else " "
            continue
        if part[0] in "{};,)":
            text = text.removesuffix(" ")
        if part[0] == "}":
            text = text.removesuffix(";")
        text += part + "\n" if part == "}" else part
    return text
