"""What is said in English where a page is shared, and where there is no network."""

from __future__ import annotations

SHARING: dict[str, str] = {
    "share.cover": "{photo}. Beside it, as round chips, the colours of “{title}”.",
    "share.colours": "The colours of “{title}” as round chips.",
    "share.palette": "The colours of the paints of {site} as round chips.",
    "feed.link": "New guides as a feed",
    "feed.paints": "Paints: {paints}.",
    "feed.on": "The whole guide, with every step",
    "away.title": "No network",
    "away.text": "This page has not been kept on this device. These guides have been:",
}
