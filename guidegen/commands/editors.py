"""The files by which an editor explains every key, beside what `guidegen start` makes."""

from __future__ import annotations

from pathlib import Path

import click

from guidegen.base.errors import GuidegenError

_KIND = {"guides": "guide", "plans": "plan", "shared": "shared"}


def help_files(folder: Path) -> dict[Path, str]:
    """The text of each of those files, by its place in a content folder."""
    from guidegen.computing.guide.hazards import HAZARDS
    from guidegen.model.technique import KNOWN_WORDS
    from guidegen.reading.editing.editor_help import editor_files

    files = editor_files(techniques=KNOWN_WORDS, hazards=HAZARDS)
    return {folder / path: text for path, text in files.items()}


def with_help_line(file: str, text: str, content: Path | None = None) -> str:
    """The text of a file with the line that leads an editor to its help.

    `file` is its path in the content folder. Where `content` has no such help, the text stays as it is.
    """
    from guidegen.reading.editing.editor_help import FOLDER, line_for

    kind = _KIND.get(file.split("/", maxsplit=1)[0], file.partition(".")[0])
    if content is not None and not (content / FOLDER / f"{kind}.json").is_file():
        return text
    line = line_for(kind, file)
    # The first line of a guide has to be the one that opens what stands before its text.
    return text.replace("---\n", f"---\n{line}", 1) if file.endswith(".md") else line + text


def write_help_files(content: Path) -> None:
    """Write those files into a content folder that is there, over those of an earlier guidegen."""
    from guidegen.reading.editing.editor_help import FOLDER
    from guidegen.writing.atomic import write_atomically
    from guidegen.writing.trouble import writing

    if not content.is_dir():
        raise GuidegenError(
            f"There is no content folder “{content}”.",
            "Make one with guidegen start, or name yours with --content.",
        )
    folder = content / FOLDER
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise GuidegenError(f"“{folder}” is there already and is no folder.", "Take it away first.")
    with writing(folder):
        folder.mkdir(exist_ok=True)
        for file, text in help_files(content).items():
            write_atomically(file, text.encode())
    click.echo(f"Made {folder}. The first line of your files leads an editor to it:")
    for name in ("site.yaml", "palette.yaml", "plans/NAME.yaml", "shared/NAME.yaml"):
        click.echo(f"    {name}: {with_help_line(name, '').rstrip()}")
