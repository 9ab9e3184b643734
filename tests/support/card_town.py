"""A palette of measured paints, its card, and photos of that card painted with them under a lamp."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from click.testing import CliRunner
from PIL import Image
from support.cameras import photographed, reflectances
from support.card_bench import shown
from support.card_photos import drawn, painted, seen_from

from guidegen.cli import guidegen
from guidegen.computing.colour.spaces import Floats, encoded
from guidegen.model.card import Card
from guidegen.reading.editing.card_file import read_card

AT = ((210.0, 200.0), (1340.0, 170.0), (1370.0, 1790.0), (160.0, 1730.0))
SIZE = (1500, 2000)


@dataclass(frozen=True, slots=True, kw_only=True)
class CardTown:
    """Content with a palette and a card of it; `truth` are the paints' true colours in linear sRGB (n, 3)."""

    content: Path
    card: Card
    spectra: Floats
    truth: Floats

    def photo(
        self,
        camera: int = 0,
        lamp: str = "D50",
        corners: tuple[tuple[float, float], ...] = AT,
        page: int = 0,
        skip: frozenset[int] = frozenset(),
    ) -> Image.Image:
        """The card in a photo, its paper and paints as the camera shows them under the lamp; nothing else done to it."""
        paper = photographed(np.full((1, 31), 0.88), camera, lamp)[0]
        values = photographed(self.spectra, camera, lamp)
        colours = {
            n: tuple((values[n - 1] * 255.0).tolist()) for n in range(1, len(values) + 1) if n not in skip
        }
        blank = Image.fromarray(
            np.rint(np.asarray(drawn(self.card, page), dtype=float) * paper).astype(np.uint8)
        )
        return seen_from(painted(blank, self.card, colours, page), corners, SIZE)


def hexes(linear: Floats) -> list[str]:
    """Colours (n, 3) as the palette writes them."""
    levels = np.rint(encoded(np.clip(linear, 0.0, 1.0)) * 255.0).astype(int)
    return ["#" + "".join(f"{level:02x}" for level in row) for row in levels.tolist()]


def card_town(
    folder: Path, spectra: Floats, *, anchors: frozenset[int], told: Callable[[int, str], str] | None = None
) -> CardTown:
    """Make it: paints Jar 1, Jar 2 …; anchors (by number) say `maker`, the others are by eye and wrong."""
    from support.cameras import linear_of_spectra

    truth = shown(linear_of_spectra(spectra))
    lines = ["paints:"]
    for n, colour in enumerate(hexes(truth), start=1):
        known = n in anchors
        written = told(n, colour) if told else colour if known else "#808080"
        source = "maker" if known else "eye"
        lines.append(f'  - {{name: Jar {n}, colour: "{written}", colour_from: {source}}}  # pot {n}')
    content = folder / "content"
    content.mkdir(parents=True)
    (content / "palette.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    result = CliRunner().invoke(
        guidegen,
        ["card", "--json", "--content", str(content), "--out", str(folder / "card.html")],
    )
    assert result.exit_code == 0, result.output
    data = json.loads(result.stdout)
    from guidegen.base.source import Source

    path = content / "cards" / f"{data['card']}.yaml"
    card, _ = read_card(Source.from_bytes(path.name, path.read_bytes()), data["card"])
    assert card is not None
    return CardTown(content=content, card=card, spectra=spectra, truth=truth)


def chart_town(
    folder: Path, anchors: frozenset[int] = frozenset({1, 3, 5, 9, 11, 13, 15, 16, 19, 21, 24})
) -> CardTown:
    """With the 24 patches of the chart."""
    return card_town(folder, reflectances("chart"), anchors=anchors)


def read(town: CardTown, *photos: Path, options: tuple[str, ...] = ()) -> tuple[dict, str]:
    """What the command says of photos as JSON, and on standard error."""
    result = CliRunner().invoke(
        guidegen,
        ["sample", *map(str, photos), "--card", "--json", "--content", str(town.content), *options],
    )
    assert result.exit_code == 0, result.output + repr(result.exception)
    return json.loads(result.stdout), result.stderr
