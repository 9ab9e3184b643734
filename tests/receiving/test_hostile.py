"""Material from somebody who means ill: nothing outside of its place, nothing over the bounds, each file named."""

from __future__ import annotations

import json
import struct
import zipfile
from pathlib import Path

import pytest
from support.submissions import ODDA, bytes_of, lay_out, received, zipped

from guidegen.receiving import material, unpacking


def left_out(result: object) -> dict[str, str]:
    said = json.loads(str(getattr(result, "stdout", "")))
    return {one["file"]: one["reason"] for one in said["not_taken"]}


def test_paths_that_lead_elsewhere(club: Path, tmp_path: Path):
    path = zipped(tmp_path / "odda.zip", ODDA)
    with zipfile.ZipFile(path, "a") as archive:
        for name in ("../../out.jpg", "/etc/out.jpg", "C:\\out.jpg", "guides/lamp-boys/..\\..\\..\\out.jpg"):
            archive.writestr(name, b"\xff\xd8\xff\xe0")
        link = zipfile.ZipInfo("guides/lamp-boys/link.jpg")
        link.external_attr = 0o120777 << 16
        archive.writestr(link, "/etc/passwd")
    around = bytes_of(tmp_path)
    result = received(club, path, "--json")
    assert result.exit_code == 0
    left = left_out(result)
    assert left["guides/lamp-boys/link.jpg"] == "is a link"
    assert left["/etc/out.jpg"] == left["C:/out.jpg"] == "has an absolute path"
    assert left["../../out.jpg"] == "would lie outside of its folder"
    assert left["guides/lamp-boys/../../../out.jpg"] == "would lie outside of its folder"
    assert bytes_of(tmp_path) == around


def test_a_name_without_end_does_not_bury_the_others(club: Path, tmp_path: Path):
    path = zipped(tmp_path / "odda.zip", ODDA)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(f"guides/lamp-boys/start{'n' * 5000}end.jpg", b"\xff\xd8\xff\xe0")
    lines = received(club, path).stdout.splitlines()
    [said] = [line for line in lines if "too long" in line]
    assert "guides/lamp-boys/start" in said
    assert "end.jpg has a name" in said
    assert len(said) < 200


def test_a_link_in_a_folder_is_not_followed(club: Path, tmp_path: Path):
    secret = tmp_path / "secret.jpg"
    secret.write_bytes(b"\xff\xd8\xff\xe0 of somebody else")
    odda = lay_out(tmp_path / "odda", ODDA)
    (odda / "guides" / "lamp-boys" / "more.jpg").symlink_to(secret)
    (odda / "shared" / "all").symlink_to(tmp_path, target_is_directory=True)
    left = left_out(received(club, odda, "--json"))
    assert left["guides/lamp-boys/more.jpg"] == "is a link"
    assert left["shared/all"] == "is a link"


