"""`closest` from outside: what it prints, its data, its exit codes."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.small_palette import data, run

from guidegen.commands import closest, mix
from guidegen.computing.colour.spaces import delta_e_2000, lab_of


def test_closest_as_data(content: Path) -> None:
    found = data(closest.command, content, "brass lamp")
    assert found["query"] == {"name": "Brass Lamp", "colour": "#c99b45"}
    assert [match["name"] for match in found["closest"]][:2] == ["Buoy in Sun", "Oilskin Ochre"]
    first = found["closest"][0]
    assert set(first) == {"name", "range", "kind", "colour", "de00", "owned"}
    assert (first["range"], first["kind"], first["colour"], first["owned"]) == (
        "Reedbank Acrylics",
        "paint",
        "#cba049",
        2,
    )
    assert [match["name"] for match in found["closest_owned"]] == ["Buoy in Sun", "Oilskin Ochre"]
    away = float(delta_e_2000(lab_of(["#c99b45"]), lab_of(["#cba049"]))[0])
    assert first["de00"] == pytest.approx(away, abs=5.1e-5)
    assert first["de00"] == round(first["de00"], 4)


def test_a_bare_colour_is_a_covering_paint(content: Path) -> None:
    for typed in ("#b8862f", "b8862f", "#B8862F"):
        found = data(closest.command, content, typed)
        assert found["query"] == {"name": None, "colour": "#b8862f"}
        assert found["closest"][0]["name"] == "Oilskin Ochre"
        assert {match["kind"] for match in found["closest"]} == {"paint"}


def test_a_known_name_beats_a_colour(content: Path) -> None:
    """“Facade” reads as six digits of a colour too; with the # it can only be the colour."""
    with (content / "palette.yaml").open("a", encoding="utf-8") as file:
        file.write("  - {name: Facade, parts: {Reedbank Acrylics / Reed: 1}}\n")
    assert data(closest.command, content, "facade")["query"]["name"] == "Facade"
    assert data(closest.command, content, "#facade")["query"] == {"name": None, "colour": "#facade"}


def test_metals_and_films_keep_to_themselves(content: Path) -> None:
    assert [match["name"] for match in data(closest.command, content, "Fogbell")["closest"]] == ["Tin Bailer"]
    assert [match["name"] for match in data(closest.command, content, "Lantern brass")["closest"]] == [
        "Fogbell",
        "Tin Bailer",
    ]
    assert {match["kind"] for match in data(closest.command, content, "Silt Wash")["closest"]} <= {
        "wash",
        "glaze",
    }


def test_a_house_mix_has_neighbours_and_is_none(content: Path) -> None:
    found = data(closest.command, content, "Rained-on slate")
    assert found["closest"][0]["name"] == "Oilskin Ochre"
    assert data(closest.command, content, "Wet Wool wash")["closest"][0]["name"] == "Bilge Wash"
    assert "estimated colour" in run(closest.command, content, "Wet Wool wash").stdout


def test_a_medium_has_nothing_to_compare(content: Path) -> None:
    assert data(closest.command, content, "Clear Medium") == {
        "query": {"name": "Clear Medium", "colour": None},
        "closest": [],
        "closest_owned": [],
    }
    assert "Nothing to compare" in run(closest.command, content, "Clear Medium").stdout


def test_an_unknown_name_is_told_with_the_nearest(content: Path) -> None:
    for command in (closest.command, mix.command):
        result = run(command, content, "Oilskin Ocre")
        assert result.exit_code == 1
        assert result.stdout == ""
        assert "There is no “Oilskin Ocre” in the palette." in result.stderr
        assert "Oilskin Ochre" in result.stderr


def test_a_name_of_two_pots_is_told_with_both(content: Path) -> None:
    result = run(closest.command, content, "Reed")
    assert result.exit_code == 1
    assert "Ninelock / Reed" in result.stderr
    assert "Reedbank Acrylics / Reed" in result.stderr
    found = data(closest.command, content, "ninelock / reed")
    assert found["query"]["name"] == "Ninelock / Reed"
    assert found["closest"][0]["range"] == "Reedbank Acrylics"


def test_guides_may_be_faulty_but_the_palette_may_not(content: Path) -> None:
    guide = content / "guides" / "ferry-watch"
    guide.mkdir(parents=True)
    (guide / "guide.md").write_text("---\ntitle: [\nnonsense", encoding="utf-8")
    assert run(closest.command, content, "Ropewalk").exit_code == 0
    assert run(mix.command, content, "Ropewalk").exit_code == 0
    with (content / "palette.yaml").open("a", encoding="utf-8") as file:
        file.write("  - {name: Slack, parts: {Slack: 1}}\n")
    for command in (closest.command, mix.command):
        result = run(command, content, "Ropewalk")
        assert result.exit_code == 1
        assert "mix-circle" in result.stderr


def test_closest_reads_well_in_a_pipe(content: Path) -> None:
    text = run(closest.command, content, "Brass Lamp").stdout
    assert "\x1b" not in text
    assert "Reedbank Acrylics / Buoy in Sun" in text
    assert "2 of yours" in text
    assert "can't be told apart" in text
    assert max(map(len, text.splitlines())) <= 110


def test_palettes_may_lie_in_a_folder(content: Path) -> None:
    (content / "palette").mkdir()
    (content / "palette" / "more.yaml").write_text(
        'paints: [{name: Wet Ochre, colour: "#b8862f"}]\n', encoding="utf-8"
    )
    assert data(closest.command, content, "Wet Ochre")["closest"][0]["name"] == "Oilskin Ochre"
