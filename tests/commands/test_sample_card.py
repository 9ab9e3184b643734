"""`sample --card` from outside: painted cards in photos of all sorts, and the palette written by them."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image, ImageDraw
from support.card_photos import blurred, coded, jpeg, lit, noisy, recoloured
from support.card_town import CardTown, chart_town, read

from guidegen.cli import guidegen
from guidegen.computing.card.corner_codes import find_codes
from guidegen.computing.card.pages import pages_in
from guidegen.computing.colour.spaces import delta_e_2000, lab_of, lab_of_linear
from guidegen.model.card import corner_of_box

pytestmark = pytest.mark.slow

ANCHORS = frozenset({1, 3, 5, 9, 11, 13, 15, 16, 19, 21, 24})


@pytest.fixture(scope="module")
def town(tmp_path_factory) -> CardTown:
    return chart_town(tmp_path_factory.mktemp("card"), ANCHORS)


@pytest.fixture(scope="module")
def plain(town) -> Image.Image:
    return noisy(lit(town.photo(), 0.3), 3)


def saved(photo: Image.Image, folder: Path, name: str = "card.tiff") -> Path:
    """In a form that is written in no time, unless the name says otherwise."""
    path = folder / name
    photo.save(path, **({"quality": 90} if name.endswith("jpg") else {}))
    return path


def apart(town: CardTown, data: dict) -> dict[int, float]:
    """CIEDE2000 from the truth of each paint that is no anchor and has a colour, by number."""
    boxes = [box for box in data["boxes"] if box["colour"] and "anchor" not in box["flags"]]
    off = delta_e_2000(
        lab_of([box["colour"] for box in boxes]), lab_of_linear(town.truth[[box["n"] - 1 for box in boxes]])
    )
    return dict(zip([box["n"] for box in boxes], off.tolist(), strict=True))


def flags(data: dict, n: int) -> list[str]:
    return next(box["flags"] for box in data["boxes"] if box["n"] == n)


def test_a_photo_gives_true_colours(town, plain, tmp_path):
    data, said = read(town, saved(plain, tmp_path))
    assert set(data) == {"card", "codes", "anchors", "left_out_median_de00", "boxes"}
    assert (data["card"], data["codes"], data["anchors"], said) == (town.card.id, 4, 11, "")
    assert [set(box) for box in data["boxes"]] == [
        {"n", "paint", "kind", "colour", "de00", "spread", "flags"}
    ] * 24
    assert {n for n in range(1, 25) if "anchor" in flags(data, n)} == ANCHORS
    off = apart(town, data)
    assert len(off) == 13
    assert np.median(list(off.values())) < 2.3
    assert data["left_out_median_de00"] < 3


def test_it_says_so_in_words(town, plain, tmp_path):
    result = CliRunner().invoke(
        guidegen,
        ["sample", str(saved(plain, tmp_path)), "--card", "--content", str(town.content)],
    )
    assert result.exit_code == 0
    assert re.search(r"Measured by 11 paints\..*came within \d\.\d of", result.stdout, re.DOTALL)
    assert "Jar 7" in result.stdout


def test_burnt_paper_is_told_and_paints_are_read(town, tmp_path):
    photo = recoloured(town.photo(), lambda values: values * 1.2)
    data, _ = read(town, saved(photo, tmp_path))
    read_so = [box for box in data["boxes"] if box["colour"]]
    assert len(read_so) > 15
    assert all("burnt-paper" in box["flags"] for box in read_so)
    arguments = ["sample", str(tmp_path / "card.tiff"), "--card", "--content", str(town.content)]
    said = CliRunner().invoke(guidegen, arguments).stdout
    assert "The paper is burnt out" in said
    assert "paper burnt out" in said


@pytest.mark.parametrize("lamp", ["A", "FL2", "LED-B3"])
def test_a_blurred_noisy_jpeg_is_as_true_as_plain_arithmetic(town, tmp_path, lamp):
    from support.cameras import scenes
    from support.card_bench import beside_paper, differences

    photo = jpeg(noisy(blurred(lit(town.photo(0, lamp), 0.4), 1.2), 5), 80)
    data, _ = read(town, saved(photo, tmp_path))
    scene = next(s for s in scenes() if (s.camera, s.lamp, s.paints) == (0, lamp, "chart"))
    plainly = differences(
        scene, beside_paper(scene, np.random.default_rng(1)), [n - 1 for n in sorted(ANCHORS)]
    )
    assert np.median(list(apart(town, data).values())) < float(np.median(plainly)) + 0.5


@pytest.mark.parametrize("ending", ["jpg", "webp", "png", "heic"])
def test_every_kind_of_photo(town, plain, tmp_path, ending):
    if ending == "heic":
        import pillow_heif

        pillow_heif.register_heif_opener()
    data, _ = read(town, saved(plain, tmp_path, f"card.{ending}"))
    assert data["codes"] == 4


def test_an_anchor_that_lies_is_named(town, plain, tmp_path):
    palette = town.content / "palette.yaml"
    honest = palette.read_text(encoding="utf-8")
    lie = re.sub(r'(name: Jar 13, colour: )"#\w+"', r'\1"#e8c71f"', honest)
    assert lie != honest
    photo = saved(plain, tmp_path)
    palette.write_text(lie, encoding="utf-8")
    try:
        data, _ = read(town, photo)
        words = (
            CliRunner()
            .invoke(guidegen, ["sample", str(photo), "--card", "--content", str(town.content)])
            .stdout
        )
    finally:
        palette.write_text(honest, encoding="utf-8")
    assert [box["n"] for box in data["boxes"] if "disagrees" in box["flags"]] == [13]
    assert re.search(r"The swatch of Jar 13 does not fit: \d\d off", words)
    assert np.median(list(apart(town, data).values())) < 3


def spoilt(photo: Image.Image, colour: str, *boxes: tuple[float, float, float, float]) -> Image.Image:
    photo = photo.copy()
    pen = ImageDraw.Draw(photo)
    for box in boxes:
        pen.ellipse(box, fill=colour)
    return photo


def test_a_thumb_over_a_corner_is_no_matter(town, plain, tmp_path):
    data, _ = read(town, saved(spoilt(plain, "#b98a6e", (120, 110, 420, 420)), tmp_path))
    assert data["codes"] == 3
    assert np.median(list(apart(town, data).values())) < 2.5


def test_two_thumbs_are_too_many(town, plain, tmp_path):
    photo = saved(spoilt(plain, "#b98a6e", (120, 110, 420, 420), (1150, 80, 1450, 420)), tmp_path)
    result = CliRunner().invoke(guidegen, ["sample", str(photo), "--card", "--content", str(town.content)])
    assert result.exit_code == 1
    assert "Only 2 of the four corners" in result.stderr


def test_boxes_that_are_spoilt_are_told_and_left_out(town, tmp_path):
    photo = town.photo(skip=frozenset({8}))
    (place,), _ = pages_in(find_codes(np.asarray(photo)).codes)
    corner = corner_of_box(town.card.paper, town.card.boxes[2])
    x, y = place.pixels(np.array([corner])[:, :2] + (13.0, 10.0))[0].tolist()
    photo = spoilt(photo, "#f2f2f0", (x - 14, y - 14, x + 14, y + 14))
    data, _ = read(town, saved(photo, tmp_path))
    assert flags(data, 8) == ["unpainted"]
    assert flags(data, 3) == ["shine"]
    assert [box["n"] for box in data["boxes"] if box["colour"] is None] == [3, 8]


def test_several_photos_are_averaged(town, plain, tmp_path):
    one = saved(plain, tmp_path, "one.tiff")
    other = saved(noisy(town.photo(1, "D65"), 3, seed=5), tmp_path, "other.tiff")
    first, second, both = (read(town, *photos)[0] for photos in ([one], [other], [one, other]))
    assert both["codes"] == 8
    for a, b, c in zip(first["boxes"], second["boxes"], both["boxes"], strict=True):
        lightness = sorted(lab_of([a["colour"], b["colour"]])[:, 0].tolist())
        assert lightness[0] - 0.6 <= lab_of([c["colour"]])[0, 0] <= lightness[1] + 0.6


def test_two_cards_in_a_picture_are_read_each_by_itself(town, plain, tmp_path):
    letter = CliRunner().invoke(
        guidegen,
        ["card", "--paper", "letter", "--content", str(town.content), "--out", str(tmp_path / "c.html")],
    )
    assert letter.exit_code == 0
    (other,) = [file.stem for file in (town.content / "cards").glob("*.yaml") if file.stem != town.card.id]
    from support.card_photos import drawn, seen_from

    from guidegen.model.card import Card

    beside = seen_from(
        drawn(Card(id=other, paper="letter", boxes=town.card.boxes)),
        ((90, 80), (1400, 80), (1400, 1780), (90, 1780)),
        (1500, 2000),
    )
    picture = Image.new("RGB", (3000, 2000))
    picture.paste(plain, (0, 0))
    picture.paste(beside, (1500, 0))
    data, _ = read(town, saved(picture, tmp_path))
    by_card = {one["card"]: one for one in data}
    assert by_card[town.card.id]["codes"] == by_card[other]["codes"] == 4
    assert np.median(list(apart(town, by_card[town.card.id]).values())) < 2.5
    assert all("unpainted" in box["flags"] for box in by_card[other]["boxes"])
    (town.content / "cards" / f"{other}.yaml").unlink()


@pytest.mark.parametrize(
    ("picture", "words"),
    [
        (lambda plain: Image.new("RGB", (300, 200), "white"), "No card could be read"),
        (lambda plain: plain.transpose(Image.Transpose.FLIP_LEFT_RIGHT), "not in a mirror"),
        (lambda plain: plain.resize((90, 120)), "No card could be read"),
        (lambda plain: plain.crop((0, 0, 1500, 900)), "Only 2 of the four corners"),
    ],
)
def test_what_is_no_card_is_told(town, plain, tmp_path, picture, words):
    photo = saved(picture(plain), tmp_path)
    result = CliRunner().invoke(guidegen, ["sample", str(photo), "--card", "--content", str(town.content)])
    assert result.exit_code == 1
    assert words in result.stderr


def test_other_codes_are_told_and_left_alone(town, plain, tmp_path):
    photo = plain.copy()
    photo.paste(coded("lantern.example/jars", 20.0).resize((200, 200)), (0, 0))
    result = CliRunner().invoke(
        guidegen,
        ["sample", str(saved(photo, tmp_path)), "--card", "--json", "--content", str(town.content)],
    )
    assert result.exit_code == 0
    assert json.loads(result.stdout)["codes"] == 4
    assert "1 code that a card of ours would not have" in result.stderr


def test_a_card_of_another_folder_is_told(town, plain, tmp_path):
    other = tmp_path / "content"
    other.mkdir()
    (other / "palette.yaml").write_text("paints: [{name: Chalk, colour: ffffff}]\n", encoding="utf-8")
    result = CliRunner().invoke(
        guidegen, ["sample", str(saved(plain, tmp_path)), "--card", "--content", str(other)]
    )
    assert result.exit_code == 1
    assert f"cards/{town.card.id}.yaml" in result.stderr


def test_a_cards_file_that_was_changed_is_told(town, plain, tmp_path):
    file = town.content / "cards" / f"{town.card.id}.yaml"
    before = file.read_text(encoding="utf-8")
    photo = saved(plain, tmp_path)
    for after in ("boxes: 5\n", before.replace("n: 2,", "n: 3,"), "", "paper: a4\n"):
        file.write_text(after, encoding="utf-8")
        try:
            result = CliRunner().invoke(
                guidegen, ["sample", str(photo), "--card", "--content", str(town.content)]
            )
        finally:
            file.write_text(before, encoding="utf-8")
        assert result.exit_code == 1
        assert "cannot be read as a card" in result.stderr


def written(town, photo, before):
    """What the command says, and the palette that it makes of one; the town's own is put back."""
    palette = town.content / "palette.yaml"
    kept = palette.read_bytes()
    try:
        palette.write_bytes(before)
        result = CliRunner().invoke(
            guidegen, ["sample", str(photo), "--card", "--write", "--content", str(town.content)]
        )
        return result, palette.read_bytes()
    finally:
        palette.write_bytes(kept)


