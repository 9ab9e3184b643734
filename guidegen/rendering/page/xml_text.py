"""Text for XML files of ours: what XML 1.0 forbids left out, and the rest escaped."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

# XML 1.0, production 2 (Char): nothing else may stand in a document, not even as a reference.
_FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml_text(text: str) -> str:
    """The text as it may stand between tags or in a value with double quotes."""
    return escape(_FORBIDDEN.sub("", text), {'"': "&quot;", "\r": "&#13;"})
