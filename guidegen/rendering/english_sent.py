"""The words of a guide that is sent as one file, in English."""

from __future__ import annotations

SENT: dict[str, str] = {
    "sent.done": "Done",
    "sent.clear": "Take all ticks away",
}
