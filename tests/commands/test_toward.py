"""`mix --toward` from outside, and `closest` where nothing is close: what they print, their data, their exit codes."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.small_palette import data, run

from guidegen.commands import closest, mix

SHELF = """\
ranges:
  Reedbank Acrylics: {size: 17 ml, drop: 0.05 ml}
  Ninelock: {size: 20 ml}
paints:
  - {name: Saltpan White, range: Reedbank Acrylics, colour: "#eeeae0", owned: 1}
  - {name: Caulker's Pitch, range: Reedbank Acrylics, colour: "#202124", owned: 1}
  - {name: Oilskin Ochre, range: Reedbank Acrylics, colour: "#b8862f", owned: 1}
  - {name: Reed, range: Reedbank Acrylics, colour: "#7f9144", owned: 1}
  - {name: Reed, range: Ninelock, colour: "#7f9144"}
  - {name: Heron's Back, range: Ninelock, colour: "#7f8a94"}
  - {name: Brass Lamp, range: Ninelock, colour: "#b98832"}
  - {name: Bell Rope Red, range: Ninelock, colour: "#d8102f"}
  - {name: Fogbell, range: Ninelock, colour: "#a78a4f", kind: metallic, owned: 1}
  - {name: Steel, range: Ninelock, colour: "#8a8d90", kind: metallic}
  - {name: Clear Medium, range: Ninelock, kind: medium, owned: 1}
  - {name: Night Glow, range: Ninelock, colour: "#ddff33", kind: effect}
"""


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    (tmp_path / "palette.yaml").write_text(SHELF, encoding="utf-8")
    return tmp_path


def test_a_pot_as_data(shelf: Path) -> None:
    found = data(mix.command, shelf, "--toward", "brass lamp")
    assert list(found) == ["query", "from", "pots", "recipes", "advice", "add"]
    assert found["query"] == {"name": "Brass Lamp", "colour": "#b98832"}
    assert (found["from"], found["advice"], found["add"]) == ("owned", "pot", None)
    first = found["pots"][0]
    assert list(first) == ["name", "range", "colour", "de00"]
    assert (first["name"], first["range"], first["colour"]) == (
        "Oilskin Ochre",
        "Reedbank Acrylics",
        "#b8862f",
    )
    assert first["de00"] == round(first["de00"], 4)
    assert [one["de00"] for one in found["pots"]] == sorted(one["de00"] for one in found["pots"])
    assert len(found["pots"]) == 4
    assert "Reedbank Acrylics / Reed" in [one["name"] for one in found["pots"]]


@pytest.mark.parametrize("name", ["Clear Medium", "Night Glow"])
def test_what_nothing_stands_in_for_is_not_missing_where_it_is_owned(shelf: Path, name: str) -> None:
    palette = shelf / "palette.yaml"
    palette.write_text(SHELF.replace("kind: effect}", "kind: effect, owned: 1}"), encoding="utf-8")
    found = data(mix.command, shelf, "--toward", name)
    assert (found["advice"], [(one["name"], one["de00"]) for one in found["pots"]]) == ("pot", [(name, 0.0)])
    said = run(mix.command, shelf, "--toward", name).output
    assert f"Take Ninelock / {name}: it is there. Nothing else stands in for it" in " ".join(said.split())


def test_a_mixture_as_data(shelf: Path) -> None:
    """Pitch and white make a grey that neither is near."""
    grey = data(mix.command, shelf, "Saltpan White: 2, Caulker's Pitch: 1")["colour"]
    found = data(mix.command, shelf, "--toward", grey)
    assert (found["query"], found["advice"]) == ({"name": None, "colour": grey}, "mix")
    first = found["recipes"][0]
    assert list(first) == ["parts", "colour", "de00", "estimate", "drops"]
    assert first["estimate"] is True
    assert len(first["parts"]) == 2
    assert first["de00"] <= 1.0
    assert list(first["drops"]) == list(first["parts"])
    assert 5 <= sum(first["drops"].values()) <= 8
    assert len(found["recipes"]) <= 5
    more = data(mix.command, shelf, "--toward", grey, "--ml", "2")["recipes"][0]
    assert sum(more["drops"].values()) >= 40


def test_a_name_of_two_ranges_is_told_in_full(shelf: Path) -> None:
    found = data(mix.command, shelf, "--toward", "#566135")
    named = {name for one in found["recipes"] for name in one["parts"]}
    assert "Reedbank Acrylics / Reed" in named
    assert "Reed" not in named
    assert {name for one in found["recipes"] for name in one["drops"]} == named


def test_out_of_other_pots(shelf: Path) -> None:
    every = data(mix.command, shelf, "--toward", "#b98832", "--from", "all")
    assert (every["from"], every["pots"][0]["name"], every["pots"][0]["de00"]) == ("all", "Brass Lamp", 0)
    of_range = data(mix.command, shelf, "--toward", "Oilskin Ochre", "--from", "ninelock")
    assert of_range["from"] == "Ninelock"
    assert {one["range"] for one in of_range["pots"]} == {"Ninelock"}
    missing = run(mix.command, shelf, "--toward", "#b98832", "--from", "Ninelok")
    assert missing.exit_code == 1
    assert "Ninelock" in missing.stderr


def test_so_many_pots(shelf: Path) -> None:
    assert all(
        len(one["parts"]) == 2
        for one in data(mix.command, shelf, "--toward", "#7f8a64", "--pots", "2")["recipes"]
    )
    assert data(mix.command, shelf, "--toward", "#7f8a64", "--pots", "1")["recipes"] == []
    assert run(mix.command, shelf, "--toward", "#7f8a64", "--pots", "4").exit_code == 2


def test_nothing_is_near(shelf: Path) -> None:
    found = data(mix.command, shelf, "--toward", "Bell Rope Red")
    assert found["advice"] == "buy"
    assert len(found["pots"]) == 4
    text = run(mix.command, shelf, "--toward", "Bell Rope Red").stdout
    assert "Buy a pot of it, or live without: Reedbank Acrylics / Oilskin Ochre is unlike" in text


@pytest.mark.parametrize(("name", "words"), [
    ("Clear Medium", "no colour of their own"), ("Night Glow", "what an effect paint does"), ("Steel", "no metal of that hue"),
])  # fmt: skip
def test_what_nothing_stands_in_for(shelf: Path, name: str, words: str) -> None:
    palette = shelf / "palette.yaml"
    palette.write_text(SHELF.replace("kind: medium, owned: 1", "kind: medium"), encoding="utf-8")
    found = data(mix.command, shelf, "--toward", name)
    assert (found["pots"], found["recipes"], found["advice"]) == ([], [], "buy")
    assert words in " ".join(run(mix.command, shelf, "--toward", name).stdout.split())


def test_it_reads_well(shelf: Path) -> None:
    text = run(mix.command, shelf, "--toward", "Heron's Back", "--ml", "1").stdout
    assert "out of the pots you own" in text
    assert "Mixtures, the simplest of those as good first" in text
    assert "about 5 off as a rule (ΔE00), sometimes 15. Mix, dab, let it dry" in text
    assert " drops" in text
    assert "bottle it" in text
    taken = run(mix.command, shelf, "--toward", "Brass Lamp").stdout
    assert "Take Reedbank Acrylics / Oilskin Ochre: can't be told apart." in taken
    assert "bottle it" not in taken


def test_a_first_try_says_what_to_add(shelf: Path) -> None:
    """It came out as foretold, so what is still needed of white is what makes one to three of one to one."""
    even = data(mix.command, shelf, "Saltpan White, Caulker's Pitch")["colour"]
    wanted = data(mix.command, shelf, "Saltpan White: 3, Caulker's Pitch: 1")["colour"]
    arguments = ["--toward", wanted, "--tried", "Saltpan White, Caulker's Pitch", "--got", even]
    assert data(mix.command, shelf, *arguments)["add"] == {"Saltpan White": 2}
    assert "Add 2 parts Saltpan White: then about 0." in run(mix.command, shelf, *arguments).stdout
    arguments[3] = "Saltpan White: 2, Caulker's Pitch: 2"
    assert data(mix.command, shelf, *arguments)["add"] == {"Saltpan White": 4}


def test_a_first_try_corrects_the_next(shelf: Path) -> None:
    """What was predicted too dark is predicted as it became, and other parts are moved the same way."""
    tried = ["--tried", "Saltpan White: 2, Caulker's Pitch: 1", "--got"]
    found = data(mix.command, shelf, "--toward", "#a0a0a8", *tried, "#a0a0a8")
    same = next(one for one in found["recipes"] if one["parts"] == {"Saltpan White": 2, "Caulker's Pitch": 1})
    assert (same["colour"], same["de00"]) == ("#a0a0a8", 0)
    assert found["add"] is None
    text = run(mix.command, shelf, "--toward", "#d8102f", *tried, "#a0a0a8").stdout
    assert "start again" in text


@pytest.mark.parametrize("arguments", [
    ["Oilskin Ochre", "--toward", "#b98832"],
    ["--toward", "#b98832", "--over", "Oilskin Ochre"],
    ["Oilskin Ochre", "--from", "all"],
    ["Oilskin Ochre", "--tried", "Oilskin Ochre", "--got", "#b98832"],
    ["--toward", "#b98832", "--tried", "Oilskin Ochre, Saltpan White"],
    ["--toward", "#b98832", "--got", "#b98832"],
    ["--toward", "#b98832", "--tried", "Oilskin Ochre", "--got", "#b98832"],
    ["--toward", "#b98832", "--tried", "Oilskin Ochre, Fogbell", "--got", "#b98832"],
    ["--toward", "#b98832", "--tried", "Oilskin Ochre, Saltpan White", "--got", "ochre"],
    [],
])  # fmt: skip
def test_misuse_ends_with_two(shelf: Path, arguments: list[str]) -> None:
    result = run(mix.command, shelf, *arguments)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "Traceback" not in result.stderr


def test_an_unknown_name_ends_with_one(shelf: Path) -> None:
    result = run(mix.command, shelf, "--toward", "Oilskin Ocre")
    assert result.exit_code == 1
    assert "Oilskin Ochre" in result.stderr


def test_closest_never_ends_with_nothing(shelf: Path) -> None:
    found = data(closest.command, shelf, "Bell Rope Red")
    assert found["closest_owned"] == []
    assert found["pots"][0]["name"] == "Oilskin Ochre"
    assert found["recipes"][0]["estimate"] is True
    text = run(closest.command, shelf, "Bell Rope Red").stdout
    assert "None of yours is within 10; the nearest anyway" in text
    assert any("Oilskin Ochre" in line and "unlike" in line for line in text.splitlines())
    assert "about 5 off as a rule" in text


def test_closest_does_not_offer_a_pot_for_itself(shelf: Path) -> None:
    found = data(closest.command, shelf, "Oilskin Ochre")
    names = [one["name"] for one in found["pots"]] + [n for one in found["recipes"] for n in one["parts"]]
    assert names
    assert "Oilskin Ochre" not in names
