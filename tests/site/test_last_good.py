"""`build --leave-out-faulty`: what an author has spoilt keeps its last good pages, and the whole site goes on around them."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out
from support.link_check import dead_links
from support.paths import CASES

from guidegen.building.site import placeholder_for
from guidegen.commands.build import command
from guidegen.model.site import Site

URL = "https://archive.example/painting"
CONTENT = (CASES / "last-good.txt").read_text(encoding="utf-8")
ABOUT_ALL = (
    *(
        "index.html",
        "paints/index.html",
        "paints/ropewalk.html",
        "shelf.html",
        "colours.html",
        "techniques.html",
    ),
    *("plans.html", "shared/puddles.html", "search-index.js", "feed.xml", "sitemap.xml"),
)
NAMED = "Faulty, and kept with the last good pages:\n"


def built(folder: Path, *options: str) -> Result:
    places = ["--content", str(folder / "content"), "--out", str(folder / "site")]
    result = CliRunner().invoke(command, [*places, "--cache", str(folder / "cache"), *options])
    assert dead_links(folder / "site", URL) == []
    return result


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    lay_out(tmp_path / "content", CONTENT)
    result = built(tmp_path)
    assert result.exit_code == 0, result.output
    return tmp_path


def rewrite(folder: Path, file: str, old: str, new: str) -> None:
    path = folder / "content" / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def spoil(folder: Path) -> None:
    """One misspelt paint in the list that two of three guides insert."""
    rewrite(folder, "shared/jetty-base.yaml", "Jetty Plank", "Jetti Plank")


def seen(folder: Path) -> dict[str, bytes]:
    """The site but for the list of what its files were made from."""
    files = bytes_of(folder / "site")
    del files[".guidegen-manifest.json"]
    return files


def own_pages(site: dict[str, bytes], *starts: str) -> dict[str, bytes]:
    return {path: data for path, data in site.items() if path.startswith(starts)}


KEPT = (
    "guides/ferry-watch/",
    "guides/old-watch/",
    "guides/heron/",
    "plans/regatta/",
    "shared/jetty-base.html",
)


def test_a_misspelt_paint_in_a_shared_list_takes_nothing_off_the_site(folder: Path):
    before = seen(folder)
    spoil(folder)
    result = built(folder, "--leave-out-faulty")
    assert result.exit_code == 1
    assert seen(folder) == before
    assert result.stdout.endswith(
        NAMED + "  guides/ferry-watch\n  guides/heron\n  plans/regatta\n  shared/jetty-base\n"
    )


@pytest.mark.parametrize("emptied", [False, True], ids=["cache", "no cache"])
def test_a_kept_guide_stands_on_every_page_about_all_as_it_did(folder: Path, emptied: bool):
    """Another guide's title changes each time, so that the pages about all are made again."""
    before = bytes_of(folder / "site")
    spoil(folder)
    title = "Toll house"
    for _ in range(3):
        if emptied:
            shutil.rmtree(folder / "cache")
        rewrite(folder, "guides/toll-house.md", f"title: {title}", f"title: {title} again")
        title += " again"
        assert built(folder, "--leave-out-faulty").exit_code == 1
        site = bytes_of(folder / "site")
        assert own_pages(site, *KEPT) == own_pages(before, *KEPT)
        assert own_pages(site, "assets/photos/") == own_pages(before, "assets/photos/")
        for page in ABOUT_ALL:
            assert site[page].replace(title.encode(), b"Toll house") == before[page], page
        assert title.encode() in site["index.html"]
        listed = json.loads(site[".guidegen-manifest.json"])["files"]
        assert listed.keys() == site.keys() - {".guidegen-manifest.json"}


def test_what_is_mended_is_renewed(folder: Path):
    before = seen(folder)
    spoil(folder)
    assert built(folder, "--leave-out-faulty").exit_code == 1
    rewrite(folder, "shared/jetty-base.yaml", "Jetti Plank", "Jetty Plank")
    result = built(folder, "--leave-out-faulty")
    assert (result.exit_code, NAMED in result.stdout) == (0, False)
    assert seen(folder) == before
    rewrite(folder, "shared/jetty-base.yaml", "step: Boards", "step: Planks")
    assert built(folder).exit_code == 0
    assert b"Planks" in (folder / "site/guides/heron/index.html").read_bytes()


def test_a_faulty_guide_that_the_author_removes_goes(folder: Path):
    rewrite(folder, "guides/heron.md", "Ropewalk", "Ropwalk")
    assert built(folder, "--leave-out-faulty").exit_code == 1
    assert (folder / "site/guides/heron/index.html").exists()
    (folder / "content/guides/heron.md").unlink()
    rewrite(folder, "guides/toll-house.md", ", heron]", "]")
    assert built(folder).exit_code == 0
    assert not (folder / "site/guides/heron").exists()
    assert b"A heron" not in b"".join(bytes_of(folder / "site").values())


def test_one_that_cannot_be_read_at_all_is_kept_too(folder: Path):
    before = seen(folder)
    for file in (
        "guides/heron.md",
        "shared/puddles.yaml",
        "plans/market.yaml",
        "guides/ferry-watch/guide.md",
    ):
        (folder / "content" / file).write_text("---\ntitle: [\n---\n", encoding="utf-8")
        assert built(folder, "--leave-out-faulty").exit_code == 1
        assert seen(folder) == before, file


