"""Names and paths that reach out, hang, or cannot lie on every machine: each is refused or made safe, and said."""

from __future__ import annotations

import json
import os
import socket
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from abuse.fuzzing import around
from click.testing import CliRunner

from guidegen.cli import guidegen

pytestmark = pytest.mark.slow

SECRET = "the harbour master's secret"


class ResolvedPath:
    """A content folder that is sound, beside a folder that it must not reach."""

    def __init__(self, at: Path) -> None:
        self.content, self.site, self.outside = at / "content", at / "site", at / "outside"
        self.at = at
        for path, data in around().items():
            self.write(path, data)
        self.outside.mkdir()
        (self.outside / "secret.md").write_text(SECRET, encoding="utf-8")
        (self.outside / "secret.jpg").write_bytes(around()["guides/ferry-watch/coat.jpg"])

    def write(self, path: str, data: bytes | str) -> None:
        file = self.content / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(data if isinstance(data, bytes) else data.encode())

    def replaced(self, old: str, new: str) -> None:
        guide = self.content / "guides/ferry-watch/guide.md"
        guide.write_text(guide.read_text("utf-8").replace(old, new), encoding="utf-8")

    def told(self) -> list[tuple[str, str, str]]:
        """What `check` tells with some weight: code, file, message."""
        run = CliRunner().invoke(guidegen, ["check", "--content", str(self.content), "--format", "json"])
        assert run.exit_code in (0, 1), run.output
        found = json.loads(run.stdout)["diagnostics"]
        return [(d["code"], d["file"], d["message"]) for d in found if d["severity"] == "error"]

    def built(self) -> str:
        """The text of all files of the site, by their paths; it has to be built."""
        command = [
            "build",
            "--remove-many",
            "--remove-many",
            "--content",
            str(self.content),
            "--out",
            str(self.site),
            "--cache",
            str(self.at / "cache"),
        ]
        run = CliRunner().invoke(guidegen, command)
        assert run.exit_code == 0, run.output
        files = sorted(path for path in self.site.rglob("*") if path.is_file())
        return "\n".join(f"{path.relative_to(self.site)}\n{path.read_bytes()!r}" for path in files)


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[ResolvedPath]:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "home"))
    return ResolvedPath(tmp_path)


def linked(at: str, to: str, **more: bool) -> Callable[[ResolvedPath], None]:
    return lambda place: (place.content / at).symlink_to(to.replace("OUTSIDE", str(place.outside)), **more)


def made(path: str, make: Callable[[Path], object]) -> Callable[[ResolvedPath], None]:
    def do(place: ResolvedPath) -> None:
        file = place.content / path
        file.parent.mkdir(parents=True, exist_ok=True)
        make(file)

    return do


def listening(file: Path) -> None:
    here = Path.cwd()
    os.chdir(file.parent)  # a socket's whole path has to fit into a hundred bytes
    try:
        with socket.socket(socket.AF_UNIX) as one:
            one.bind(file.name)
    finally:
        os.chdir(here)


def device(file: Path) -> None:
    try:
        os.mknod(file, 0o20666, os.makedev(1, 5))  # zeros without end
    except PermissionError:
        pytest.skip("only an administrator may make a device")


def deep(file: Path) -> None:
    for _ in range(45):
        file /= "d"
    file.mkdir(parents=True)


OUT = "is a link that leads out of the content folder"
NOWHERE = "is a link that leads nowhere, or round in a circle"
NO_FILE = "is no ordinary file but "

