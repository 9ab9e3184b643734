"""A page of the site as one file with everything in it: style, script and pictures inside, and a policy that says so."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape

from guidegen.rendering.standalone.alone import AGAIN, DATA_BLOCK, Embedded, alone


@dataclass(frozen=True, slots=True, kw_only=True)
class Insides:
    """What goes into the file. `pictures` by address as the page writes it, `data` for the script, `icon` as SVG;
    `mark` says what the file is to whoever finds it later.
    """

    style: str
    script: str
    icon: str
    pictures: Mapping[str, Embedded]
    data: Mapping[str, str]
    mark: str


def one_file(html: str, insides: Insides) -> str:
    """The page with everything inside: it asks nothing of a network or a disk, and its policy holds it to that."""
    style = unclosable(pruned(insides.style, f"{html} {insides.script} {AGAIN}"), "style")
    script = unclosable(insides.script, "script")
    icon = Embedded(type="image/svg+xml", data=insides.icon.encode())
    head = (
        '\n<meta charset="utf-8">'
        f'\n<meta http-equiv="Content-Security-Policy" content="{policy(style, script)}">'
        f'\n<meta name="generator" content="{escape(insides.mark)}">'
        f'\n<link rel="icon" type="{icon.type}" href="{icon.address}">'
        f"\n<style>{style}</style>"
    )
    data = json.dumps(insides.data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    foot = f'<script type="{DATA_BLOCK}" id="sent-data">{data}</script>\n<script>{script}</script>\n'
    return alone(html, insides.pictures, head=head, foot=foot)


def policy(style: str, script: str) -> str:
    """Nothing but this style, this script and pictures that are inside: Content Security Policy Level 3, §2.3.1."""
    return (
        f"default-src 'none'; img-src data:; style-src {_hash(style)}; script-src {_hash(script)}; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode('ascii')}'"


def unclosable(text: str, tag: str) -> str:
    """The same style or script with nothing in it that would end its element, and line ends as HTML reads them."""
    bare = text.replace("\r\n", "\n").replace("\r", "\n")
    bare = re.sub(rf"</(?={tag})", r"<\\/", bare, flags=re.IGNORECASE)
    return bare.replace("<!--", "<\\!--") if tag == "script" else bare


_RULE = re.compile(r"([^{}@]+)(\{[^{}]*\})")
_CLASS = re.compile(r"\.(-?[A-Za-z_][\w-]*)")


def pruned(style: str, used_in: str) -> str:
    """A style without those rules that stand on lines of their own and whose classes `used_in` never names.

    What has brackets, as `:not(.done)` does, stays: there a missing class may be the point.
    """
    words = frozenset(re.findall(r"[\w-]+", used_in))
    kept = []
    for line in style.splitlines():
        rule = _RULE.fullmatch(line.strip())
        if rule is None or "(" in rule[1]:
            kept.append(line)
            continue
        selectors = [one for one in rule[1].split(",") if words.issuperset(_CLASS.findall(one))]
        if selectors:
            kept.append(",".join(selectors) + rule[2])
    return "\n".join(kept)
