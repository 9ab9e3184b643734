"""All content, read: what comes of each file, what is told, and what is read again when something changed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from support.content_folders import bytes_of, lay_out

from guidegen.base.diagnostic import Diagnostic
from guidegen.model.site import FIRST_FORMAT, Archive
from guidegen.reading.content.archive import read_archive, read_found, read_palette
from guidegen.reading.content.discover import discover
from guidegen.reading.content.memory import ReadingMemory

TOWN = """
» site.yaml
title: The Nightjetty Archive
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
» shared/jetty-base.yaml
steps:
  - {step: Boards, paint: Oilskin Ochre, each: 1 min}
» guides/eel-seller/guide.md
---
title: Eel seller
cover: {file: done.jpg, alt: The eel seller}
steps:
  - {step: Apron, paint: Oilskin Ochre, each: 4 min}
  - insert: jetty-base
---
» guides/eel-seller/done.jpg = a photo 8 × 6
» guides/heron.md
---
title: Heron
steps: [{step: Neck, paint: Oilskin Ochre, each: 4 min}]
---
» plans/market.yaml
title: Market day
start: 2026-06-01
sittings: {sat: "10:00-12:00"}
units: [{guide: eel-seller, figures: 3}]
"""


def read(folder: Path, text: str = "", memory: ReadingMemory | None = None) -> tuple[Archive, list[str]]:
    """The archive of the town with some files changed, and what was told, a line each."""
    archive, told = read_archive(lay_out(folder, text) if text else folder, memory)
    return archive, [f"{one.span.file}:{one.span.line} {one.code}" for one in told]


@pytest.fixture
def town(tmp_path: Path) -> Path:
    """The town's content, long enough ago that its files are sure not to change in the same moment."""
    content = lay_out(tmp_path / "content", TOWN)
    for age, path in enumerate(sorted(content.rglob("*.*"))):
        os.utime(path, (1_700_000_000 + 10 * age, 1_700_000_000 + 10 * age))
    return content


def guide(title: str, keys: str = "") -> str:
    return f"---\ntitle: {title}\n{keys}steps: [{{step: Neck, paint: Oilskin Ochre, each: 4 min}}]\n---\n"


def test_everything_is_read(town: Path):
    before = bytes_of(town)
    archive, told = read(town)
    assert told == []
    assert [one.slug for one in archive.guides] == ["eel-seller", "heron"]
    assert [one.title for one in archive.guides[0].steps] == ["Apron", "Boards"]
    assert archive.guides[0].inserts == ("jetty-base",)
    assert [one.name for one in archive.shared] == ["jetty-base"]
    assert [one.title for one in archive.plans] == ["Market day"]
    assert archive.site.title == "The Nightjetty Archive"
    assert archive.addresses == {"eel-seller", "heron"}
    assert archive.unread == frozenset()
    assert list(archive.sources) == sorted(archive.sources)
    assert bytes_of(town) == before


def test_one_faulty_file_stops_no_other(town: Path):
    archive, told = read(
        town,
        """
» site.yaml
title: "
» guides/heron.md
---
title: [
---
» plans/market.yaml
- what
» palette/more.yaml
paints: [
» shared/reeds.yaml
steps: {}
""",
    )
    assert told == [
        "guides/heron.md:2 bad-yaml",
        "palette/more.yaml:1 bad-yaml",
        "plans/market.yaml:1 bad-value",
        "shared/reeds.yaml:1 bad-value",
        "site.yaml:1 bad-yaml",
    ]
    assert [one.slug for one in archive.guides] == ["eel-seller", "heron"]
    assert archive.addresses == {"eel-seller", "heron"}
    assert archive.unread >= {"guides/heron.md", "palette/more.yaml", "plans/market.yaml"}
    assert archive.site.title == "Painting guides"
    assert not archive.palette.whole


def test_diagnostics_come_with_their_line(town: Path):
    _, told = read_archive(lay_out(town, "» guides/heron.md\n" + guide("Heron", "tagz: [a]\n")))
    assert [(one.code, one.excerpt) for one in told] == [("unknown-key", "tagz: [a]")]


def test_a_file_that_is_gone_since_the_folder_was_walked(town: Path):
    found = discover(town)
    (town / "guides" / "heron.md").unlink()
    archive, told = read_found(found)
    assert [(one.code, one.span.file) for one in told] == [("bad-yaml", "guides/heron.md")]
    assert archive.unread == {"guides/heron.md"}


def test_what_shares_an_address_is_read_for_its_mistakes(town: Path):
    archive, told = read(town, "» guides/Heron/guide.md\n" + guide("Another", "tagz: x\n"))
    assert told == ["guides/Heron/guide.md:3 unknown-key", "guides/heron.md:1 two-guides-one-address"]
    assert archive.guide("heron").title == "Another"


@pytest.mark.parametrize(
    ("old", "told", "words"),
    [
        ("[bittern]", [], ""),
        ("[eel-seller]", ["guides/heron.md:3 two-guides-one-address"], "is the address of guides/eel-seller"),
        ("[Héron]", ["guides/heron.md:3 two-guides-one-address"], "is this guide's address today"),
        ("[bittern, Bittern]", ["guides/heron.md:3 two-guides-one-address"], "is in this list already"),
    ],
)
def test_old_addresses(town: Path, old: str, told: list[str], words: str):
    lay_out(town, f"» guides/heron.md\n{guide('Heron', f'was: {old}' + chr(10))}")
    _, found = read_archive(town)
    assert [f"{one.span.file}:{one.span.line} {one.code}" for one in found] == told
    assert all(words in one.message for one in found)