# What is done to the content, and what is told of it.
REFUSED: dict[str, tuple[Callable[[ResolvedPath], None], str]] = {
    "a guide linked from outside": (linked("guides/eel.md", "OUTSIDE/secret.md"), OUT),
    "a folder linked from outside": (linked("guides/eel", "OUTSIDE"), OUT),
    "a palette that is a device": (linked("palette/x.yaml", "/dev/zero"), OUT),
    "a file to copy from outside": (linked("as-is/secret.md", "OUTSIDE/secret.md"), OUT),
    "a template from outside": (linked("templates/home.html", "OUTSIDE/secret.md"), OUT),
    "a chart from outside": (linked("guides/ferry-watch/b.svg", "/etc/passwd"), OUT),
    "a guide linked to itself": (linked("guides/eel.md", "eel.md"), NOWHERE),
    "a guide linked to nothing": (linked("guides/eel.md", "gone.md"), NOWHERE),
    "a link longer than names are": (linked("templates/home.html", "x" * 300), NOWHERE),
    "a pipe for a guide": (made("guides/eel.md", os.mkfifo), f"{NO_FILE}a pipe"),
    "a pipe for a photo": (made("guides/ferry-watch/pipe.jpg", os.mkfifo), f"{NO_FILE}a pipe"),
    "a pipe to copy": (made("as-is/pipe", os.mkfifo), f"{NO_FILE}a pipe"),
    "a socket": (made("shared/x.yaml", listening), f"{NO_FILE}a socket"),
    "a device": (made("palette/x.yaml", device), f"{NO_FILE}a device"),
    "a folder far too deep": (made("guides", deep), "lies more than 40 folders deep"),
    "a device's name": (made("as-is/con.txt", Path.touch), "has a name that Windows keeps for a device"),
    "a dot at the end": (made("as-is/notes.", Path.touch), "ends in a dot or a space"),
    "a blank at the end": (made("as-is/notes ", Path.touch), "ends in a dot or a space"),
    "a colon": (made("as-is/a:b", Path.touch), "has “:” in its name"),
    "a name too long": (made(f"as-is/{'a' * 200}", Path.touch), "has a name longer than 143 bytes"),
    "a path too long": (made(f"as-is/{'b' * 90}/{'c' * 90}/{'d' * 90}", Path.touch), "has a path longer than 200"),
    "the manifest": (made("as-is/.guidegen-manifest.json", Path.touch), "leaves alone in a site"),
    "a turn of direction": (made("as-is/a\u202egpj.exe", Path.touch), "has U+202E in its name"),
    "a line end": (made("guides/a\nb.md", Path.touch), "has signs in it that cannot be shown"),
    "a control character": (made("guides/\x1b[31m.md", Path.touch), "has signs in it that cannot be shown"),
    "no Unicode": (made(os.fsdecode(b"guides/\xff.md"), Path.touch), "has signs in it that cannot be shown"),
}  # fmt: skip


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="names and files that this machine does not have")
@pytest.mark.parametrize("what", REFUSED)
def test_is_refused_and_said(what: str, place: ResolvedPath):
    spoil, sentence = REFUSED[what]
    for folder in ("palette", "templates", "as-is"):
        (place.content / folder).mkdir()
    try:
        spoil(place)
    except OSError as error:
        pytest.skip(f"this disk has no such name: {error.strerror}")
    ((code, _, message),) = place.told()
    assert code in {"bad-value", "bad-template"}
    assert sentence in message
    assert not any(unicodedata.category(sign) in {"Cc", "Cs"} for sign in message)


@pytest.mark.parametrize(
    "typed",
    [
        "../../../outside/secret.jpg", "..\\\\..\\\\..\\\\outside\\\\secret.jpg", "ABSOLUTE", "file:///etc/passwd", "C:/secret.jpg",
        "//host/share/x.jpg", "%2e%2e/%2e%2e/%2e%2e/outside/secret.jpg", "pictures/secret.jpg", "secret-link.jpg",
        "./a/../../../../outside/secret.jpg", "/dev/zero", "pipe.jpg", "coat.jpg/../../../../outside/secret.jpg",
    ],
)  # fmt: skip
def test_no_photo_comes_from_outside(typed: str, place: ResolvedPath):
    folder = place.content / "guides/ferry-watch"
    (folder / "pictures").symlink_to(place.outside, target_is_directory=True)
    (folder / "secret-link.jpg").symlink_to(place.outside / "secret.jpg")
    os.mkfifo(folder / "pipe.jpg")
    typed = typed.replace("ABSOLUTE", str(place.outside / "secret.jpg"))
    place.replaced("{file: coat.jpg, alt: The watch}", f'{{file: "{typed}", alt: The watch}}')
    place.replaced("](coat.jpg", f"](<{typed}>")
    told = [code for code, file, _ in place.told() if file.endswith("guide.md") and "bad-value" not in code]
    assert told == ["missing-photo", "missing-photo"]


