"""What lies in a content folder: which file is what, and which is left out and why."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.base.errors import GuidegenError
from guidegen.base.listing import ResolvedPath, Why
from guidegen.base.source import Source, Span
from guidegen.reading.content.discover import LARGEST_GUIDE, LARGEST_TEXT, ContentFiles, discover, open_text

WATCH = "---\ntitle: Watch\nsteps: [{step: Coats, paint: none, each: 1 min}]\n---\n"


def found_in(folder: Path, *paths: str) -> ContentFiles:
    """A folder with some guides, each at the path given, walked."""
    return discover(lay_out(folder, "".join(f"» {path}\n{WATCH}" for path in paths)))


def told(found: ContentFiles) -> list[tuple[str, str]]:
    return [(diagnostic.code, diagnostic.span.file) for diagnostic in found.diagnostics]


def test_each_file_has_its_place(tmp_path: Path):
    found = found_in(
        tmp_path,
        "site.yaml",
        "palette.yaml",
        "palette/reedbank.yaml",
        "palette/NINELOCK.YML",
        "palette/old/unused.yaml",
        "guides/ferry-watch/guide.md",
        "guides/ferry-watch/figure.svg",
        "guides/ferry-watch/notes.md",
        "guides/eel-seller.md",
        "guides/deep/deeper/guide.md",
        "shared/jetty-base.yaml",
        "plans/regatta.yml",
        "plans/notes.txt",
        "as-is/robots.txt",
        "as-is/.well-known/who",
        "templates/base.html",
        "README.md",
    )
    deep = ["guides/deep/deeper/guide.md", "palette/old/unused.yaml"]
    assert [(one.code, one.span.file) for one in found.diagnostics] == [
        ("file-not-read", path) for path in deep
    ]
    assert found.site == "site.yaml"
    assert found.palettes == ("palette.yaml", "palette/NINELOCK.YML", "palette/reedbank.yaml")
    assert [tuple(guide) for guide in found.guides] == [
        ("eel-seller", "guides/eel-seller.md", None),
        ("ferry-watch", "guides/ferry-watch/guide.md", "guides/ferry-watch/figure.svg"),
    ]
    assert [tuple(one)[:2] for one in found.shared] == [("jetty-base", "shared/jetty-base.yaml")]
    assert [tuple(one)[:2] for one in found.plans] == [("regatta", "plans/regatta.yml")]
    assert found.loose == ("as-is/.well-known/who", "as-is/robots.txt")
    assert found.templates == ("templates/base.html",)


def test_hidden_files_and_a_file_managers_own_are_passed_over(tmp_path: Path):
    found = found_in(
        tmp_path,
        "guides/eel-seller.md",
        "guides/.eel-seller.md.swp",
        "guides/.hidden/guide.md",
        ".git/config",
        "guides/Thumbs.db",
        "guides/._eel-seller.md",
        "as-is/.DS_Store",
    )
    assert sorted(found.listing.files) == ["guides/eel-seller.md"]
    assert found.loose == ()


@pytest.mark.parametrize(
    ("kept", "left_out", "address"),
    [
        ("guides/Heron/guide.md", "guides/heron.md", "heron"),
        ("guides/Toll House.md", "guides/toll-house.md", "toll-house"),
        ("guides/bell/guide.md", "guides/béll/guide.md", "bell"),
        ("shared/Jetty.yaml", "shared/jetty.yml", "jetty"),
        ("plans/a b.yaml", "plans/a-b.yaml", "a-b"),
    ],
)
def test_two_files_of_one_address(tmp_path: Path, kept: str, left_out: str, address: str):
    for path in (kept, left_out):
        file = tmp_path / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(WATCH, encoding="utf-8")
    found = discover(tmp_path)
    everything = (*found.guides, *found.shared, *found.plans)
    assert [(one.slug, one.path) for one in everything] == [(address, kept)]
    assert [one.path for one in found.doubles] == [left_out]
    assert told(found) == [("two-guides-one-address", left_out)]
    assert [related.span for related in found.diagnostics[0].related] == [Span.of_file(kept)]


def test_a_guide_a_list_and_a_plan_may_share_a_name(tmp_path: Path):
    assert found_in(tmp_path, "guides/jetty.md", "shared/jetty.yaml", "plans/jetty.yaml").diagnostics == ()


def test_photos_that_differ_in_case_are_two(tmp_path: Path):
    text = "» guides/a/Done.jpg = a photo 8 × 6\n» guides/a/done.jpg = a photo 4 × 3\n"
    listing = discover(lay_out(tmp_path, f"» guides/a/guide.md\n{WATCH}{text}")).listing
    assert listing.find("guides/a", "Done.jpg") == ResolvedPath("guides/a/Done.jpg")
    assert listing.find("guides/a", "done.jpg") == ResolvedPath("guides/a/done.jpg")
    assert listing.find("guides/a", "DONE.jpg") == ResolvedPath(None, Why.ABSENT)


def test_links_within_content_are_followed(tmp_path: Path):
    found = found_in(tmp_path, "guides/first/guide.md", "photos/done.jpg")
    (tmp_path / "guides" / "second.md").symlink_to(tmp_path / "guides" / "first" / "guide.md")
    (tmp_path / "guides" / "first" / "pictures").symlink_to("../../photos", target_is_directory=True)
    found = discover(tmp_path)
    assert [guide.slug for guide in found.guides] == ["first", "second"]
    assert found.listing.find("guides/first", "pictures/done.jpg") == ResolvedPath("photos/done.jpg")
    assert found.diagnostics == ()


def test_links_out_of_content_are_not(tmp_path: Path):
    outside = lay_out(tmp_path / "outside", f"» secret.jpg\nx\n» palette.yaml\nx\n» a/guide.md\n{WATCH}")
    content = lay_out(tmp_path / "content", f"» guides/eel-seller.md\n{WATCH}")
    (content / "palette.yaml").symlink_to(outside / "palette.yaml")
    (content / "guides" / "a").symlink_to(outside / "a", target_is_directory=True)
    (content / "guides" / "secret.jpg").symlink_to(outside / "secret.jpg")
    found = discover(content)
    assert sorted(found.listing.files) == ["guides/eel-seller.md"]
    # A photo is told where it is named; what would have been read is told at once.
    assert sorted(told(found)) == [("bad-value", "guides/a"), ("bad-value", "palette.yaml")]
    assert found.listing.find("guides", "secret.jpg") == ResolvedPath(None, Why.OUTSIDE)
    assert found.listing.find("guides", "a/guide.md") == ResolvedPath(None, Why.OUTSIDE)


def test_links_that_lead_nowhere_or_round_in_a_circle(tmp_path: Path):
    content = lay_out(tmp_path, f"» guides/eel-seller.md\n{WATCH}")
    (content / "gone.jpg").symlink_to("never-there.jpg")
    (content / "round").symlink_to(content, target_is_directory=True)
    (content / "itself").symlink_to("itself")
    found = discover(content)
    assert sorted(found.listing.files) == ["guides/eel-seller.md"]
    assert found.listing.find("", "round/round/guides/eel-seller.md") == ResolvedPath("guides/eel-seller.md")
    assert found.listing.find("", "round/" * 60 + "guides/eel-seller.md") == ResolvedPath(None, Why.OUTSIDE)


def test_what_is_no_file_is_no_file(tmp_path: Path):
    content = lay_out(tmp_path, f"» guides/eel-seller.md\n{WATCH}")
    os.mkfifo(content / "palette.yaml")
    assert discover(content).palettes == ()


def test_names_that_cannot_be_shown(tmp_path: Path):
    lay_out(tmp_path, f"» guides/eel-seller.md\n{WATCH}")
    (tmp_path / "guides" / "bell\x07.md").write_text(WATCH, encoding="utf-8")
    Path(os.fsdecode(os.fsencode(tmp_path) + b"/guides/\xff.md")).write_text(WATCH, encoding="utf-8")
    found = discover(tmp_path)
    assert [guide.slug for guide in found.guides] == ["eel-seller"]
    assert told(found) == [("bad-value", "guides/bell\ufffd.md"), ("bad-value", "guides/\ufffd.md")]


@pytest.mark.parametrize(
    ("data", "sentence", "place"),
    [
        (b"title: caf\xe9\n", "is not written in UTF-8; the first sign that cannot be read is in line 1", (1, 11)),
        ("ä\r\nüb\rx".encode() + b"\xff", "is in line 3", (3, 2)),
        ("title: Bell".encode("utf-16"), "is not written in UTF-8", (1, 1)),
    ],
)  # fmt: skip
def test_what_is_not_utf_8(tmp_path: Path, data: bytes, sentence: str, place: tuple[int, int]):
    (tmp_path / "site.yaml").write_bytes(data)
    diagnostic = open_text(tmp_path, "site.yaml")
    assert not isinstance(diagnostic, Source)
    assert diagnostic.code == "bad-yaml"
    assert sentence in diagnostic.message
    assert (diagnostic.span.line, diagnostic.span.column) == place


@pytest.mark.parametrize(
    ("path", "largest", "bound"),
    [("site.yaml", LARGEST_TEXT, "2 MB"), ("eel-seller.md", LARGEST_GUIDE, "500 kB")],
)
def test_a_text_too_large_to_be_one(tmp_path: Path, path: str, largest: int, bound: str):
    (tmp_path / path).write_bytes(b"#" * largest)
    assert isinstance(open_text(tmp_path, path), Source)
    (tmp_path / path).write_bytes(b"#" * (largest + 1))
    diagnostic = open_text(tmp_path, path)
    assert not isinstance(diagnostic, Source)
    assert f"is larger than {bound}" in diagnostic.message


def test_a_file_that_cannot_be_opened(tmp_path: Path):
    diagnostic = open_text(tmp_path, "site.yaml")
    assert not isinstance(diagnostic, Source)
    assert diagnostic.message == "site.yaml cannot be opened: No such file or directory."


def test_a_mark_at_the_beginning_and_other_line_ends_are_fine(tmp_path: Path):
    (tmp_path / "site.yaml").write_bytes("\ufefftitle: Bell\r\nauthor: Hob\rurl: x".encode())
    source = open_text(tmp_path, "site.yaml")
    assert isinstance(source, Source)
    assert source.text == "title: Bell\nauthor: Hob\nurl: x"


def test_the_order_of_a_folder_makes_no_difference(tmp_path: Path):
    paths = ["guides/b.md", "guides/a.md", "palette/z.yaml", "palette/a.yaml", "shared/q.yaml"]
    first = found_in(tmp_path / "first", *paths)
    second = found_in(tmp_path / "second", *reversed(paths))
    assert (first.guides, first.palettes, first.shared) == (second.guides, second.palettes, second.shared)


def test_no_content_folder(tmp_path: Path):
    with pytest.raises(GuidegenError, match="no content folder"):
        discover(tmp_path / "nowhere")
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(GuidegenError, match="is a file"):
        discover(tmp_path / "file")
    with pytest.raises(GuidegenError, match="has no guides"):
        discover(lay_out(tmp_path / "empty", "» notes.txt\nx\n"))