def test_two_guides_cannot_have_had_one_address(town: Path):
    _, told = read(
        town,
        f"» guides/a.md\n{guide('A', 'was: bittern' + chr(10))}» guides/b.md\n{guide('B', 'was: bittern' + chr(10))}",
    )
    assert told == ["guides/b.md:3 two-guides-one-address"]


def test_the_palette_alone_is_read_whatever_the_guides_are_like(town: Path):
    lay_out(town, "» guides/heron.md\nno guide\n» site.yaml\ndefaults: {range: Reedbank}\nurl: nowhere\n")
    palette, told = read_palette(town)
    assert [paint.full_name for paint in palette.paints] == ["Reedbank / Oilskin Ochre"]
    assert told == ()


def test_of_content_made_for_later_rules_nothing_is_read(town: Path):
    """What its files say by rules that nobody here knows would only hide what is the matter."""
    archive, told = read(town, "» site.yaml\ntitle: Later\nformat: 2\n» palette.yaml\npots: [Ropewalk]\n")
    assert told == ["site.yaml:2 bad-value"]
    assert (archive.guides, archive.palette.paints) == ((), ())
    # A guide that is asked for by its address is there all the same.
    assert "eel-seller" in archive.addresses


def test_content_that_names_no_rules_is_written_by_the_first(town: Path):
    archive, _ = read(town, "» site.yaml\ntitle: Old\n")
    assert archive.site.format == FIRST_FORMAT == 1


class TestMemory:
    """With a memory, the same comes out as without, and only what changed is read again."""

    def test_nothing_changed(self, town: Path):
        memory = ReadingMemory()
        first = read(town, memory=memory)
        # The newest files may be written once more in the same moment, so they are opened each time.
        opened, made = memory.opened, memory.read
        assert read(town, memory=memory) == first == read(town)
        assert memory.opened - opened <= 1
        assert memory.read == made

    @pytest.mark.parametrize(
        ("change", "kinds"),
        [
            ("» guides/heron.md\n" + guide("Bittern"), {"guide"}),
            ("» shared/jetty-base.yaml\nsteps: [{step: Planks, paint: none, each: 1 min}]\n", {"shared", "guide"}),
            ("» site.yaml\ntitle: Another\n", {"site"}),
            ("» palette.yaml\npaints: [{name: Oilskin Ochre, colour: fff}]\n", {"palette"}),
        ],
    )  # fmt: skip
    def test_only_what_depends_on_a_change_is_read_again(self, town: Path, change: str, kinds: set[str]):
        memory = ReadingMemory()
        read(town, memory=memory)
        before = {key: outcome[1] for key, outcome in memory.outcomes.items()}
        again = read(town, change, memory)
        assert again == read(town)
        anew = {key for key, outcome in memory.outcomes.items() if outcome[1] is not before.get(key)}
        assert {kind for kind, _ in anew} == kinds
        assert ("guide", "guides/heron.md") not in anew or kinds == {"guide"}

    def test_a_photo_that_goes_is_missed(self, town: Path):
        memory = ReadingMemory()
        assert read(town, memory=memory)[1] == []
        (town / "guides" / "eel-seller" / "done.jpg").unlink()
        assert read(town, memory=memory)[1] == ["guides/eel-seller/guide.md:3 missing-photo"]
        lay_out(town, "» guides/eel-seller/done.jpg = a photo 8 × 6\n")
        assert read(town, memory=memory)[1] == []

    @pytest.mark.parametrize("link", ["/as-is/sheet.pdf", "../../as-is/sheet.pdf", "/as%2Dis/sheet.pdf"])
    def test_a_file_that_a_link_waited_for(self, town: Path, link: str):
        memory = ReadingMemory()
        text = f"» guides/egret/guide.md\n{guide('Egret')}[A sheet]({link})\n"
        before = read(town, text, memory)[0].guide("egret")
        assert "data-to" not in before.body.before.html
        lay_out(town, "» as-is/sheet.pdf\nx\n")
        assert 'data-to="file:sheet.pdf"' in read(town, memory=memory)[0].guide("egret").body.before.html

    def test_defaults_of_the_site_reach_every_guide(self, town: Path):
        memory = ReadingMemory()
        read(town, memory=memory)
        archive, _ = read(town, "» site.yaml\ndefaults: {figures: 7, batch: 2}\n", memory)
        assert {one.figures for one in archive.guides} == {7}
        assert {one.batch for one in archive.guides} == {2}

    def test_what_is_gone_is_forgotten(self, town: Path):
        memory = ReadingMemory()
        read(town, memory=memory)
        (town / "guides" / "heron.md").unlink()
        assert [one.slug for one in read(town, memory=memory)[0].guides] == ["eel-seller"]
        assert "guides/heron.md" not in memory.texts
        assert all(path != "guides/heron.md" for _, path in memory.outcomes)

    def test_a_memory_can_be_kept(self, town: Path):
        import pickle

        memory = ReadingMemory()
        first = read(town, memory=memory)
        kept = pickle.loads(pickle.dumps(memory))
        made = kept.read
        assert read(town, memory=kept) == first
        assert kept.read == made


def test_diagnostics_are_in_the_order_of_files_and_places(town: Path):
    def place(one: Diagnostic) -> tuple[str, int, int]:
        return one.span.file, one.span.line, one.span.column

    _, told = read_archive(
        lay_out(
            town,
            "» guides/heron.md\n"
            + guide("Heron", "tagz: x\nsumary: y\n")
            + "» palette.yaml\npaintz: []\nx: 1\n",
        )
    )
    assert [place(one) for one in told] == sorted(place(one) for one in told)
    assert len(told) == 4
