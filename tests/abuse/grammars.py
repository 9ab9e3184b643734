"""Makes hostile texts: out of grammars, and out of real files with pieces changed, doubled, moved and cut."""

from __future__ import annotations

import random
import string
from collections.abc import Callable, Sequence

# What stands where a value is expected: each of our types well and badly, and what YAML and other languages take apart.
VALUES = (
    "", "yes", "no", "none", "as before", "all", "~", "null", "true", "0", "-1", "1", "2", "1e999", "999999999", "10000",
    "0.000001", "1:2:1", "1:30", "10 min", "90 s", "1 h 30 min", "3650 d", "3651 d", "999999999 d", "PT1H30M", "P9D",
    "2026-03-14", "2026-02-30", "1899-12-31", "2200-12-31", "#445566", "445566", "#xyz", "red", "17 ml", "0 ml", "1e9 l",
    "20%", "101%", "2:1 water", "a touch", "1:56", "28 mm", "25 mm", "40 cm2", "H222", "EUH208", "H999",
    "Oilskin Ochre", "Oilskin Ocre", "Reedbank / Oilskin Ochre", "Folds", "coat", "base coat", "wash", "dry brush",
    "varnish", "spray", "jetty-base", "ferry-watch", "watch", "../../etc/passwd", "/etc/passwd", "C:\\CON", "con",
    "http://example.org/", "https://[::1]:99/x?y#z", "javascript:alert(1)", "data:text/html,x", "file:///etc/passwd",
    "&a x", "*a", "!!python/object:os.system x", "<<", "%TAG", "@at", "`tick`", "'", '"', "''", '"\\x07"', '"\\uD800"',
    '"\\0"', "|", ">-", "? x", "- x", "[", "]", "{", "}", "[,]", "{a}", "{a: }", "[[[[]]]]", "{a: {b: {c: 1}}}", "# x", "x #y",
    "x: y", "Grey #2", "2,80", "\t", "\xa0", "\u202eevil", "\u200b", "e\u0301", "\u00e9", "ﬁ", "𝕏", "\ufeff", "İ", "ß", "한",
    "<script>alert(1)</script>", "{{ 7*7 }}", "{% for x in y %}", "]]>", "--", "a" * 201, "b" * 5001, "9" * 400,
    "{hood: 1}", "{headgear: hood}", '{mon-fri: "20:00-22:00"}', '"20:00-22:00"', "[coat, hood]", "{air: 1 h, warm: 2 min}",
    "{Oilskin Ochre: 2, Ropewalk: a touch}", "{file: coat.jpg, alt: x}", "coat.jpg", "missing.jpg", "figure.svg", "guide.md",
)  # fmt: skip

KEYS = (
    "title", "summary", "author", "credit", "licence", "video", "language", "date", "tags", "see", "was", "draft", "scale",
    "base", "surface", "figures", "cover", "figure", "materials", "tools", "reference", "made", "leave", "choose", "steps",
    "step", "technique", "area", "paint", "once", "each", "dry", "holds", "rest", "coats", "brush", "thin", "share", "amount",
    "instead", "photo", "alt", "at", "mind", "look_for", "if_wrong", "spots", "stray", "optional", "only", "stop", "insert",
    "name", "range", "code", "edition", "aliases", "kind", "colour", "color", "finish", "covers", "binder", "comes_as",
    "size", "price", "owned", "discontinued", "twin_of", "note", "hazards", "strength", "let_down", "parts", "white",
    "ranges", "paints", "mixes", "url", "timezone", "currency", "format", "tokens", "defaults", "start", "deadline",
    "sittings", "spraying", "skip", "units", "guide", "batch", "to", "drop", "thinner", "air", "warm", "file", "caption",
)  # fmt: skip

SIGNS = (
    "*", "**", "_", "~~", "`", "```\n", "~~~", "[", "]", "(", ")", "![", "](", "](<", "<", ">", "> ", "- ", "1. ", "# ", "## Folds\n",
    "\n", "\n\n", "    ", "\t", "|", "|--|\n", "---\n", "===\n", "\\", "&", "&#0;", "&#x110000;", "&amp;", "&notanentity;", "<!--",
    "<b>", "</b>", "<?", "<![CDATA[", "[a]: ", "[a][b]", "[^1]", "http://x.y", "<http://x.y>", "![a](coat.jpg)", "![](../../x)",
    "[x](#folds)", "[x](javascript:x)", "[x](../lamp-boys/guide.md)", "[x](//evil)", "word ", "\u202e", "\0", "\ufeff", "é", "\x07",
    "a b c.jpg", "{{ x }}", "$", ":::", "\xa0", "\r", "%00", "\u2028",
)  # fmt: skip

