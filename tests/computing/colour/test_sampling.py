"""A colour from a photo: means in linear light, white cards, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from guidegen.computing.colour.sampling import Refusal, Sample, sample
from guidegen.computing.colour.spaces import (
    TO_LINEAR,
    TO_XYZ,
    WHITE,
    adaptation,
    delta_e_2000,
    encoded,
    lab_of,
    linear_of,
)

OCHRE = "#b8862f"


def flat(colour: str, width: int = 60, height: int = 40) -> np.ndarray:
    return np.tile(np.frombuffer(bytes.fromhex(colour[1:]), dtype=np.uint8), (height, width, 1))


def sampled(*args: object, **more: object) -> Sample:
    found = sample(*args, **more)  # type: ignore[arg-type]
    assert isinstance(found, Sample), found
    return found


def refused(*args: object, **more: object) -> Refusal:
    found = sample(*args, **more)  # type: ignore[arg-type]
    assert isinstance(found, Refusal), found
    return found


def test_a_flat_colour_is_itself() -> None:
    found = sampled(flat(OCHRE), (30, 20), 5)
    assert found.colour == OCHRE
    assert found.lab == pytest.approx(tuple(lab_of([OCHRE])[0]), abs=1e-9)


def test_pixels_are_those_of_a_disc() -> None:
    assert sampled(flat(OCHRE), (30, 20), 5).pixels == 81
    assert sampled(flat(OCHRE), (0, 0), 5).pixels == 26
    assert sampled(flat(OCHRE), (30.5, 20.5), 0.1).pixels == 4
    assert sampled(flat(OCHRE), (30, 20), 0).pixels == 1


def test_x_is_across_and_y_is_down() -> None:
    picture = flat("#000000")
    picture[5, 50] = (255, 255, 255)
    assert sampled(picture, (50, 5), 0).colour == "#ffffff"
    assert sampled(picture, (5, 39), 0).colour == "#000000"


def test_the_mean_is_of_light_and_not_of_levels() -> None:
    """Half black and half white reflects half the light: sRGB 188, where the mean of the levels is 128."""
    board = np.indices((40, 60)).sum(axis=0) % 2 * 255
    picture = np.repeat(board[:, :, None], 3, axis=2).astype(np.uint8)
    red, green, blue = bytes.fromhex(sampled(picture, (30, 20), 15).colour[1:])
    assert red == green == blue
    assert red == pytest.approx(188, abs=1)


def test_a_card_under_lamplight_gives_the_paint_back() -> None:
    """A tube like CIE's FL11 (CIE 15: x 0.3805, y 0.3769), half as bright: the paint comes back as in daylight."""
    lamp = np.array([0.3805 / 0.3769, 1.0, (1 - 0.3805 - 0.3769) / 0.3769]) * 0.5
    under_lamp = TO_LINEAR @ adaptation(WHITE, lamp) @ TO_XYZ

    def seen(colour: str) -> list[int]:
        return np.rint(encoded(np.clip(under_lamp @ linear_of([colour])[0], 0, 1)) * 255).astype(int).tolist()

    picture = flat("#202020")
    picture[:, :30] = seen(OCHRE)
    picture[:, 30:] = seen("#ffffff")
    assert sampled(picture, (15, 20), 5).colour != OCHRE
    found = sampled(picture, (15, 20), 5, (45, 20))
    assert float(delta_e_2000(lab_of([found.colour]), lab_of([OCHRE]))[0]) < 1.0
    assert sampled(picture, (45, 20), 5, (45, 20)).colour == "#ffffff"


def test_what_is_brighter_than_the_card_is_clipped_and_said() -> None:
    picture = flat("#f0f0f0")
    picture[:, 30:] = 200
    found = sampled(picture, (10, 20), 4, (50, 20))
    assert (found.colour, found.clipped) == ("#ffffff", True)
    assert found.lab[0] == pytest.approx(100)


@pytest.mark.parametrize("point", [(-1, 5), (60, 5), (5, 40), (59.5, 5)])
def test_a_point_outside_is_refused(point: tuple[float, float]) -> None:
    found = refused(flat(OCHRE), point, 5)
    assert "outside the picture, which is 60 × 40 pixels" in found.message
    assert "0 to 59" in found.help
    assert "white card" in refused(flat(OCHRE), (5, 5), 5, point).message


def test_a_burnt_out_card_is_refused() -> None:
    picture = flat("#80604a")
    picture[:, 30:] = (255, 250, 240)
    assert "burnt out" in refused(picture, (10, 20), 5, (45, 20)).message
    # A speck of glare on the card is no harm.
    picture[:, 30:] = (230, 225, 215)
    picture[20, 45] = 255
    assert sampled(picture, (10, 20), 10, (45, 20)).pixels > 100


def test_a_card_in_the_dark_is_refused() -> None:
    picture = flat("#302820")
    assert "too dark" in refused(picture, (10, 20), 5, (45, 20)).message
