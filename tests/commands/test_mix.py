"""`mix` from outside: what it prints, its data, its exit codes, and colours on a terminal."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from support.paths import ROOT
from support.small_palette import data, run

from guidegen.commands import mix
from guidegen.computing.colour.spaces import delta_e_2000, lab_of


def test_mix_as_data(content: Path) -> None:
    found = data(mix.command, content, "Oilskin Ochre: 2, Ropewalk: 1", "--ml", "2", "--over", "#6b737a")
    assert set(found) == {
        "parts",
        "colour",
        "estimate",
        "clipped",
        "strength",
        "over",
        "drops",
        "closest",
    }
    assert found["parts"] == {"Oilskin Ochre": 2, "Ropewalk": 1}
    assert found["estimate"] is True
    assert found["clipped"] is False
    assert found["strength"] == 1
    assert set(found["over"]) == {"edges", "flats", "recesses"}
    assert found["drops"] == {"Oilskin Ochre": 27, "Ropewalk": 13}
    assert found["closest"][0]["name"] == "Oilskin Ochre"


def test_what_is_not_asked_for_is_null(content: Path) -> None:
    found = data(mix.command, content, "Oilskin Ochre: 2")
    assert (found["over"], found["drops"]) == (None, None)
    assert (found["colour"], found["estimate"]) == ("#b8862f", False)
    assert [match["name"] for match in found["closest"]] == ["Brass Lamp", "Buoy in Sun"]


def test_a_paint_named_twice_adds_up(content: Path) -> None:
    twice = data(mix.command, content, "Oilskin Ochre: 1, Ropewalk: 1, RB-05: 1")
    once = data(mix.command, content, "Oilskin Ochre: 2, Ropewalk: 1")
    assert twice == once


@pytest.mark.parametrize("typed", ["a touch", "A Touch", "touch"])
def test_a_touch(content: Path, typed: str) -> None:
    found = data(mix.command, content, f"Ropewalk: 1, Bell Rope Red: {typed}")
    assert found["parts"] == {"Ropewalk": 1, "Bell Rope Red": 0.1}
    assert found["colour"] == data(mix.command, content, "Ropewalk: 1, Bell Rope Red: 0.1")["colour"]
    text = run(mix.command, content, f"Ropewalk: 1, Bell Rope Red: {typed}").stdout
    assert "a touch of 0.05" in text
    assert "a touch of 0.25" in text


def test_ways_to_write_parts(content: Path) -> None:
    plain = data(mix.command, content, "Oilskin Ochre: 1, Ropewalk: 1")
    for typed in (
        "Oilskin Ochre, Ropewalk",
        "{Oilskin Ochre: 1, Ropewalk: 1}",
        "Reedbank Acrylics / Oilskin Ochre: 1, Ropewalk",
    ):
        assert data(mix.command, content, typed) == plain
    assert data(mix.command, content, "Tidewrack, wet: 2, Ropewalk: 1")["parts"] == {
        "Tidewrack, wet": 2,
        "Ropewalk": 1,
    }
    assert data(mix.command, content, "Ropewalk, Tidewrack, wet")["parts"] == {
        "Ropewalk": 1,
        "Tidewrack, wet": 1,
    }


@pytest.mark.parametrize(
    "arguments",
    [
        ["Oilskin Ochre: 0"],
        ["Oilskin Ochre: -1"],
        ["Oilskin Ochre: some"],
        ["Oilskin Ochre: nan"],
        [" , "],
        ["Oilskin Ochre: 1", "--ml", "0"],
        ["Oilskin Ochre: 1", "--ml", "nan"],
        ["Oilskin Ochre: 1", "--ml", "lots"],
        [],
    ],
)
def test_misused_options_end_with_two(content: Path, arguments: list[str]) -> None:
    result = run(mix.command, content, *arguments)
    assert result.exit_code == 2
    assert "Traceback" not in result.stderr


def test_a_wash_over_a_paint(content: Path) -> None:
    found = data(mix.command, content, "Wet Wool wash", "--over", "Ropewalk")
    assert found["strength"] == (5 + 2) / (5 + 2 + 1)
    edges, flats, recesses = (
        lab_of([found["over"][where]])[0, 0] for where in ("edges", "flats", "recesses")
    )
    assert lab_of(["#b09a72"])[0, 0] > edges > flats > recesses
    glazed = data(mix.command, content, "Stern Light Glaze", "--over", "#b09a72")["over"]
    assert float(delta_e_2000(lab_of([glazed["edges"]]), lab_of([glazed["recesses"]]))[0]) < 3
    assert (
        "As a wash of strength 0.88 over #b09a72"
        in run(mix.command, content, "Wet Wool wash", "--over", "Ropewalk").stdout
    )


def test_a_clear_film_leaves_what_lies_under(content: Path) -> None:
    found = data(mix.command, content, "Clear Medium", "--over", "Ropewalk")
    assert found["colour"] is None
    assert found["over"] == dict.fromkeys(("edges", "flats", "recesses"), "#b09a72")
    assert found["closest"] == []


def test_a_mix_with_a_metal_has_no_colour_and_a_reason(content: Path) -> None:
    found = data(mix.command, content, "Fogbell: 1, Ropewalk: 1", "--over", "#ffffff", "--ml", "1")
    assert found["colour"] is None
    assert found["over"] == dict.fromkeys(("edges", "flats", "recesses"))
    assert found["drops"] == {"Fogbell": 10, "Ropewalk": 10}
    assert "metal paint" in run(mix.command, content, "Fogbell: 1, Ropewalk: 1").stdout


def test_parts_without_a_colon(content: Path) -> None:
    result = run(mix.command, content, "Oilskin Ochre 2, Ropewalk: 1")
    assert result.exit_code == 1
    assert "Write “Oilskin Ochre: 2”, with a colon between a paint and its parts." in result.stderr


def test_over_something_unknown(content: Path) -> None:
    result = run(mix.command, content, "Silt Wash", "--over", "Ropwalk")
    assert result.exit_code == 1
    assert "Ropewalk" in result.stderr
    result = run(mix.command, content, "Silt Wash", "--over", "Clear Medium")
    assert result.exit_code == 1
    assert "no colour to lay a film over" in result.stderr


def test_drops_come_out_of_pots(content: Path) -> None:
    """A house mix is dripped as what is in it: 1.6 ml is 32 drops of 0.05 ml, of which 5, 2 and 1 of 8."""
    found = data(mix.command, content, "Wet Wool wash", "--ml", "1.6")
    assert found["drops"] == {"Bilge Wash": 20, "Kelp Wash": 8, "Clear Medium": 4}
    text = run(mix.command, content, "Wet Wool wash", "--ml", "1.6").stdout
    assert "32 drops, about 1.6 ml" in text


def test_a_trace_that_cannot_be_dripped_is_owned_up_to(content: Path) -> None:
    result = run(mix.command, content, "Ropewalk: 5000, Bell Rope Red: 1", "--ml", "1")
    assert result.exit_code == 0
    assert "No count of drops" in result.stdout


def test_estimates_carry_their_error(content: Path) -> None:
    text = run(mix.command, content, "Oilskin Ochre: 2, Ropewalk: 1").stdout
    assert "often 5 off" in text
    assert "often 5 off" not in run(mix.command, content, "Rained-on slate").stdout


# On a terminal


def on_a_terminal(content: Path, **environ: str) -> str:
    """What `mix` writes to a terminal of its own."""
    ours, theirs = pty.openpty()
    arguments = ["mix", "Oilskin Ochre: 2, Ropewalk: 1", "--content", str(content)]
    process = subprocess.Popen(
        [sys.executable, "-m", "guidegen", *arguments],
        stdout=theirs,
        stderr=theirs,
        stdin=subprocess.DEVNULL,
        env={**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "", **environ},
        cwd=ROOT,
    )
    os.close(theirs)
    shown = b""
    while True:
        try:
            piece = os.read(ours, 4096)
        except OSError:  # Linux ends a pseudo-terminal so
            break
        if not piece:
            break
        shown += piece
    assert process.wait() == 0, shown
    os.close(ours)
    return shown.decode("utf-8")


def test_chips_are_blocks_of_colour_on_a_terminal(content: Path) -> None:
    # Oilskin Ochre's own colour as a background, ISO 8613-6: 48;2;r;g;b.
    assert "\x1b[48;2;184;134;47m" in on_a_terminal(content)


def test_no_color_is_obeyed(content: Path) -> None:
    for environ in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
        assert "\x1b[" not in on_a_terminal(content, **environ)


@pytest.mark.parametrize(
    "typed",
    [
        "Oilskin Ochre 2:1 Ropewalk",
        "2 Oilskin Ochre + 1 Ropewalk",
        "2 parts Oilskin Ochre and 1 part Ropewalk",
        "Oilskin Ochre:2, Ropewalk",
    ],
)
def test_parts_as_people_write_them(content: Path, typed: str) -> None:
    assert data(mix.command, content, typed) == data(mix.command, content, "Oilskin Ochre: 2, Ropewalk: 1")


def test_water_thins(content: Path) -> None:
    found = data(mix.command, content, "Oilskin Ochre: 1, water: 3", "--over", "#ffffff")
    assert (found["colour"], found["strength"], found["parts"]) == (
        "#b8862f",
        0.25,
        {"Oilskin Ochre": 1, "water": 3},
    )
