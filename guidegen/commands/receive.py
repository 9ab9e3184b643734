"""`guidegen receive`: a member's material into the archive, without a change to what is there."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.terminal.common import content_option, counted, json_option, print_json

if TYPE_CHECKING:
    from guidegen.receiving.taking_in import Receipt

EXAMPLE = """\b
Examples:
  guidegen receive from-odda.zip --by Odda
  guidegen receive heron-riders.html --write
"""


@click.command(epilog=EXAMPLE)
@click.argument("path", type=click.Path(path_type=Path))
@click.option("--by", default="", metavar="NAME", help="Who made it; else what it says itself.")
@click.option("--write", is_flag=True, help="Do it. Without this it is only said what would happen.")
@content_option
@json_option
def command(path: Path, by: str, content: Path, *, write: bool, as_json: bool) -> None:
    """Take a member's material into the archive, and change nothing of what is there.

    PATH is a member's content folder, the folder of one guide, a ZIP of either, or a file made by guidegen send. What
    the member's site.yaml said is written out in each guide, lists that differ and paints of another colour come under
    the member's name, and each file that is not taken is named with its reason. Ends with 1 where a guide is left out,
    or nothing can be taken.
    """
    import tempfile

    from guidegen.base.exit_codes import FAULTS
    from guidegen.commands.at_hand import leave
    from guidegen.receiving.taking_in import take_in
    from guidegen.receiving.unpacking import unpack

    if not path.exists():
        leave(f"There is no file or folder “{path}”.", "Look how its name is spelt.")
    if path.is_dir() and path.resolve() == content.resolve():
        leave(f"“{path}” is the archive itself.", "Name what the member gave.")
    receipts = []
    with tempfile.TemporaryDirectory(prefix="guidegen-") as scratch:
        for number, unpacked in enumerate(unpack(path, Path(scratch))):
            receipt = take_in(unpacked, content, Path(scratch, f"work-{number}"), _name(by))
            if write:
                _put(content, receipt)
            receipts.append(receipt)
    if as_json:
        print_json(_as_json(receipts, written=write))
    else:
        click.echo("\n".join(line for receipt in receipts for line in _lines(receipt, written=write)))
    if any(_lacks(receipt) for receipt in receipts):
        raise SystemExit(FAULTS)


def _put(content: Path, receipt: Receipt) -> None:
    """Write the new files, guides after what they show; all of them or none."""
    from guidegen.writing.fresh import put_files, refuse_links
    from guidegen.writing.trouble import writing

    in_order = sorted(receipt.files, key=lambda path: (path.endswith(".md"), path))
    files = {content / path: receipt.files[path] for path in in_order}
    refuse_links(files, content)
    with writing(content, "Nothing was taken in."):
        put_files(files)


def _short(file: str) -> str:
    """A path by its two ends where no disk could hold it, so that a list of many stays one to read."""
    from guidegen.receiving.material import LONGEST_NAME

    return file if len(file) <= LONGEST_NAME else f"{file[:80]}…{file[-40:]}"


def _name(by: str) -> str:
    """The name on one line, without signs that a text cannot have."""
    from guidegen.base.paths import is_unsafe_to_show

    return " ".join("".join(" " if is_unsafe_to_show(sign) else sign for sign in by).split())


def _lacks(receipt: Receipt) -> bool:
    """Whether a guide, or all of it, could not be taken."""
    came = bool(receipt.guides or receipt.lists or receipt.paints)
    return not came or any(one.may_be_a_guide for one in receipt.not_taken)


def _as_json(receipts: list[Receipt], *, written: bool) -> dict[str, object]:
    def taken(key: str) -> list[dict[str, object]]:
        return [
            {"file": one.file, "name": one.name, "title": one.title, "already": one.already}
            for receipt in receipts
            for one in getattr(receipt, key)
        ]

    return {
        "by": receipts[0].by,
        "written": written,
        "guides": taken("guides"),
        "lists": [{key: row[key] for key in ("file", "name", "already")} for row in taken("lists")],
        "paints": [
            {"name": one.name, "becomes": one.becomes, "new": one.new}
            for receipt in receipts
            for one in receipt.paints
        ],
        "files": sorted(file for receipt in receipts for file in receipt.files),
        "not_taken": [
            {"file": one.file, "reason": one.reason} for receipt in receipts for one in receipt.not_taken
        ],
        "notes": [note for receipt in receipts for note in receipt.notes],
    }


def _lines(receipt: Receipt, *, written: bool) -> Iterator[str]:
    from guidegen.reporting.cells import harmless

    does = "is taken in as" if written else "would be taken in as"
    yield f"By {harmless(receipt.by)}:"
    for one in receipt.guides:
        what = f"“{harmless(one.title)}” ({harmless(one.file)})"
        yield f"  {what} is there already: {one.name}" if one.already else f"  {what} {does} {one.name}"
    for one in receipt.lists:
        what = f"The list {harmless(one.file)}"
        yield f"  {what} is the archive's own: {one.name}" if one.already else f"  {what} {does} {one.name}"
    as_named = [harmless(pot.name) for pot in receipt.paints if pot.new and pot.name == pot.becomes]
    if as_named:
        yield f"  New: {counted(len(as_named), 'paint')}: {', '.join(as_named)}"
    for pot in receipt.paints:
        if pot.name != pot.becomes:
            how = "comes in as" if pot.new else "is the archive’s"
            yield f"  The paint {harmless(pot.name)} {how} {harmless(pot.becomes)}"
    same = sum(not pot.new and pot.name == pot.becomes for pot in receipt.paints)
    if same:
        yield f"  {counted(same, 'paint')} of its own the archive has already"
    for note in receipt.notes:
        yield f"  {harmless(note)}"
    if receipt.not_taken:
        yield f"Not taken, {counted(len(receipt.not_taken), 'file')}:"
        for left in receipt.not_taken:
            yield f"  {harmless(_short(left.file))} {harmless(left.reason)}{'' if left.reason.endswith('.') else '.'}"
    new = counted(len(receipt.files), "new file")
    if written:
        yield f"{new} written; nothing that was there has changed."
    else:
        yield f"{new}; nothing is written yet." + (" Do it with --write." if receipt.files else "")