def test_the_palette_is_written_and_nothing_else_of_it(town, plain, tmp_path):
    before = (town.content / "palette.yaml").read_bytes()
    result, after = written(town, saved(plain, tmp_path), before)
    assert result.exit_code == 0, result.output
    assert "To take it back" in result.stdout
    assert re.search(r"Jar 2  colour: #808080 → #\w{6}", result.stdout)
    assert "Jar 2  colour_from: eye → photo" in result.stdout
    for n, (old, new) in enumerate(zip(before.split(b"\n"), after.split(b"\n"), strict=True)):
        if n in ANCHORS or b"Jar" not in old:
            assert new == old
        else:
            assert re.sub(rb'"#\w+"', b'"#808080"', new).replace(b"photo", b"eye") == old
            assert b"colour_from: photo" in new


def test_two_cards_in_a_picture_are_written_together(town, plain, tmp_path):
    """Whichever is the first, a paint of the other lies below the line that it added."""
    palette = town.content / "palette.yaml"
    kept = palette.read_bytes()
    known = [line for n, line in enumerate(kept.decode().splitlines()) if n in ANCHORS]
    others = ["Jar 2", "Jar 4", "Jar 6"]
    block = [f"  - name: {name}\n    colour: 808080" for name in others]
    before = len(list((town.content / "cards").iterdir()))
    try:
        palette.write_text("\n".join(["paints:", *block, *known]) + "\n", encoding="utf-8")
        pages = []
        for jars in (others[0], others[2]), (others[1],):
            names = [*(f"Jar {n}" for n in sorted(ANCHORS)), *jars]
            pages.append(_photo_of_card_with(town, names, tmp_path))
        picture = Image.new("RGB", (3000, 2000))
        picture.paste(pages[0], (0, 0))
        picture.paste(pages[1], (1500, 0))
        result = CliRunner().invoke(
            guidegen,
            ["sample", str(saved(picture, tmp_path)), "--card", "--write", "--content", str(town.content)],
        )
        after = palette.read_text(encoding="utf-8")
    finally:
        palette.write_bytes(kept)
        for file in (town.content / "cards").iterdir():
            if file.stem != town.card.id:
                file.unlink()
    assert before == 1
    assert result.exit_code == 0, result.output
    assert result.stderr == ""
    assert after.count("colour_from: photo") == 3
    assert "808080" not in after