def test_bombs_are_cut_off(club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(material, "LARGEST_FILE", 1_000_000)
    path = zipped(tmp_path / "odda.zip", ODDA)
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("guides/lamp-boys/huge.jpg", b"\xff\xd8\xff" + bytes(5_000_000))
    data = path.read_bytes()
    # Says that it is small, in both of its headers: APPNOTE.TXT 6.3.10, §4.3.7 and §4.3.12.
    size = struct.pack("<L", 5_000_003)
    assert data.count(size) == 2
    path.write_bytes(data.replace(size, struct.pack("<L", 10)))
    left = left_out(received(club, path, "--json"))
    assert "guides/lamp-boys/huge.jpg" in left
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("guides/lamp-boys/larger.jpg", b"\xff\xd8\xff" + bytes(5_000_000))
    assert left_out(received(club, path, "--json"))["guides/lamp-boys/larger.jpg"] == "is larger than 1 MB"


def test_locked_files_odd_packing_and_doubles(club: Path, tmp_path: Path):
    path = zipped(tmp_path / "odda.zip", ODDA)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("locked.jpg", b"\xff\xd8\xff\xe0")
        archive.writestr("odd.jpg", b"\xff\xd8\xff\xe0", zipfile.ZIP_LZMA)
        archive.writestr("Guides/Lamp-boys/Finished.jpg", b"\xff\xd8\xff\xe0")
    data = path.read_bytes()
    for signature, flags in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = next(
            at
            for at in range(len(data))
            if data.startswith(signature, at)
            and data[at + flags + 24 : at + flags + 50].find(b"locked.jpg") >= 0
        )
        data = data[: at + flags] + b"\x01" + data[at + flags + 1 :]
    path.write_bytes(data)
    left = left_out(received(club, path, "--json"))
    assert left["locked.jpg"] == "is locked with a password"
    assert left["odd.jpg"].startswith("is packed in a way")
    assert left["Guides/Lamp-boys/Finished.jpg"].startswith("has the same name as")


def test_broken_and_endless_zips_are_refused_in_a_sentence(
    club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    path = tmp_path / "odd.zip"
    for data in (b"PK\x03\x04 and no end", b"PK\x05\x06" + b"\xff" * 18, b"no such thing"):
        path.write_bytes(data)
        result = received(club, path)
        assert result.exception is not None
        assert getattr(result.exception, "message", "")
    monkeypatch.setattr(unpacking, "_LOOKED_AT", 4)
    path.write_bytes(b"")
    assert getattr(received(club, path).exception, "message", "")


def test_a_drawing_that_reaches_out_stays_away_and_its_guide_comes(club: Path, tmp_path: Path):
    text = """\
» guides/eels/guide.md
---
title: Eels
steps: [{step: Coat, paint: Ropewalk, area: coat, each: 1 min}]
---
» guides/eels/figure.svg
<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"><path data-area="coat" d="M0 0h9v9z"/></svg>
» guides/carp/guide.md
---
title: Carp
steps: [{step: Coat, paint: Ropewalk, each: 1 min, photo: {file: carp.jpg, alt: Carp}}]
---
» guides/carp/carp.jpg = a broken photo
"""
    result = received(club, lay_out(tmp_path / "odda", text), "--write", "--json")
    left = left_out(result)
    assert left["guides/eels/figure.svg"].startswith("has an error in line 1")
    assert left["guides/carp/guide.md"].startswith("has an error in line 3: “carp.jpg” is broken")
    assert (club / "guides/eels/guide.md").is_file()
    assert not (club / "guides/eels/figure.svg").exists()
    assert not (club / "guides/carp").exists()


def test_a_forged_page_is_held_to_the_same(club: Path, tmp_path: Path):
    page = tmp_path / "forged.html"
    files = {
        "../../out.md": "---\n",
        "guides/x/guide.md": "---\ntitle: X\nsteps: [{step: A, paint: Ropewalk, each: 1 min}]\n---\n",
        "templates/guide.html": "{{ 1/0 }}",
        "as-is/run.js": "alert(1)",
    }
    block = json.dumps(
        {"format": 1, "files": files, "photos": {"guides/x/a.jpg": "beef"}, "more": {"beef": "AAAA"}}
    )
    page.write_text(
        '<meta name="generator" content="guidegen send x"><script type="application/json" id="sent-source">'
        + block.replace("<", "\\u003c")
        + "</script>",
        encoding="utf-8",
    )
    said = json.loads(received(club, page, "--by", "../../Marl\x1b[2J", "--write", "--json").stdout)
    assert sorted(said["files"]) == ["guides/x/guide.md"]
    assert {one["file"] for one in said["not_taken"]} == {
        "../../out.md",
        "as-is/run.js",
        "guides/x/a.jpg",
        "templates/guide.html",
    }
    page.write_text('<meta name="generator" content="guidegen send x">' + "[" * 100_000, encoding="utf-8")
    assert received(club, page).exit_code == 1


@pytest.mark.parametrize(
    ("files", "reason"),
    [
        ([f"guides/{'n' * 300}/guide.md"], "has a name that is too long"),
        ([f"guides/{'ü' * 125}.md"], "has a name that is too long"),
        ([f"guides/lamp-boys/{'n' * 300}.jpg"], "has a name that is too long"),
        (["guides/a.md", "guides/a.md/guide.md"], "would lie where guides/a.md does"),
        (
            ["guides/lamp-boys/finished.jpg/more.jpg"],
            "would lie where guides/lamp-boys/finished.jpg does",
        ),
    ],
)
def test_files_that_no_disk_could_hold_together(club: Path, tmp_path: Path, files: list[str], reason: str):
    """A ZIP has names of any length, and a file may have the name of another's folder."""
    path = zipped(tmp_path / "odda.zip", ODDA)
    with zipfile.ZipFile(path, "a") as archive:
        for file in files:
            text = "---\ntitle: One more\nsteps:\n  - {step: Coats, paint: Eel Skin, each: 1 min}\n---\n"
            archive.writestr(file, b"\xff\xd8\xff\xe0" if file.endswith(".jpg") else text)
    assert left_out(received(club, path, "--json"))[files[-1]] == reason
