"""The text of a word processor's file (.docx, ECMA-376): its one text part, read without entities and within bounds."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from xml.etree.ElementTree import Element

from guidegen.reading.paint_lists.rows import Problem

MOST_PARTS = 2_000
LARGEST_TEXT = 20_000_000
MOST_PARAGRAPHS = 20_000
_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def text_of_document(data: bytes) -> str | Problem:
    """Its paragraphs as lines: lists with a dash, headings with ##, the cells of tables with tabs between."""
    from defusedxml.ElementTree import fromstring

    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
            part = next((one for one in parts if one.filename == "word/document.xml"), None)
            if part is None:
                return Problem(1, "There is no text in it: it is no document of a word processor (.docx).")
            if len(parts) > MOST_PARTS or part.file_size > LARGEST_TEXT:
                return Problem(1, "There is more in the document than in any notes.")
            with archive.open(part) as opened:
                text = opened.read(LARGEST_TEXT + 1)
        if len(text) > LARGEST_TEXT:
            return Problem(1, "There is more in the document than in any notes.")
        root: Element = fromstring(text, forbid_dtd=True)
        body = root.find(f"{_W}body")
        return "\n".join(_lines(body)) if body is not None else ""
    except Exception:  # noqa: BLE001  a broken document fails in as many ways as it has parts
        return Problem(1, "The document cannot be read: it is broken, locked, or of another kind than .docx.")


def _lines(body: Element) -> Iterator[str]:
    count = 0
    for block in body:
        rows = block.iter(f"{_W}tr") if block.tag == f"{_W}tbl" else ()
        for row in rows:
            count += 1
            if count <= MOST_PARAGRAPHS:
                yield "\t".join(" ".join(map(_words, cell.iter(f"{_W}p"))) for cell in row.iter(f"{_W}tc"))
        if block.tag == f"{_W}p":
            count += 1
            if count > MOST_PARAGRAPHS:
                return
            yield _prefix(block) + _words(block)


def _prefix(paragraph: Element) -> str:
    style = paragraph.find(f"{_W}pPr/{_W}pStyle")
    name = (style.get(f"{_W}val") or "").lower() if style is not None else ""
    if name.startswith(("heading", "berschrift", "überschrift")):
        return "## "
    level = paragraph.find(f"{_W}pPr/{_W}numPr/{_W}ilvl")
    if paragraph.find(f"{_W}pPr/{_W}numPr") is None and "list" not in name:
        return ""
    deep = (level.get(f"{_W}val") or "0") if level is not None else "0"
    return "  " * (int(deep) if deep.isdigit() and len(deep) < 2 else 0) + "- "


def _words(paragraph: Element) -> str:
    pieces = []
    for node in paragraph.iter():
        if node.tag == f"{_W}t":
            pieces.append(node.text or "")
        elif node.tag in (f"{_W}tab", f"{_W}br"):
            pieces.append(" ")
    return " ".join("".join(pieces).split())
