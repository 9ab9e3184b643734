"""What is said in German where a page is shared, and where there is no network."""

from __future__ import annotations

SHARING: dict[str, str] = {
    "share.cover": "{photo}. Daneben als runde Farbproben die Farben von „{title}“.",
    "share.colours": "Die Farben von „{title}“ als runde Farbproben.",
    "share.palette": "Die Farben von {site} als runde Farbproben.",
    "feed.link": "Neue Anleitungen als Feed",
    "feed.paints": "Farben: {paints}.",
    "feed.on": "Die ganze Anleitung mit allen Schritten",
    "away.title": "Kein Netz",
    "away.text": "Diese Seite liegt nicht auf diesem Gerät. Diese Anleitungen schon:",
}
