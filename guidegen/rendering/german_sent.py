"""The words of a guide that is sent as one file, in German."""

from __future__ import annotations

SENT: dict[str, str] = {
    "sent.done": "Erledigt",
    "sent.clear": "Alle Haken wegnehmen",
}
