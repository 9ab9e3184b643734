"""The drawings that come with guidegen: starter charts, and the demo archive's pictures."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from defusedxml import ElementTree
from PIL import ExifTags, Image

ROOT = Path(__file__).resolve().parents[2]
CONTENT = ROOT / "content"
STARTERS = sorted((ROOT / "templates" / "charts").glob("*.svg"))
# The handbook's lantern is drawn by groups, as its readers may; tests/reading/test_chart.py reads it.
CHARTS = [
    *STARTERS,
    *(path for path in sorted(CONTENT.rglob("figure.svg")) if path.parent.name != "draw-a-figure"),
]
PICTURES = sorted(
    path for path in CONTENT.rglob("*") if path.suffix in {".jpg", ".jpeg", ".webp", ".png", ".heic"}
)

SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {f"{SVG}{name}" for name in ("svg", "title", "desc", "g", "path")}
ATTRIBUTES = {"viewBox", "fill", "d", "data-area", "data-part", "data-only"}
LARGEST_CHART = 20_000
LARGEST_CONTENT = 6_000_000


def test_the_promised_starters_are_there() -> None:
    assert {path.stem for path in STARTERS} >= {"watchman", "heron-rider", "ferry", "toll-house"}


@pytest.mark.parametrize("path", CHARTS, ids=lambda path: path.relative_to(ROOT).as_posix())
class TestChart:
    def test_has_nothing_but_shapes(self, path: Path) -> None:
        root = ElementTree.parse(path).getroot()
        assert {element.tag for element in root.iter()} <= ELEMENTS
        assert {name for element in root.iter() for name in element.attrib} <= ATTRIBUTES
        assert re.fullmatch(r"0 0 \d+ \d+", root.attrib["viewBox"])

    def test_says_what_it_shows(self, path: Path) -> None:
        root = ElementTree.parse(path).getroot()
        assert (root.findtext(f"{SVG}title") or "").strip()
        assert (root.findtext(f"{SVG}desc") or "").strip().endswith(".")

    def test_has_areas_with_recesses_and_edges(self, path: Path) -> None:
        shapes = list(ElementTree.parse(path).iter(f"{SVG}path"))
        wholes = [
            shape.get("data-area")
            for shape in shapes
            if shape.get("data-area") and not shape.get("data-part")
        ]
        assert len(wholes) >= 8
        parts = [
            (shape.get("data-area"), shape.get("data-part")) for shape in shapes if shape.get("data-part")
        ]
        assert {area for area, _ in parts} <= set(wholes)
        assert {part for _, part in parts} == {"recess", "edge"}
        assert len(set(parts)) == len(parts)

    def test_has_ink_that_belongs_to_no_area(self, path: Path) -> None:
        first = next(iter(ElementTree.parse(path).iter(f"{SVG}path")))
        assert first.get("data-area") is None
        assert first.get("fill")

    def test_closes_every_outline(self, path: Path) -> None:
        for shape in ElementTree.parse(path).iter(f"{SVG}path"):
            way = shape.get("d", "")
            assert way.count("M") == way.count("z") > 0
            assert way.endswith("z")

    def test_stays_inside_its_view(self, path: Path) -> None:
        root = ElementTree.parse(path).getroot()
        _, _, width, height = (int(number) for number in root.attrib["viewBox"].split())
        for x, y in starts(root):
            assert -8 <= x <= width + 8
            assert -8 <= y <= height + 8

    def test_is_small(self, path: Path) -> None:
        assert path.stat().st_size < LARGEST_CHART


def starts(root: object) -> list[tuple[int, int]]:
    """Where every outline of a chart begins."""
    ways = [shape.get("d", "") for shape in root.iter(f"{SVG}path")]  # type: ignore[attr-defined]
    return [(int(x), int(y)) for way in ways for x, y in re.findall(r"M(-?\d+) ?(-?\d+)", way)]


@pytest.fixture(scope="module", autouse=True)
def _heif() -> None:
    import pillow_heif

    pillow_heif.register_heif_opener()


@pytest.mark.parametrize("path", PICTURES, ids=lambda path: path.relative_to(CONTENT).as_posix())
def test_picture_opens_and_is_large_enough(path: Path) -> None:
    with Image.open(path) as picture:
        picture.load()
        assert max(picture.size) >= 1160
        assert min(picture.size) >= 480


def test_content_stays_small() -> None:
    assert sum(path.stat().st_size for path in CONTENT.rglob("*") if path.is_file()) < LARGEST_CONTENT


def test_every_picture_is_shown_in_a_guide() -> None:
    texts = "".join(path.read_text(encoding="utf-8") for path in CONTENT.rglob("*.md"))
    assert [path.name for path in PICTURES if path.name not in texts] == []


def test_the_demo_has_the_kinds_of_file_that_phones_leave() -> None:
    assert {path.suffix for path in PICTURES} == {".jpg", ".webp", ".png", ".heic"}
    with Image.open(CONTENT / "guides" / "ferry-watch" / "coats.jpg") as picture:
        exif = picture.getexif()
        assert exif[ExifTags.Base.Orientation] == 6
        assert exif.get_ifd(ExifTags.IFD.GPSInfo)
        assert picture.width > picture.height


def test_content_says_that_it_is_invented() -> None:
    assert "do not exist" in (CONTENT / "README.md").read_text(encoding="utf-8")
    assert "invented" in (CONTENT / "site.yaml").read_text(encoding="utf-8")