_ELEMENTS = (
    "svg", "g", "path", "circle", "ellipse", "rect", "polygon", "polyline", "line", "title", "defs", "use", "image", "script",
    "style", "foreignObject", "animate", "text", "a", "x:y", "metadata",
)  # fmt: skip
_ATTRIBUTES = (
    "viewBox", "width", "height", "d", "cx", "cy", "r", "rx", "ry", "x", "y", "points", "x1", "x2", "fill", "stroke", "style",
    "transform", "opacity", "stroke-dasharray", "data-area", "data-part", "data-only", "onload", "href", "xlink:href", "id",
    "class", "fill-rule", "xml:space",
)  # fmt: skip
_ATTRIBUTE_VALUES = (
    "0 0 100 100", "0 0 0 0", "-1 -1 1e9 1e9", "10", "1e400", "NaN", "M0 0 L10 10 Z", "M" + "0 " * 3000, "#fff", "none", "url(#x)",
    "red", "coat", "hood", "light", "recess", "headgear: hood", "headgear:", "javascript:x", "fill:red;stroke:url(x)", "scale(0)",
    "rotate(1e99)", "&lt;x&gt;", "&amp;", "&x;", "", " ", "a" * 300, "1,2,3,4", "0 0 10px 10px", "\u202e",
)  # fmt: skip


def yaml_of(chance: random.Random, depth: int = 0, indent: int = 0) -> str:
    """A value as it may stand after a key, in any style."""
    roll = chance.random()
    if depth > 5 or roll < 0.5:
        return " " + chance.choice(VALUES) + "\n"
    pad = "  " * indent
    several = range(chance.choice((1, 1, 2, 3, 5)))
    if roll < 0.62:
        return " [" + ", ".join(yaml_of(chance, 9)[1:-1] for _ in several) + "]\n"
    if roll < 0.72:
        pairs = (f"{chance.choice(KEYS)}: {yaml_of(chance, 9)[1:-1]}" for _ in several)
        return " {" + ", ".join(pairs) + "}\n"
    if roll < 0.85:
        return "\n" + "".join(f"{pad}-{yaml_of(chance, depth + 1, indent + 1)}" for _ in several)
    return "\n" + "".join(
        f"{pad}{chance.choice(KEYS)}:{yaml_of(chance, depth + 1, indent + 1)}" for _ in several
    )


def keyed(chance: random.Random, keys: Sequence[str]) -> str:
    """A whole file of a few keys."""
    count = chance.randrange(1, 9)
    return "".join(f"{chance.choice(keys)}:{yaml_of(chance, 0, 1)}" for _ in range(count))


def markdown_of(chance: random.Random) -> str:
    """A text of signs: many different ones, or few over and over."""
    if chance.random() < 0.3:
        few = [chance.choice(SIGNS) for _ in range(chance.randrange(1, 4))]
        return "".join(few) * chance.choice((3, 30, 1000, 8000))
    return "".join(
        chance.choice(SIGNS) if chance.random() < 0.8 else chance.choice(VALUES)
        for _ in range(chance.randrange(1, 120))
    )


def svg_of(chance: random.Random) -> str:
    """A drawing of what may stand in one and what may not."""
    body = "".join(_element(chance, 0) for _ in range(chance.randrange(0, 8)))
    head = chance.choice(
        (
            "",
            "",
            "<?xml version='1.0'?>",
            '<!DOCTYPE svg [<!ENTITY x "y">]>',
            "<!DOCTYPE svg>",
            "\ufeff",
            "<!-- -- -->",
        )
    )
    size = chance.choice(
        ('viewBox="0 0 100 100"',) * 4 + ('width="10" height="10"', "", 'viewBox="0 0 1e9 0"')
    )
    name = chance.choice(('xmlns="http://www.w3.org/2000/svg"',) * 5 + ("", 'xmlns="urn:other"'))
    return f"{head}<svg {name} {size}>{body}</svg>"


