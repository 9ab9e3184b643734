"""`guidegen start guides/NAME --from FILE`: a draft that builds at once, out of what a painter has."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from PIL import Image
from support.content_folders import bytes_of
from support.paths import CONTENT
from support.recordings import SPOKEN, recordings

from guidegen.base.diagnostic import has_errors
from guidegen.base.errors import GuidegenError
from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.commands.start import command
from guidegen.model.guide import Guide

FILMS = [file for kind in ("tuned", "scored") for file in recordings(kind)]

LOG = """\
step,begun,ended,figures
Coats,2026-03-14T20:00:00,2026-03-14T20:40:00,10
Wash,2026-03-14T21:00:00,2026-03-14T21:10:00,10
"""
NOTES = "1. Coats: Oilskin Ochre\n2. Wash: Silt Wash, 40 min\n"


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A content folder with the palette of our town and no guide."""
    monkeypatch.chdir(tmp_path)
    for file in ("site.yaml", "palette/reedbank.yaml", "palette/ninelock.yaml", "palette/sternpost.yaml"):
        place = tmp_path / "content" / file
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes((CONTENT / file).read_bytes())
    (tmp_path / "content/palette/house-mixes.yaml").write_bytes(
        (CONTENT / "palette/house-mixes.yaml").read_bytes()
    )
    return tmp_path


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, [*arguments, "--no-ask"])


def drafted(*arguments: str) -> tuple[str, Guide]:
    """What is said, and the guide that was made."""
    result = run("guides/test", *arguments)
    assert result.exit_code == 0, result.output
    found = check(Path("content"))
    assert not has_errors(found.diagnostics), [one.message for one in found.diagnostics]
    guide = found.archive.guide("test")
    assert guide is not None
    assert guide.draft
    return result.stdout, guide


@pytest.mark.slow
@pytest.mark.parametrize("file", FILMS, ids=lambda file: f"{file.parent.name}-{file.name}")
def test_a_draft_has_no_mistakes_and_says_nothing_that_ends_the_front_matter(file: Path):
    _, guide = drafted("--from", str(file))
    text = Path("content/guides/test/guide.md").read_text(encoding="utf-8")
    assert text.count("\n---\n") == 1
    assert text.count("---") == 2
    assert all(step.technique for step in guide.steps)
    assert "defaults" not in text


def test_a_published_draft_leads_back_into_the_film():
    _, guide = drafted("--from", str(SPOKEN / "tuned/ferry-watch.vtt"))
    place = Path("content/guides/test/guide.md")
    place.write_text(
        place.read_text(encoding="utf-8").replace("draft: yes  # take", "# take", 1), encoding="utf-8"
    )
    build(Order(content=Path("content"), out=Path("site"), cache=Path("cache")))
    chapters = Path("site/guides/test/chapters.vtt").read_text(encoding="utf-8")
    assert chapters.count("-->") == len({step.at for step in guide.steps})
    assert "00:00:44.000 -->" in chapters


def test_what_was_never_said_is_told():
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    said, _ = drafted("--from", "notes.txt")
    assert "a draft of 2 steps" in said
    assert "Paints: 2 sure, 0 likely, 0 not known." in said
    assert "Never said: no undercoat; no varnish; no brush in 2 steps; no time for each figure." in said


def test_what_was_misheard_stands_in_a_comment():
    said, guide = drafted("--from", str(SPOKEN / "tuned/eel-boats.srt"))
    assert "“killing row” was taken for Kiln Row" in said
    text = Path("content/guides/test/guide.md").read_text(encoding="utf-8")
    assert re.search('# heard "killing row", 0:\\d\\d: Kiln Row\n', text)
    assert guide.steps[0].paint is not None


def test_a_guide_is_taken_as_it_is():
    text = "---\ntitle: Mine\nsteps:\n  - {step: Coat, paint: Kiln Row}  # kept\n---\nWords.\n"
    Path("mine.md").write_text(text, encoding="utf-8")
    drafted("--from", "mine.md")
    made = Path("content/guides/test/guide.md").read_text(encoding="utf-8")
    assert made == text.replace("---\n", "---\ndraft: yes\n", 1)


