"""`sample --compare` from outside: the old figure beside the new one, in one photo."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from support.small_palette import data, run

from guidegen.commands import sample


def photo(folder: Path, old: str, new: str) -> str:
    picture = np.zeros((100, 200, 3), dtype=np.uint8)
    for colour, left in ((old, 0), (new, 100)):
        picture[:, left : left + 100] = tuple(bytes.fromhex(colour[1:]))
    path = folder / "beside.png"
    Image.fromarray(picture).save(path)
    return str(path)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("#b8862f", "#8a4a2f", ["darker", "redder"]),
        ("#7f9144", "#a0b060", ["lighter"]),
        ("#4a3b2a", "#4a3b2a", []),
        ("#808080", "#7080a0", ["bluer"]),
    ],
)
def test_what_differs_in_words(content, tmp_path, old, new, words):
    found = data(sample.command, content, photo(tmp_path, old, new), "--compare", "50,50", "150,50")
    assert set(found) == {"old", "new", "de00", "words", "add"}
    assert (found["old"], found["new"]) == (old, new)
    assert set(words) <= set(found["words"])
    assert bool(found["words"]) is (old != new)
    assert (found["de00"] == 0) is (old == new)


def test_what_to_add(content, tmp_path):
    """Ochre that became too pale wants more of what is in the pot, of one's own paints."""
    found = data(
        sample.command, content, photo(tmp_path, "#b8862f", "#d8b880"), "--compare", "50,50", "150,50"
    )
    assert found["add"]["paint"] == "Oilskin Ochre"
    assert found["add"]["parts"] == 1


def test_it_says_it_in_a_sentence(content, tmp_path):
    result = run(
        sample.command, content, photo(tmp_path, "#b8862f", "#8a4a2f"), "--compare", "50,50", "150,50"
    )
    assert result.exit_code == 0
    assert "The new one is darker, redder and bluer." in result.stdout
    alike = run(
        sample.command, content, photo(tmp_path, "#b8862f", "#b8862f"), "--compare", "50,50", "150,50"
    )
    assert "They look alike." in alike.stdout


def test_without_a_palette_the_words_are_all(tmp_path):
    found = data(
        sample.command,
        tmp_path / "none",
        photo(tmp_path, "#b8862f", "#8a4a2f"),
        "--compare",
        "50,50",
        "150,50",
    )
    assert found["add"] is None
    assert found["words"]


def test_a_point_outside_is_told(content, tmp_path):
    result = run(
        sample.command, content, photo(tmp_path, "#b8862f", "#8a4a2f"), "--compare", "50,50", "950,50"
    )
    assert result.exit_code == 1
    assert "outside" in result.stderr
