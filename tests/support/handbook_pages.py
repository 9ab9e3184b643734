"""A page of the handbook as a story: its files are written, its commands run, its pictures put where it says so.

In the order of the page, which starts in an empty folder:

- a block such as ```yaml content/palette.yaml is written to that file, over what was there;
- the lines of a ```sh block are commands of guidegen, run there;
- a ```text block is what the commands before it say; `…` stands for anything, within a line or for several lines;
- a paragraph “Put `coats.jpg` and `faces.png` beside `content/guides/oar-boys/guide.md`.” puts pictures there;
- a paragraph “Delete the folder `content/guides/first-guide`.” does so.

Commands that end with an error have to be followed by what they say.
"""

from __future__ import annotations

import re
import shlex
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from click.testing import CliRunner
from markdown_it import MarkdownIt
from markdown_it.token import Token
from support.paths import CONTENT

from guidegen.cli import guidegen

GUIDES = CONTENT / "guides"
PICTURES = (".jpg", ".png", ".webp")
_PUT = re.compile(r"Put (.*) beside `([^`]+)`", re.DOTALL)
_DELETE = re.compile(r"Delete the folder `(content/[^`]+)`")
_ENDINGS = {"yaml": ".yaml", "markdown": ".md", "csv": ".csv", "jinja": ".html", "svg": ".svg", "vtt": ".vtt"}


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file to write; `text` is None for a picture to make."""

    path: str
    text: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """A folder to delete."""

    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Commands:
    """Commands to run one after the other, and what they should say, None where the page does not tell."""

    lines: tuple[str, ...]
    said: str | None = None


def pages(guides: Path = GUIDES) -> tuple[Path, ...]:
    """The handbook's pages."""
    return tuple(sorted(guides.glob("handbook-*/guide.md")))


def story(page: str) -> Iterator[File | Gone | Commands]:
    """What happens on a page, in order."""
    body = page.split("\n---\n", 1)[1]
    waiting: tuple[str, ...] = ()
    for token in MarkdownIt("commonmark").parse(body):
        language, _, path = token.info.partition(" ") if token.type == "fence" else ("", "", "")
        if language == "text":
            assert waiting, f"no command says this:\n{token.content}"
            yield Commands(lines=waiting, said=token.content)
            waiting = ()
            continue
        changes = list(_changes(token, language, path))
        if waiting and (changes or language == "sh"):
            yield Commands(lines=waiting)
            waiting = ()
        yield from changes
        if language == "sh":
            waiting = tuple(_lines(token.content))
    if waiting:
        yield Commands(lines=waiting)


def _changes(token: Token, language: str, path: str) -> Iterator[File | Gone]:
    """What a block or a paragraph does to the folder."""
    if path:
        assert PurePosixPath(path).suffix == _ENDINGS[language], f"{language} is not what {path} holds"
        yield File(path=path, text=token.content)
    elif token.type == "inline":
        put = _PUT.match(token.content)
        for name in re.findall(r"`([^`]+)`", put[1]) if put else ():
            if name.endswith(PICTURES):
                yield File(path=str(PurePosixPath(put[2]).parent / name))
        delete = _DELETE.match(token.content)
        if delete:
            yield Gone(path=delete[1])


def _lines(block: str) -> Iterator[str]:
    for line in block.replace("\\\n", " ").splitlines():
        assert line.startswith("guidegen "), f"“{line}” is no command of guidegen"
        yield line


def tell(page: str) -> Iterator[tuple[str, int, str]]:
    """Let a page's story happen in the current folder; each command's line, exit code and words."""
    for event in story(page):
        if isinstance(event, File):
            _write(event)
            continue
        if isinstance(event, Gone):
            shutil.rmtree(_inside(event.path))
            continue
        said, codes = "", []
        for line in event.lines:
            code, words = run(line)
            said += words
            codes.append(code)
            yield line, code, words
        if event.said is not None:
            assert _as_told(event.said).fullmatch(said.rstrip()), f"{event.lines} said otherwise:\n{said}"
        else:
            assert not any(codes), f"{event.lines} said:\n{said}"


def run(line: str) -> tuple[int, str]:
    """The exit code of a command, and what it says."""
    result = CliRunner().invoke(guidegen, shlex.split(line, comments=True)[1:], prog_name="guidegen")
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.output


def _write(file: File) -> None:
    place = _inside(file.path)
    if file.text is None:
        _photograph(place)
        return
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(file.text, encoding="utf-8")


def _photograph(place: Path) -> None:
    """The handbook's own photo of that name, else one of 1200 × 900: a daub of ochre in the middle, and a white card in the
    upper right corner.
    """
    from PIL import Image

    own = next(GUIDES.glob(f"handbook-*/{place.name}"), None)
    if own is not None:
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(own, place)
        return
    photo = Image.new("RGB", (1200, 900), (92, 96, 98))
    photo.paste((170, 130, 46), (500, 350, 700, 550))
    photo.paste((232, 230, 226), (1000, 50, 1150, 200))
    place.parent.mkdir(parents=True, exist_ok=True)
    photo.save(place, quality=90)


def _inside(path: str) -> Path:
    """A path of the story, which stays in its own folder."""
    outside = PurePosixPath(path).is_absolute() or ".." in PurePosixPath(path).parts
    assert not outside, f"{path} leads out of the page's folder"
    return Path(path)


def _as_told(told: str) -> re.Pattern[str]:
    """What is told as a pattern, in which `…` is anything."""
    return re.compile(".*".join(re.escape(part) for part in told.rstrip().split("…")), re.DOTALL)