def test_films_notes_and_tables_are_joined():
    Path("film.srt").write_text(
        "1\n00:00:05,000 --> 00:00:09,000\nFirst the coats in Oilskin Ochre.\n\n"
        "2\n00:01:00,000 --> 00:01:05,000\nThen Silt Wash over everything.\n",
        encoding="utf-8",
    )
    Path("notes.md").write_text(
        "- coats: Oilskin Ochre, size 2, 15 min\n- wash: Silt Wash, 30 min\n", encoding="utf-8"
    )
    Path("table.csv").write_text(
        "Step,Paint,Dry\nCoats,Oilskin Ochre,20\nSeal,Calm Matt,60\n", encoding="utf-8"
    )
    _, guide = drafted("--from", "table.csv", "--from", "notes.md", "--from", "film.srt")
    assert [(step.title, step.at, step.dry.air // 60_000, step.brush) for step in guide.steps] == [
        ("Coats", 5_000, 20, "size 2"),
        ("Wash", 60_000, 30, ""),
        ("Seal", None, 60, ""),
    ]


def photograph(folder: Path, *times: str, offset: str = "") -> None:
    folder.mkdir(exist_ok=True)
    for number, time in enumerate(times, 1):
        photo = Image.effect_noise((400, 300), 60 + number).convert("RGB")
        exif = Image.Exif()
        exif.get_ifd(0x8769)[0x9003] = f"2026:03:14 {time}"
        if offset:
            exif.get_ifd(0x8769)[0x9011] = offset
        photo.save(folder / f"p{number}.jpg", exif=exif)


def test_photos_go_to_their_steps_by_the_log():
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    Path("log.csv").write_text(LOG, encoding="utf-8")
    photograph(Path("evening"), "20:30:00", "20:39:00", "21:12:00")
    _, guide = drafted("--from", "notes.txt", "--from", "log.csv", "--photos", "evening")
    assert [[photo.file for photo in step.photos] for step in guide.steps] == [["p2.jpg"], ["p3.jpg"]]
    assert [step.each for step in guide.steps] == [240_000, 60_000]
    assert {file.name for file in Path("content/guides/test").iterdir()} == {"guide.md", "p2.jpg", "p3.jpg"}


def test_photos_go_in_groups_where_there_is_no_log_and_by_their_offset():
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    photograph(Path("evening"), "20:00:00", "20:01:00", "20:45:00", offset="+02:00")
    _, guide = drafted("--from", "notes.txt", "--photos", "evening")
    assert [[photo.file for photo in step.photos] for step in guide.steps] == [["p2.jpg"], ["p3.jpg"]]


def test_photos_are_added_to_a_guide_that_is_there():
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    drafted("--from", "notes.txt")
    before = Path("content/guides/test/guide.md").read_text(encoding="utf-8")
    photograph(Path("evening"), "20:00:00", "20:45:00")
    said = run("guides/test", "--into", "--photos", "evening").stdout
    assert "Added 2 photos" in said
    after = Path("content/guides/test/guide.md").read_text(encoding="utf-8")
    assert [line for line in after.splitlines() if "photo:" not in line] == before.splitlines()
    guide = check(Path("content")).archive.guide("test")
    assert guide is not None
    assert [[photo.file for photo in step.photos] for step in guide.steps] == [["p1.jpg"], ["p2.jpg"]]


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("--from", "none.vtt"), "There is no file “none.vtt”."),
        (("--from", "film.mp4"), "of no kind that a draft is made from"),
        (("--from", "empty.txt"), "Nothing in empty.txt tells of a step."),
        (("--from", "notes.txt", "--figure", "watchmen"), "There is no chart “watchmen”."),
        (("--from", "notes.txt", "--photos", "none"), "There is no folder “none” with photos."),
        (("--photos", "."), "Photos alone make no guide."),
        (("--into", "--photos", "."), "There is no guide “test” that can be read."),
    ],
)
def test_what_is_not_there_ends_with_1_and_makes_nothing(arguments: tuple[str, ...], sentence: str):
    for name, text in (("film.mp4", "x"), ("empty.txt", ""), ("notes.txt", NOTES)):
        Path(name).write_text(text, encoding="utf-8")
    before = bytes_of(Path())
    result = run("guides/test", *arguments)
    assert (result.exit_code, sentence in result.stderr) == (1, True), result.output
    assert bytes_of(Path()) == before


@pytest.mark.parametrize(
    "arguments",
    [
        ("guides/test", "--into"),
        ("plans/x", "--from", "notes.txt"),
        ("--figure", "watchman"),
        ("guides/test", "--from", "a.md", "--from", "notes.txt"),
    ],
)
def test_misused_options_are_refused(arguments: tuple[str, ...]):
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    Path("a.md").write_text("---\ntitle: A\nsteps: []\n---\n", encoding="utf-8")
    assert isinstance(run(*arguments).exception, GuidegenError)


def test_nothing_is_overwritten():
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    drafted("--from", "notes.txt")
    assert isinstance(run("guides/test", "--from", "notes.txt").exception, GuidegenError)


def test_the_date_is_today_s():
    Path("notes.txt").write_text(NOTES, encoding="utf-8")
    _, guide = drafted("--from", "notes.txt")
    assert guide.date is not None
    assert abs(guide.date - dt.datetime.now().astimezone().date()) <= dt.timedelta(days=1)