def _element(chance: random.Random, depth: int) -> str:
    name = chance.choice(_ELEMENTS)
    several = {chance.choice(_ATTRIBUTES) for _ in range(chance.randrange(0, 5))}
    written = "".join(f' {one}="{chance.choice(_ATTRIBUTE_VALUES)}"' for one in sorted(several))
    inside = ""
    if depth < 6 and chance.random() < 0.5:
        inside = "".join(_element(chance, depth + 1) for _ in range(chance.randrange(0, 4)))
    if chance.random() < 0.1:
        inside = f"<{name}>" * chance.choice((5, 60)) + inside + f"</{name}>" * chance.choice((5, 60))
    return f"<{name}{written}>{inside}</{name}>" if inside or chance.random() < 0.5 else f"<{name}{written}/>"


def changed(text: str, chance: random.Random, words: Sequence[str] = VALUES) -> str:
    """A real text with one to six changes, most of them small."""
    for _ in range(chance.choice((1, 1, 1, 2, 3, 6))):
        text = chance.choice(_CHANGES)(text, chance, words)
    return text


def _span(text: str, chance: random.Random, most: int) -> tuple[int, int]:
    start = chance.randrange(len(text) + 1)
    return start, min(len(text), start + chance.randrange(1, most))


def _drop(text: str, chance: random.Random, _words: Sequence[str]) -> str:
    start, end = _span(text, chance, 40)
    return text[:start] + text[end:]


def _double(text: str, chance: random.Random, _words: Sequence[str]) -> str:
    start, end = _span(text, chance, 200)
    return text[:end] + text[start:end] * chance.choice((1, 1, 2, 50)) + text[end:]


def _put_in(text: str, chance: random.Random, words: Sequence[str]) -> str:
    start = chance.randrange(len(text) + 1)
    return text[:start] + chance.choice(words) + text[start:]


def _swap_sign(text: str, chance: random.Random, _words: Sequence[str]) -> str:
    start, _ = _span(text, chance, 2)
    return text[:start] + chance.choice(string.punctuation + " \t\n\u00e9\u202e\0\x85") + text[start + 1 :]


def _swap_value(text: str, chance: random.Random, words: Sequence[str]) -> str:
    """What stands after a colon, for something else: the file stays in form, so that the change is read."""
    lines = text.split("\n")
    at = [n for n, line in enumerate(lines) if ": " in line]
    if not at:
        return text
    n = chance.choice(at)
    places = [i for i in range(len(lines[n])) if lines[n].startswith(": ", i)]
    begin = chance.choice(places) + 2
    ends = [i for i in (lines[n].find(sign, begin) for sign in (",", "}")) if i >= 0]
    end = min(ends) if ends and chance.random() < 0.8 else len(lines[n])
    lines[n] = lines[n][:begin] + chance.choice(words) + lines[n][end:]
    return "\n".join(lines)


def _move_lines(text: str, chance: random.Random, _words: Sequence[str]) -> str:
    lines = text.split("\n")
    start = chance.randrange(len(lines))
    taken = lines[start : start + chance.randrange(1, 5)]
    del lines[start : start + len(taken)]
    at = chance.randrange(len(lines) + 1)
    shift = chance.choice(("", "", "  ", "    "))
    lines[at:at] = [shift + line for line in taken]
    return "\n".join(lines)


def _new_key(text: str, chance: random.Random, words: Sequence[str]) -> str:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    blank = lines[at][: len(lines[at]) - len(lines[at].lstrip(" -"))].replace("-", " ")
    lines.insert(at, f"{blank}{chance.choice(KEYS)}: {chance.choice(words)}")
    return "\n".join(lines)


def _cut(text: str, chance: random.Random, _words: Sequence[str]) -> str:
    return text[: chance.randrange(len(text) + 1)]


_Change = Callable[[str, random.Random, Sequence[str]], str]
_CHANGES: tuple[_Change, ...] = (
    _drop, _double, _put_in, _swap_sign, _swap_value, _swap_value, _swap_value, _move_lines, _new_key, _cut,
)  # fmt: skip


def as_bytes(text: str, chance: random.Random) -> bytes:
    """UTF-8, now and then with other line ends, a mark in front, or bytes that are none."""
    data = text.encode("utf-8", "surrogatepass")
    roll = chance.random()
    if roll < 0.03:
        return data.replace(b"\n", chance.choice((b"\r\n", b"\r")))
    if roll < 0.05:
        return b"\xef\xbb\xbf" + data
    if roll < 0.07:
        at = chance.randrange(len(data) + 1)
        return data[:at] + chance.choice((b"\xff", b"\xc0\x80", b"\xed\xa0\x80", b"\xe2\x82")) + data[at:]
    if roll < 0.075:
        return text.encode("utf-16", "replace")
    return data
