"""A rendered page as one file: its style and script inside, and a policy that lets in nothing else."""

from __future__ import annotations

import base64
import hashlib
import re
from html import escape

# HTML lets a page leave out the tags of its head and of its body's end.
_HEAD_STARTS = re.compile(r".*?<head\b[^>]*>|.*?<html\b[^>]*>|\s*<!doctype[^>]*>|", re.IGNORECASE | re.DOTALL)


def one_file(html: str, *, style: str, script: str, icon: str, mark: str, foot: str) -> str:
    """The page with everything inside: it asks nothing of a network or a disk, and its policy holds it to that.

    `icon` is an address, `mark` says what the file is to whoever finds it later, `foot` stands before the script.
    """
    style, script = unclosable(style, "style"), unclosable(script, "script")
    head = (
        '\n<meta charset="utf-8">'
        f'\n<meta http-equiv="Content-Security-Policy" content="{policy(style, script)}">'
        f'\n<meta name="generator" content="{escape(mark)}">'
        f'\n<link rel="icon" type="image/svg+xml" href="{icon}">'
        f"\n<style>{style}</style>"
    )
    html = _HEAD_STARTS.sub(lambda start: start[0] + head, html, count=1)
    body, end, rest = html.rpartition("</body>") if "</body>" in html else (html, "", "")
    return f"{body}{foot}<script>{script}</script>\n{end}{rest}"


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
