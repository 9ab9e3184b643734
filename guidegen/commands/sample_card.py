"""`guidegen sample PHOTO… --card`: a painted card read, told, and written into the palette if that is asked for."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from guidegen.base.exit_codes import FAULTS
from guidegen.commands.at_hand import leave, palette_at_hand
from guidegen.model.card import TINT_WHITE, BoxKind
from guidegen.model.paint import Paint
from guidegen.terminal.common import counted, print_json, show, tell

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from guidegen.computing.card.boxes import SeenBox
    from guidegen.computing.card.pages import PagePlace, PartOfPage
    from guidegen.computing.card.reading import ReadBox, ReadCard
    from guidegen.computing.colour.sampling import Sample
    from guidegen.model.card import Card
    from guidegen.reading.editing.palette_values import NewValues

# So many pages and cards are told of: a photo made for it could have thousands of codes.
_MOST_TOLD = 5

_FLAGS = {
    "outside": "not wholly in the picture",
    "covered": "something lies on the paper around it",
    "clipped": "burnt out",
    "burnt-paper": "paper burnt out",
    "dark": "too dark",
    "unpainted": "still bare paper",
    "uneven": "uneven",
    "shine": "it shines",
    "disagrees": "does not fit the others",
    "pale": "satin and gloss come out pale",
    "provisional": "",
    "anchor": "measured by",
}


@dataclass(slots=True)
class _Found:
    """What the photos show of one card: for each photo the boxes of its pages."""

    card: Card
    photos: list[list[SeenBox]] = field(default_factory=list)
    corners: int = 0


def read_photos(photos: Sequence[Path], content: Path, *, write: bool, as_json: bool) -> None:
    """Read the cards in the photos, print what came of them, and with `write` put it into the palette.

    Ends with 1 where no card can be read.
    """
    from guidegen.computing.card.reading import read_card

    palette = palette_at_hand(content)
    found: dict[str, _Found] = {}
    for photo in photos:
        _look_through(photo, content, found)
    if not found:
        leave(
            "No card could be read.",
            "All four corners should be in the picture, sharp, and the card as large in it as it can be.",
        )
    cards = [read_card(one.card, one.photos, palette, corners=one.corners) for one in found.values()]
    if as_json:
        print_json([_data(card) for card in cards] if len(cards) > 1 else _data(cards[0]))
    for number, card in enumerate(cards if not as_json else ()):
        _print(card, first=not number)
    if write:
        _write(cards, content, quiet=as_json)


def _look_through(photo: Path, content: Path, found: dict[str, _Found]) -> None:
    from guidegen.computing.card.boxes import seen_boxes
    from guidegen.computing.card.corner_codes import find_codes
    from guidegen.computing.card.pages import pages_in

    picture = loaded(photo)
    codes, others, too_many = find_codes(picture)
    _tell_codes(others, photo, too_many=too_many)
    places, parts = pages_in(codes)
    _tell_parts(parts, photo)
    seen: dict[str, list[SeenBox]] = {}
    unknown = 0
    for place in places:
        if place.card not in found:
            card = _card(place, content, told=unknown < _MOST_TOLD)
            if card is None:
                unknown += 1
                continue
            found[place.card] = _Found(card)
        one = found[place.card]
        if place.page >= one.card.pages or place.paper != one.card.paper:
            tell(
                f"Page {place.page + 1} of card {place.card} in “{photo}” is none of that card's.",
                "Look whether its file is the right one.",
            )
            continue
        seen.setdefault(place.card, []).extend(seen_boxes(picture, one.card, place))
        one.corners += place.corners
    for card_id, boxes in seen.items():
        found[card_id].photos.append(boxes)
    for empty in [card_id for card_id, one in found.items() if not one.photos]:
        del found[empty]


def _tell_codes(others: int, photo: Path, *, too_many: bool) -> None:
    """Tell of codes that are none of ours, or more than can be looked at."""
    if others:
        tell(
            f"“{photo}” has {counted(others, 'code')} that a card of ours would not have.",
            "Left alone. Cover what else has a code, or leave it out of the picture.",
        )
    if too_many:
        tell(
            f"“{photo}” has more codes, or squares like those in their corners, than can be looked at.",
            "Photograph one card at a time, on a plain table.",
        )


def _tell_parts(parts: Sequence[PartOfPage], photo: Path) -> None:
    """Tell of the pages of which too few corners can be read, or none that lie in one plane."""
    for part in parts[:_MOST_TOLD]:
        what = f"page {part.page + 1} of card {part.card}"
        if part.crooked:
            tell(
                f"The corners of {what} fit no flat page in “{photo}”.",
                "Lay the card flat, one print of it alone, and not in a mirror.",
            )
        else:
            tell(
                f"Only {part.corners} of the four corners of {what} can be read in “{photo}”.",
                "Three are needed.",
            )
    if more := len(parts[_MOST_TOLD:]):
        tell(f"So it is with {more} more pages.", "Photograph one card at a time.")


def loaded(photo: Path) -> NDArray[np.uint8]:
    """An upright photo in full; where there is none, or none that can be read, that is told and ends with 1."""
    from guidegen.base.source import Span
    from guidegen.imaging.develop import load_apart

    if not photo.exists():
        leave(f"There is no photo “{photo}”.", "Check the name, and that you are in the right folder.")
    picture, diagnostics = load_apart(photo, photo.name, Span.of_file(str(photo)))
    for diagnostic in diagnostics:
        tell(diagnostic.message, diagnostic.help)
    if picture is None:
        raise SystemExit(FAULTS)
    return picture


def colours_at(
    photo: Path,
    points: Sequence[tuple[float, float]],
    radius: float,
    white: tuple[float, float] | None,
) -> list[Sample]:
    """The colours at points of a photo, in order, all in pixels; where one cannot be read, that is told and ends with 1."""
    from guidegen.computing.colour.sampling import Refusal, sample

    picture = loaded(photo)
    seen: list[Sample] = []
    for point in points:
        found = sample(picture, point, radius, white)
        if isinstance(found, Refusal):
            leave(found.message, found.help)
        seen.append(found)
    return seen


def _card(place: PagePlace, content: Path, *, told: bool) -> Card | None:
    """The card by its id, which is six hexadecimal digits whatever the photo; None after telling why there is none."""
    from guidegen.base.source import Source
    from guidegen.reading.content.discover import open_text
    from guidegen.reading.editing.card_file import read_card

    path = f"cards/{place.card}.yaml"
    root = Path(os.path.realpath(content))
    if not os.path.realpath(root / path).startswith(f"{root}{os.sep}") or not (root / path).is_file():
        if told:
            tell(
                f"The picture has a card {place.card}, of which there is no {path} in the content folder.",
                "Was it printed from another folder? Name that with --content.",
            )
        return None
    source = open_text(root, path)
    if not isinstance(source, Source):
        show([source], content)
        return None
    card, diagnostics = read_card(source, place.card)
    if card is None:
        show(diagnostics, content)
        tell(
            f"{path} cannot be read as a card.",
            "Print the card again with guidegen card, with the same paints.",
        )
    return card


def _data(read: ReadCard) -> dict[str, Any]:
    """The card as JSON. `films` is there where the card has any, `coats` where they are marked beside a box."""
    from guidegen.computing.card.film import Film

    films = [
        {"paint": name, "colour": film.colour, "strength": film.strength}
        if isinstance(film, Film)
        else {"paint": name, "colour": None, "strength": None, "why": film}
        for name, film in read.films.items()
    ]
    return {
        "card": read.card.id,
        "codes": read.corners,
        "anchors": read.anchors,
        "left_out_median_de00": _rounded(read.left_out_median),
        "boxes": [
            {
                "n": one.box.n,
                "paint": one.box.paint,
                "kind": one.box.kind.value,
                "colour": one.colour,
                "de00": _rounded(one.de00),
                "spread": _rounded(one.spread),
                "flags": list(one.flags),
                **({"coats": one.coats} if one.coats else {}),
            }
            for one in read.boxes
        ],
        **({"films": films} if films else {}),
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4)


def _print(read: ReadCard, *, first: bool) -> None:
    from guidegen.terminal.swatches import LEGEND, Row, print_rows, say

    rows = [Row(one.colour, _cells(one)) for one in read.boxes]
    print_rows(f"Card {read.card.id}: {counted(read.corners, 'corner')} read", rows, first=first)
    click.echo()
    for line in _told(read):
        say(line)
    say(LEGEND)


def _cells(one: ReadBox) -> tuple[str, ...]:
    what = {BoxKind.FULL: "", BoxKind.TINT: f"1:{TINT_WHITE:g} {one.box.white}"}.get(
        one.box.kind, f"{one.box.coats} coats" if one.box.coats > 1 else "1 coat"
    )
    away = "" if one.de00 is None else f"{one.de00:.1f} from the palette's"
    gone = "the palette no longer has it" if one.paint is None else ""
    remarks = ", ".join(filter(None, (gone, *(_FLAGS.get(flag, flag) for flag in one.flags))))
    error = f"± {one.spread:.1f}" if one.spread is not None else ""
    return (str(one.box.n), one.box.paint, what, one.colour or "", error, away, remarks)


def _told(read: ReadCard) -> Iterator[str]:
    from guidegen.computing.card.film import Film
    from guidegen.computing.card.reading import PAPER_ONLY

    if not read.anchors:
        yield (
            "No paint on the card has a colour that is trusted (colour_from: maker or measured), so only the white paper "
            f"was measured by. On measured paints half came within {PAPER_ONLY:g}."
        )
    elif read.left_out_median is not None:
        yield (
            f"Measured by {counted(read.anchors, 'paint')}. Left out in turn, half of them came within "
            f"{read.left_out_median:.1f} of their colours (ΔE00)."
        )
    else:
        yield f"Measured by {counted(read.anchors, 'paint')}; too few to tell how well."
    if read.provisional:
        yield (
            "This is provisional: no paint says where its colour is from (colour_from), so all of them were measured by, and "
            "keep their colours. Write colour_from: maker at those whose maker gives the colour, and read the card again."
        )
    if any("burnt-paper" in one.flags for one in read.boxes):
        yield (
            "The paper is burnt out, so how light it was is not known, and colours may come out too light. Take another photo "
            "with less light."
        )
    for one in read.boxes:
        if "disagrees" in one.flags:
            yield f"The swatch of {one.box.paint} does not fit: {one.off or 0:.0f} off. It was not measured by."
    yield from _covers(read)
    for name, film in read.films.items():
        if isinstance(film, Film):
            yield f"The film {name}: colour {film.colour}, strength {film.strength:g}."
        else:
            yield f"The film {name} cannot be told: {film}."


def _covers(read: ReadCard) -> Iterator[str]:
    """What the palette could say of how well paints cover, by the coats marked beside their boxes."""
    from guidegen.base.listed import list_of_words

    for covers in ("well", "fair", "poor"):
        names = [
            one.box.paint
            for one in read.boxes
            if one.covers == covers and one.paint is not None and one.paint.covers != covers
        ]
        if names:
            yield f"By the coats marked: covers: {covers} for {list_of_words(names)}."


def _write(cards: Iterable[ReadCard], content: Path, *, quiet: bool) -> None:
    """All cards at once, since a value on a line of its own moves what stands below it."""
    from guidegen.reading.editing.palette_values import with_values
    from guidegen.writing.rewrite import may_be_rewritten, rewrite
    from guidegen.writing.trouble import writing

    changes, lines = _changes(cards)
    by_file: dict[str, list[NewValues]] = {}
    for change in changes:
        by_file.setdefault(change.name.file, []).append(change)
    written = []
    for file, wanted in sorted(by_file.items()):
        place = Path(os.path.realpath(content)) / file
        with writing(place):
            after = with_values(file, place.read_bytes(), wanted) if may_be_rewritten(place) else None
            if after is None:
                tell(f"{file} is as it was: values cannot be put in for certain.", "Write them by hand.")
                continue
            rewrite(place, after)
        written.append(file)
    if not changes:
        tell("There is nothing to write.", "No box but those that were measured by could be read.")
    if written and not quiet:
        click.echo(f"Written into {' and '.join(written)}:")
        for file, line in lines:
            if file in written:
                click.echo(f"    {line}")
        click.echo("To take it back, write what stands on the left again; where that is none, take it out.")
    if len(written) < len(by_file):
        raise SystemExit(FAULTS)


def _changes(cards: Iterable[ReadCard]) -> tuple[list[NewValues], list[tuple[str, str]]]:
    """What is to be written for each paint, and a line for each value: what stood there, what stands there now."""
    from guidegen.computing.card.film import Film
    from guidegen.reading.editing.palette_values import NewValues
    from guidegen.reporting.cells import harmless

    asked: dict[str, dict[str, Any]] = {}
    paints: dict[str, Paint] = {}
    lines: dict[tuple[str, str], tuple[str, str]] = {}

    def change(paint: Paint, key: str, before: str, after: str, **values: Any) -> None:
        paints[paint.full_name] = paint
        asked.setdefault(paint.full_name, {}).update(values)
        told = harmless(f"{paint.full_name}  {key}: {before or 'none'} → {after}")
        lines[paint.full_name, key] = (paint.places["name"].file, told)

    def change_colour(paint: Paint, after: str) -> None:
        change(paint, "colour", paint.colour or "", after, colour=after, colour_from="photo")
        if paint.colour_from != "photo":
            change(paint, "colour_from", paint.colour_from, "photo")

    for films, one in [(read.films, one) for read in cards for one in read.boxes]:
        paint = one.paint
        if paint is None or one.colour is None:
            continue
        if one.box.kind is BoxKind.FULL and not _kept(one):
            change_colour(paint, one.colour)
        elif one.box.kind is BoxKind.TINT:
            down = paint.let_down
            with_white = f" {down.white.text}" if down is not None and down.white is not None else ""
            before = f"{down.colour} {down.paint_parts:g}:{down.white_parts:g}{with_white}" if down else ""
            told = (one.colour, 1.0, TINT_WHITE, one.box.white)
            change(paint, "let_down", before, f"{one.colour} 1:{TINT_WHITE:g} {one.box.white}", let_down=told)
        elif one.box.kind is BoxKind.FILM and one.box.coats == 1:
            film = films.get(one.box.paint)
            if isinstance(film, Film):
                change_colour(paint, film.colour)
                change(paint, "strength", f"{paint.strength:g}", f"{film.strength:g}", strength=film.strength)
    changes = [NewValues(name=paints[name].places["name"], **values) for name, values in asked.items()]
    return changes, list(lines.values())


def _kept(one: ReadBox) -> bool:
    """Whether a paint's colour stays whatever the photo says: it is the maker's or measured, or others were measured by it."""
    from guidegen.computing.card.reading import PROVISIONAL, TRUSTED

    return one.paint is not None and (one.paint.colour_from in TRUSTED or PROVISIONAL in one.flags)
