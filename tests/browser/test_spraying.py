"""Spray weather in the browser is the very same as in Python, numbers and reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from support.paths import TEMPLATES
from support.spray_weather import spray_weather

if TYPE_CHECKING:
    from playwright.sync_api import Page

SCRIPT = TEMPLATES / "scripts" / "spraying.js"

READINGS = [
    (air, air + apart, humidity)
    for air in (-46, -10, 0, 9.9, 10, 15.5, 20, 23.75, 28, 28.1, 60, 61)
    for apart in (-40, -8, -7.7, -2.25, 0, 0.35, 6)
    for humidity in (0, 1, 35, 50, 59.5, 60, 60.1, 65, 70, 70.1, 100, 101)
]


def test_python_and_the_browser_agree(page: Page):
    page.add_script_tag(content=SCRIPT.read_text(encoding="utf-8"))
    told = page.evaluate("all => all.map(one => guidegenSpraying.verdict(...one))", READINGS)
    for reading, shown in zip(READINGS, told, strict=True):
        found = spray_weather(*reading)
        assert shown == {
            "verdict": found.verdict.value,
            "reasons": list(found.reasons),
            "dewPoint": found.dew_point,
            "margin": found.margin,
        }, reading
    assert {one["verdict"] for one in told} == {"spray", "doubtful", "wait", "unknown"}