def test_twins_are_told(place: ResolvedPath):
    for name in ("Lamp-Boys", "lamp-boys", "caf\u00e9", "cafe\u0301"):
        place.write(
            f"guides/{name}/guide.md",
            around()["guides/ferry-watch/guide.md"].replace(b"coat.jpg", b"../ferry-watch/coat.jpg"),
        )
    if len(list((place.content / "guides").iterdir())) < 5:
        pytest.skip("this disk does not tell such names apart")
    codes = [code for code, _, _ in place.told()]
    assert codes == ["two-guides-one-address"] * 2


@pytest.mark.parametrize(
    "twins", [("Map.html", "map.html"), ("caf\u00e9.txt", "cafe\u0301.txt"), ("\u212aey", "key")]
)
def test_twins_to_copy_are_told(twins: tuple[str, str], place: ResolvedPath):
    for name in twins:
        place.write(f"as-is/{name}", "x")
    if len(list((place.content / "as-is").iterdir())) < 2:
        pytest.skip("this disk does not tell such names apart")
    ((code, _, message),) = place.told()
    assert code == "bad-value"
    assert "cannot lie side by side on every machine" in message


@pytest.mark.parametrize(
    "name", ["index.html", "INDEX.html", "guides/ferry-watch", "assets", "404.html/deep.txt"]
)
def test_what_lies_in_the_way_of_the_sites_own_is_told(name: str, place: ResolvedPath):
    place.write(f"as-is/{name}", "mine")
    command = [
        "build",
        "--remove-many",
        "--content",
        str(place.content),
        "--out",
        str(place.site),
        "--cache",
        str(place.at / "cache"),
    ]
    run = CliRunner().invoke(guidegen, command)
    assert run.exit_code == 1
    assert "which is a file of the site's own" in " ".join(run.output.split())
    assert not place.site.exists()


def test_what_lies_beside_the_sites_own_is_copied(place: ResolvedPath):
    place.write("as-is/guides/ferry-watch/base.stl", "mine")
    place.write("as-is/robots.txt", "mine too")
    assert "guides/ferry-watch/base.stl\nb'mine'" in place.built()


def test_look_alikes_are_apart(place: ResolvedPath):
    """Latin and Cyrillic letters that look the same are different addresses, and both are plain ASCII."""
    guide = around()["guides/ferry-watch/guide.md"].replace(b"coat.jpg", b"../ferry-watch/coat.jpg")
    place.write("guides/lamp-b\u043eys/guide.md", guide)
    place.write("guides/lamp-boys/guide.md", guide)
    text = place.built()
    pages = sorted(path.parent.name for path in (place.site / "guides").glob("lamp*/index.html"))
    assert len(pages) == 2
    assert all(name.isascii() for name in pages)
    assert SECRET not in text


def test_names_that_windows_keeps_make_safe_addresses(place: ResolvedPath):
    for name in ("con", "aux.md.", "nul "):
        place.write(
            f"guides/{name}/guide.md",
            around()["guides/ferry-watch/guide.md"].replace(b"coat.jpg", b"../ferry-watch/coat.jpg"),
        )
    place.built()
    made_of = {path.name for path in (place.site / "guides").iterdir()}
    assert made_of.isdisjoint({"con", "aux.md.", "nul ", "nul", "aux"})


def test_links_round_in_a_circle_end(place: ResolvedPath):
    (place.content / "guides" / "round").symlink_to("..", target_is_directory=True)
    (place.content / "guides" / "ferry-watch" / "again").symlink_to(".", target_is_directory=True)
    place.replaced("](coat.jpg", f"](<{'again/' * 30}coat.jpg>")
    place.built()
    place.replaced("again/" * 30, "again/" * 60)
    assert [code for code, _, _ in place.told()] == ["missing-photo"]
