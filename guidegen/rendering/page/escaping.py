"""Text that goes into XML, and data that goes into a script element."""

from __future__ import annotations

import json
import re
from xml.sax.saxutils import escape

# XML 1.0, production 2 (Char): nothing else may stand in a document, not even as a reference.
_FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml_text(text: str) -> str:
    """The text as it may stand between tags or in a value with double quotes."""
    return escape(_FORBIDDEN.sub("", text), {'"': "&quot;", "\r": "&#13;"})


def script_json(value: object) -> str:
    """JSON in which nothing ends the script element around it, nor the line where it stands in a script."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
