"""`sample` from outside: photos of any kind, its data, its refusals."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from support.small_palette import data, run

from guidegen.commands import sample
from guidegen.computing.colour.spaces import delta_e_2000, lab_of, linear_of


def photo(folder: Path, name: str = "pot-lid.png", **more: Any) -> Path:
    """Ochre on the left under a dim yellowish light, a white card on the right."""
    picture = np.zeros((80, 120, 3), dtype=np.uint8)
    picture[:, :60] = np.rint(255 * (linear_of(["#b8862f"])[0] * (0.8, 0.7, 0.5)) ** (1 / 2.2))
    picture[:, 60:] = np.rint(255 * np.array((0.8, 0.7, 0.5)) ** (1 / 2.2))
    path = folder / name
    Image.fromarray(picture).save(path, **more)
    return path


def test_sample_as_data(content: Path, tmp_path: Path) -> None:
    path = str(photo(tmp_path))
    raw = data(sample.command, content, path, "--at", "30,40", "--radius", "5")
    assert set(raw) == {"colour", "lab", "pixels", "closest"}
    assert raw["pixels"] == 81
    assert raw["lab"] == pytest.approx(lab_of([raw["colour"]])[0].tolist(), abs=0.01)
    balanced = data(sample.command, content, path, "--at", "30,40", "--white", "90,40")
    assert float(delta_e_2000(lab_of([balanced["colour"]]), lab_of(["#b8862f"]))[0]) < 6
    assert balanced["closest"][0]["name"] == "Oilskin Ochre"


def test_a_sideways_photo_is_seen_upright(content: Path, tmp_path: Path) -> None:
    """Exif orientation 6 (CIPA DC-008): the camera's right becomes down, so the card is at the bottom."""
    exif = Image.Exif()
    exif[0x0112] = 6
    path = str(photo(tmp_path, "sideways.jpg", exif=exif, quality=95))
    card = data(sample.command, content, path, "--at", "40,100")["lab"][0]
    paint = data(sample.command, content, path, "--at", "40,20")["lab"][0]
    assert card > paint + 20
    assert run(sample.command, content, path, "--at", "100,40").exit_code == 1


def test_a_photo_from_a_phone(content: Path, tmp_path: Path) -> None:
    import pillow_heif

    pillow_heif.register_heif_opener()
    path = str(photo(tmp_path, "pot-lid.heic", quality=95))
    png = str(photo(tmp_path))
    one, other = (data(sample.command, content, each, "--at", "30,40")["lab"] for each in (path, png))
    assert float(delta_e_2000(one, other)) < 2


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--at", "200,40"], "outside the picture"),
        (["--at", "30,40", "--white", "30,-4"], "outside the picture"),
        (["--at", "90,40", "--white", "30,40"], "too dark"),
    ],
)
def test_refusals(content: Path, tmp_path: Path, arguments: list[str], words: str) -> None:
    picture = np.zeros((80, 120, 3), dtype=np.uint8)
    picture[:, 60:] = 200
    path = tmp_path / "dark.png"
    Image.fromarray(picture).save(path)
    result = run(sample.command, content, str(path), *arguments)
    assert result.exit_code == 1
    assert words in result.stderr
    assert result.stdout == ""


def test_a_burnt_out_card_is_refused(content: Path, tmp_path: Path) -> None:
    path = tmp_path / "bright.png"
    Image.fromarray(np.full((50, 50, 3), 255, dtype=np.uint8)).save(path)
    result = run(sample.command, content, str(path), "--at", "10,10", "--white", "40,40")
    assert result.exit_code == 1
    assert "burnt out" in result.stderr


def test_no_photo_or_a_broken_one(content: Path, tmp_path: Path) -> None:
    missing = run(sample.command, content, str(tmp_path / "gone.jpg"), "--at", "1,1")
    assert missing.exit_code == 1
    assert "There is no photo" in missing.stderr
    broken = tmp_path / "broken.jpg"
    broken.write_bytes(b"\xff\xd8\xff\xe0 no picture")
    result = run(sample.command, content, str(broken), "--at", "1,1")
    assert result.exit_code == 1
    assert "broken.jpg" in result.stderr


@pytest.mark.parametrize("at", ["30", "30,40,50", "left,top", "nan,3"])
def test_a_place_that_is_none(content: Path, tmp_path: Path, at: str) -> None:
    result = run(sample.command, content, str(photo(tmp_path)), "--at", at)
    assert result.exit_code == 2


def test_a_sample_needs_no_palette(tmp_path: Path) -> None:
    result = run(sample.command, tmp_path / "nowhere", str(photo(tmp_path)), "--at", "30,40", "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["closest"] == []


def test_an_unbalanced_sample_says_so(content: Path, tmp_path: Path) -> None:
    path = str(photo(tmp_path))
    assert "colour of the light" in run(sample.command, content, path, "--at", "30,40").stdout
    assert (
        "colour of the light"
        not in run(sample.command, content, path, "--at", "30,40", "--white", "90,40").stdout
    )


def test_every_place_that_is_asked_for(content: Path, tmp_path: Path) -> None:
    path = str(photo(tmp_path))
    paint, card = (data(sample.command, content, path, "--at", at) for at in ("30,40", "90,40"))
    result = run(sample.command, content, path, "--at", "30,40", "--at", "90,40", "--json")
    assert json.loads(result.stdout) == [paint, card]
    said = run(sample.command, content, path, "--at", "30,40", "--at", "90,40").stdout
    assert (
        said.index("at 30,40")
        < said.index(paint["colour"])
        < said.index("at 90,40")
        < said.index(card["colour"])
    )


def test_the_colours_that_most_of_a_photo_is_made_of(content: Path, tmp_path: Path) -> None:
    picture = np.full((96, 192, 3), (184, 134, 47), dtype=np.uint8)
    picture[:, 128:] = (76, 86, 96)
    picture[86:, :40] = (240, 239, 232)
    path = tmp_path / "scheme.png"
    Image.fromarray(picture).save(path)
    found = data(sample.command, content, str(path), "--colours", "5")
    assert list(found) == ["colours"]
    assert [one["colour"] for one in found["colours"]] == ["#b8862f", "#4c5660", "#f0efe8"]
    assert [one["share"] for one in found["colours"]] == pytest.approx([0.645, 0.3333, 0.0217], abs=1e-3)
    assert found["colours"][0]["closest"][0]["name"] == "Oilskin Ochre"
    fewer = data(sample.command, content, str(path), "--colours", "2")["colours"]
    assert sum(one["share"] for one in fewer) == pytest.approx(1.0, abs=1e-3)
    assert "Colour 1" in run(sample.command, content, str(path), "--colours", "2").output


@pytest.mark.parametrize(
    "asked", [[], ["--colours", "9"], ["--colours", "0"], ["--colours", "3", "--at", "1,1"]]
)
def test_what_is_asked_of_a_photo_has_to_be_clear(content: Path, tmp_path: Path, asked: list[str]) -> None:
    assert run(sample.command, content, str(photo(tmp_path)), *asked).exit_code == 2
