"""Rules on the palette by itself; what its names lead to has been told while it was read."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic
from guidegen.checking.case import said
from guidegen.computing.hazards import known, nearest_code
from guidegen.model.paint import Palette


def known_hazards(palette: Palette) -> Iterator[Diagnostic]:
    """unknown-hazard: codes are those that labels carry."""
    for paint in palette.paints:
        for code in paint.hazards:
            if not known(code.text):
                near = nearest_code(code.text)
                yield Diagnostic(
                    code="unknown-hazard",
                    message=f"{paint.full_name} carries the hazard code {said(code)}, which no label has.",
                    span=code.span,
                    help=f"Copy the code from the label; {near} comes close."
                    if near
                    else "Copy the code from the label, such as H222 or EUH208.",
                )
