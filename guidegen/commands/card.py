"""`guidegen card`: a page of boxes to paint and photograph, so that a palette's colours need not be guessed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.base.errors import GuidegenError
from guidegen.commands.at_hand import leave, leave_unknown, palette_at_hand, pot_named
from guidegen.model.card import BOX, MOST_PAGES, PAPERS, PER_PAGE, Card, corner_of_box
from guidegen.model.paint import Paint, Palette
from guidegen.terminal.common import content_option, counted, json_option, print_json

if TYPE_CHECKING:
    from guidegen.computing.card.choice import Chosen

EXAMPLE = """\b
Examples:
  guidegen card --owned
  guidegen card "Oilskin Ochre" Gull --with tint
  guidegen card --range "Reedbank Acrylics" --with tint,film --paper letter
"""

# A page of ours may be written over, and nothing else.
_OURS = b'<meta name="generator" content="guidegen card">'
_LOOKED_AT = 2_000


def _with(_ctx: click.Context, _param: click.Parameter, value: str | None) -> frozenset[str]:
    """`tint`, `film` or both with a comma between."""
    words = {word.strip() for word in (value or "").split(",")} - {""}
    if not words <= {"tint", "film"}:
        raise click.BadParameter("Write tint, film, or tint,film.")
    return frozenset(words)


@click.command(epilog=EXAMPLE)
@click.argument("paints", nargs=-1, metavar="[PAINT]...")
@click.option("--range", "range_name", metavar="RANGE", help="Only paints of this range.")
@click.option("--owned", is_flag=True, help="Only paints on your shelf.")
@click.option(
    "--with",
    "more",
    callback=_with,
    metavar="tint,film",
    help="Let paints down with white as well; take in washes, glazes and stains.",
)
@click.option(
    "--paper",
    type=click.Choice(tuple(PAPERS)),
    default="a4",
    show_default=True,
    help="The paper to print on.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=Path("card.html"),
    show_default=True,
    metavar="FILE",
    help="The page that is written.",
)
@content_option
@json_option
def command(
    paints: tuple[str, ...],
    range_name: str | None,
    more: frozenset[str],
    paper: str,
    out: Path,
    content: Path,
    *,
    owned: bool,
    as_json: bool,
) -> None:
    """Make a card to print: a box for each paint, which is painted, dried and photographed once.

    All paints of the palette, or those that are named. Which paint is in which box is kept under cards/ in the content
    folder; guidegen sample PHOTO --card then reads the photo.
    """
    from guidegen.computing.card.choice import card_of, chosen

    palette = palette_at_hand(content)
    wanted = [
        paint
        for paint in _asked(palette, paints)
        if (not owned or paint.owned) and _is_of(paint, range_name, palette)
    ]
    found = chosen(palette, wanted, tint="tint" in more, film="film" in more)
    _refuse(found)
    card = card_of(found.boxes, paper)
    file = content / "cards" / f"{card.id}.yaml"
    _write(card, file, out, content)
    if as_json:
        print_json(_data(card, out))
    else:
        _print(card, file, out)
    _tell_left_out(found)
    if not as_json:
        _print_next(out)


def _refuse(found: Chosen) -> None:
    """End with 1 where there is nothing for a card, or more than it has room for."""
    if not found.boxes:
        _tell_left_out(found)
        leave("There is no paint to make a box for.", "Name other paints, or leave out --range or --owned.")
    if len(found.boxes) > MOST_PAGES * PER_PAGE:
        leave(
            f"These are {len(found.boxes):,} boxes; a card has room for {MOST_PAGES * PER_PAGE:,}.",
            "Make several cards, each with --range or the names of its paints.",
        )


def _print(card: Card, file: Path, out: Path) -> None:
    click.echo(
        f"Made {out}: card {card.id}, {len(card.boxes)} {'box' if len(card.boxes) == 1 else 'boxes'} on "
        f"{counted(card.pages, 'page')}."
    )
    click.echo(f"    {file} says which paint is in which box.")


def _print_next(out: Path) -> None:
    click.echo("Next:")
    click.echo(f"    Print {out} from a browser, at full size and without headings of the browser's own.")
    click.echo("    Paint the boxes, let them dry overnight, and photograph the card as it says.")
    click.echo(
        "    guidegen sample PHOTO --card shows what came of it, and --write puts it into the palette."
    )


def _asked(palette: Palette, names: Sequence[str]) -> list[Paint]:
    if not names:
        return list(palette.paints)
    found: list[Paint] = []
    for name in names:
        pot = pot_named(palette, name)
        if pot is None:
            leave_unknown(palette, name)
        if not isinstance(pot, Paint):
            leave(
                f"“{name}” is a house mix, and a card has paints only.", "Name the paints that it is made of."
            )
        if all(pot is not other for other in found):
            found.append(pot)
    return found


def _is_of(paint: Paint, range_name: str | None, palette: Palette) -> bool:
    from guidegen.base.suggest import folded
    from guidegen.commands.at_hand import known_help

    if range_name is None:
        return True
    known = {folded(one): one for one in filter(None, (each.range for each in palette.paints))}
    if folded(range_name) not in known:
        leave(
            f"No paint of the palette is of a range “{range_name}”.",
            known_help(range_name, sorted(known.values()), "None of your paints names a range."),
        )
    return folded(paint.range or "") == folded(range_name)


def _tell_left_out(found: Chosen) -> None:
    """Each reason once, with the paints it is for."""
    from guidegen.base.listed import some_of
    from guidegen.reporting.cells import harmless

    by_reason: dict[str, list[str]] = {}
    for name, reason in found.left_out:
        by_reason.setdefault(reason, []).append(name)
    for reason, names in by_reason.items():
        click.echo(harmless(f"Left out, since {reason}: {some_of(names)}."), err=True)
    if found.no_white:
        click.echo("Nothing is let down, since the palette has no white to do it with.", err=True)


def _write(card: Card, file: Path, out: Path, content: Path) -> None:
    from guidegen.reading.content.archive import read_site_alone
    from guidegen.reading.editing.card_file import card_yaml
    from guidegen.rendering.page.card_page import card_html
    from guidegen.words.language import language_of
    from guidegen.writing.fresh import put_files, refuse_links
    from guidegen.writing.rewrite import may_be_rewritten, rewrite
    from guidegen.writing.trouble import writing

    text = card_yaml(card).encode()
    html = card_html(card, language_of(read_site_alone(content).language))
    with writing(out):
        if out.exists() and not _is_ours(out):
            raise GuidegenError(f"“{out}” is there already, and is no card.", "Name another file with --out.")
    with writing(file):
        if not file.exists():
            refuse_links([file], content)
            put_files({file: text})
        elif file.read_bytes() != text:
            raise GuidegenError(
                f"“{file}” is there already and has other paints in it.", "Move it away and try again."
            )
    with writing(out):
        real = out.resolve()
        if not out.exists():
            put_files({out: html})
        elif may_be_rewritten(real):
            rewrite(real, html)
        else:
            raise GuidegenError(f"“{out}” may not be written to.", "Name another file with --out.")


def _is_ours(file: Path) -> bool:
    if not file.is_file():
        return False
    with file.open("rb") as opened:
        return _OURS in opened.read(_LOOKED_AT)


def _data(card: Card, out: Path) -> dict[str, object]:
    boxes = []
    for box in card.boxes:
        x, y = corner_of_box(card.paper, box)
        boxes.append(
            {
                "n": box.n,
                "paint": box.paint,
                "kind": box.kind.value,
                "page": card.page_of(box) + 1,
                "x_mm": round(x, 3),
                "y_mm": round(y, 3),
                "size_mm": BOX,
            }
        )
    return {"card": card.id, "file": str(out), "boxes": boxes}