def test_one_that_was_never_good_is_left_out_and_named(folder: Path):
    lay_out(
        folder / "content",
        "» guides/lamp-boys.md\n---\ntitle: Lamp boys\nsteps:\n  - {step: Coat, paint: Ropwalk}\n---\n",
    )
    rewrite(folder, "guides/heron.md", "Ropewalk", "Ropwalk")
    for _ in range(2):
        result = built(folder, "--leave-out-faulty")
        assert result.exit_code == 1
        assert result.stdout.endswith(
            NAMED
            + "  guides/heron\nFaulty, and left out, since there are no good pages yet:\n  guides/lamp-boys\n"
        )
        told = json.loads(built(folder, "--leave-out-faulty", "--json").stdout)
        assert (told["kept"], told["left_out"]) == (["guides/heron"], ["guides/lamp-boys"])
    assert b"Lamp boys" not in b"".join(bytes_of(folder / "site").values())


def test_what_kept_pages_refer_to_stays_as_long_as_they_do(folder: Path):
    """A paint that goes, another style, no plan any more: all of it is still in use."""
    old = bytes_of(folder / "site")
    (style,) = [path for path in old if re.fullmatch(r"assets/site.*\.css", path)]
    rewrite(folder, "palette.yaml", '  - {name: Lamp Glass, colour: "#d8c46a"}\n', "")
    rewrite(folder, "site.yaml", "title: The", "tokens: {paper: '#fdfaf2'}\ntitle: The")
    for plan in ("regatta", "market"):
        (folder / "content/plans" / f"{plan}.yaml").unlink()
    for _ in range(2):
        assert built(folder, "--leave-out-faulty").exit_code == 1
        site = bytes_of(folder / "site")
        assert own_pages(site, "guides/ferry-watch/") == own_pages(old, "guides/ferry-watch/")
        assert site[style] == old[style]
        assert site["paints/lamp-glass.html"] == old["paints/lamp-glass.html"]
        assert b"Lamp Glass" not in site["paints/index.html"]
        assert b"Regatta" not in b"".join(site.values())
        shutil.rmtree(folder / "cache")
    rewrite(folder, "guides/ferry-watch/guide.md", "paint: Lamp Glass", "paint: Deckhand")
    assert built(folder).exit_code == 0
    assert {style, "paints/lamp-glass.html", "plans.html"}.isdisjoint(bytes_of(folder / "site"))


def test_a_guide_that_goes_while_a_kept_one_leads_to_it_leaves_no_more_than_a_word(folder: Path):
    (folder / "content/guides/toll-house.md").unlink()
    (folder / "content/plans/market.yaml").unlink()
    for _ in range(2):
        assert built(folder, "--leave-out-faulty").exit_code == 1
        site = bytes_of(folder / "site")
        assert [path for path in site if path.startswith("guides/toll-house/")] == [
            "guides/toll-house/index.html"
        ]
        assert b"Walls" not in site["guides/toll-house/index.html"]
        assert b"toll-house" not in site["sitemap.xml"]
    rewrite(
        folder, "guides/ferry-watch/guide.md", "They stand beside [the toll house](../toll-house.md).", ""
    )
    assert built(folder).exit_code == 0
    assert not (folder / "site/guides/toll-house").exists()


def test_a_site_of_an_older_version_keeps_its_pages_and_their_titles(folder: Path):
    """It has no notes of what its pages are."""
    for file in (folder / "site").rglob("summary.json"):
        file.unlink()
    spoil(folder)
    assert built(folder, "--leave-out-faulty").exit_code == 1
    home = (folder / "site/index.html").read_text(encoding="utf-8")
    assert "Ferry watch" in home
    assert "guides/ferry-watch/index.html" in home


def test_a_draft_goes_faulty_or_not(folder: Path):
    rewrite(folder, "guides/heron.md", "title: A heron", "title: A heron\ndraft: yes")
    rewrite(folder, "guides/heron.md", "Ropewalk", "Ropwalk")
    result = built(folder, "--leave-out-faulty")
    assert (result.exit_code, "heron" in result.stdout) == (0, False)
    assert not (folder / "site/guides/heron").exists()


def test_a_page_that_a_killed_build_only_announced_is_no_last_good_one(folder: Path):
    """The small page stands at an address that is new until its own comes."""
    announce(folder, "guides/heron/index.html")
    rewrite(folder, "guides/heron.md", "Ropewalk", "Ropwalk")
    result = built(folder, "--leave-out-faulty")
    assert result.stdout.endswith("no good pages yet:\n  guides/heron\n")
    assert not (folder / "site/guides/heron").exists()


def test_a_variant_that_a_killed_build_only_announced_stays_announced(folder: Path):
    announce(folder, "guides/ferry-watch/with-straw-hat.html")
    rewrite(folder, "guides/ferry-watch/guide.md", "Ropewalk", "Ropwalk")
    (folder / "content/plans/regatta.yaml").unlink()
    for _ in range(2):
        assert "  guides/ferry-watch\n" in built(folder, "--leave-out-faulty").stdout
        assert (folder / "site/guides/ferry-watch/with-straw-hat.html").exists()


def announce(folder: Path, path: str) -> None:
    """Leave a page as a build does that is killed before its last step."""
    (folder / "site" / path).write_bytes(placeholder_for(Site())(path))
    manifest = folder / "site/.guidegen-manifest.json"
    listed = json.loads(manifest.read_bytes())
    listed["files"][path] = ["", "", -1]
    manifest.write_text(json.dumps(listed), encoding="utf-8")


def test_a_broken_photo_keeps_what_was_good(folder: Path):
    before = seen(folder)
    lay_out(folder / "content", "» guides/ferry-watch/coats.jpg = a broken photo\n")
    for _ in range(2):
        assert "  guides/ferry-watch\n" in built(folder, "--leave-out-faulty").stdout
        assert seen(folder) == before