def _photo_of_card_with(town, names: list[str], folder: Path) -> Image.Image:
    """A card of some of the jars, painted as the town's are, in a photo."""
    from dataclasses import replace

    from guidegen.model.card import Card

    made = CliRunner().invoke(
        guidegen,
        ["card", *names, "--json", "--content", str(town.content), "--out", str(folder / "one.html")],
    )
    boxes = tuple(replace(town.card.boxes[0], n=n, paint=name) for n, name in enumerate(names, start=1))
    card = Card(id=json.loads(made.stdout)["card"], paper="a4", boxes=boxes)
    jars = [int(name.split()[1]) - 1 for name in names]
    return noisy(replace(town, card=card, spectra=town.spectra[jars]).photo(), 3)


def test_a_file_that_cannot_be_written_to_for_certain_is_a_fault(town, plain, tmp_path):
    before = (town.content / "palette.yaml").read_bytes()
    folded = before.replace(b'colour: "#808080"', b'colour: "#80\\\n      8080"', 1)
    assert folded != before
    result, after = written(town, saved(plain, tmp_path), folded)
    assert "palette.yaml is as it was" in result.stderr
    assert after == folded
    assert result.exit_code == 1


def test_paints_that_all_were_measured_by_stay_when_none_says_where_it_is_from(town, plain, tmp_path):
    before = (town.content / "palette.yaml").read_bytes()
    unset = re.sub(rb", colour_from: \w+", b"", before)
    result, after = written(town, saved(plain, tmp_path), unset)
    assert result.exit_code == 0, result.output
    assert "This is provisional" in result.stdout
    assert "There is nothing to write" in result.stderr
    assert after == unset


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ([], "Say what to read"),
        (["--card", "--at", "3,4"], "one of them"),
        (["--write", "--at", "3,4"], "--write goes with --card"),
        (["--compare", "3,4", "x"], "no place"),
        (["other.jpg", "--at", "3,4"], "Name one photo"),
    ],
)
def test_options_at_odds_are_refused(options, words):
    result = CliRunner().invoke(guidegen, ["sample", "card.jpg", *options])
    assert result.exit_code == 2
    assert words in " ".join(result.stderr.split())
