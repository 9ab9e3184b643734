"""Colours come out as sRGB, whatever space a photo was saved in."""

from __future__ import annotations

import itertools
import warnings
from io import BytesIO

import numpy as np
import pillow_heif
import pytest
from PIL import Image, ImageCms
from support.icc_profiles import grey_profile, press_lab, press_profile, rgb_profile
from support.photos import RED, corners, flat, loaded, saved, skimage_photo

from guidegen.imaging.colour import adobe_rgb_profile, named_profile, to_srgb

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it says which of its optional parts are missing
    import colour

EXPONENT = 2.19921875  # Adobe RGB (1998) Color Image Encoding, May 2005, §4.3.4.2

# Every combination of seven levels a channel.
PATCHES = np.array(list(itertools.product((0, 20, 64, 110, 170, 220, 255), repeat=3)), np.uint8)[None]

# Each space by colour-science's name, with a profile of the tests' own and the one the code makes.
SPACES = {
    "Display P3": (rgb_profile("Display P3"), named_profile(12, 13)),
    "Adobe RGB (1998)": (rgb_profile("Adobe RGB (1998)", EXPONENT), adobe_rgb_profile()),
    "ITU-R BT.2020": (rgb_profile("ITU-R BT.2020"), named_profile(9, 1)),
}


def in_srgb(values: np.ndarray, space: str) -> tuple[np.ndarray, np.ndarray]:
    """The sRGB values from 0 to 255 by colour-science, and which of them sRGB can show.

    BT.2020 is read with the sRGB curve, as still pictures of phones are.
    """
    linear = colour.RGB_COLOURSPACES["sRGB" if space == "ITU-R BT.2020" else space].cctf_decoding(
        values / 255
    )
    matrix = colour.matrix_RGB_to_RGB(space, "sRGB", chromatic_adaptation_transform=None)
    linear = np.einsum("ij,...j->...i", matrix, linear)
    shown = ((linear > -1e-4) & (linear < 1 + 1e-4)).all(-1)
    return 255 * colour.RGB_COLOURSPACES["sRGB"].cctf_encoding(np.clip(linear, 0, 1)), shown


@pytest.mark.parametrize("space", SPACES)
@pytest.mark.parametrize("made_by", [0, 1], ids=["written here", "made by the code"])
def test_wide_spaces_convert_within_one_unit(space: str, made_by: int):
    converted = np.asarray(to_srgb(Image.fromarray(PATCHES), SPACES[space][made_by])).astype(float)
    expected, shown = in_srgb(PATCHES, space)
    assert shown.sum() > 30
    assert np.abs(converted - expected)[shown].max() <= 1
    # The rest is cut off at the edge of sRGB, and not a different hue altogether.
    assert np.abs(converted - expected).max() <= 3


def test_the_profile_of_a_space_says_its_primaries():
    # littleCMS reads them back, adapted to D50; D65 chromaticities by way of its own Bradford.
    profile = ImageCms.ImageCmsProfile(BytesIO(named_profile(12, 13) or b"")).profile
    white = np.array(colour.xy_to_XYZ([0.3127, 0.3290]))
    back = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        np.array([0.9642, 1, 0.8249]), white, "Bradford"
    )
    assert profile.red_primary is not None
    assert np.allclose(colour.XYZ_to_xy(back @ profile.red_primary[0]), (0.680, 0.320), atol=2e-4)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "TIFF", "AVIF", "HEIF"])
def test_a_profile_in_any_kind_of_file_counts(kind: str):
    orange = (230, 120, 60)
    photo = loaded(saved(flat(orange), kind, icc_profile=rgb_profile("Display P3")))
    expected, _ = in_srgb(np.array(orange), "Display P3")
    assert np.abs(np.asarray(photo.image)[20, 20] - expected).max() <= 4
    assert np.abs(expected - orange).max() > 10


def test_a_real_photo_in_adobe_rgb():
    # rocket.jpg: NASA, public domain; with an Adobe RGB profile.
    path = skimage_photo("rocket.jpg")
    with Image.open(path) as opened:
        assert "Adobe RGB" in ImageCms.getProfileDescription(BytesIO(opened.info["icc_profile"]))
        raw = np.asarray(opened)
    photo = np.asarray(loaded(path.read_bytes()).image).astype(float)
    expected, shown = in_srgb(raw, "Adobe RGB (1998)")
    assert np.abs(photo - expected)[shown].max() <= 1.5
    assert np.abs(photo - raw).max() > 20


def test_srgb_by_profile_is_left_alone():
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    photo = loaded(saved(PATCHES, "PNG", icc_profile=srgb))
    assert np.array_equal(np.asarray(photo.image), PATCHES)


def test_srgb_in_another_form_is_not_even_converted():
    # The curve as 1,024 points, as most cameras have it.
    image = Image.fromarray(PATCHES)
    assert to_srgb(image, rgb_profile("sRGB")) is image
    assert to_srgb(image, rgb_profile("Display P3")) is not image


def test_black_stays_black():
    # Black point compensation (ISO 18619): a screen whose black gives 2 % of white's light. What lies between is
    # scaled in linear light so that its black becomes ours and white stays, which undoes the screen's veil.
    grey = np.array([[[v, v, v] for v in (0, 40, 128, 200, 255)]], np.uint8)
    photo = loaded(saved(grey, "PNG", icc_profile=rgb_profile("sRGB", black=0.02)))
    assert np.abs(np.asarray(photo.image).astype(int) - grey).max() <= 2


@pytest.mark.parametrize(
    "spoilt",
    [
        b"",
        b"nothing like a profile",
        rgb_profile("Display P3")[:200],
        rgb_profile("Display P3").replace(b"rXYZ", b"none"),
        press_profile(),
        rgb_profile("Display P3").ljust(5_000_000, b"\0"),
    ],
    ids=["empty", "words", "cut", "no red", "another space", "huge"],
)
def test_a_profile_that_cannot_be_used_is_passed_over(spoilt: bytes):
    assert np.array_equal(np.asarray(to_srgb(Image.fromarray(PATCHES), spoilt)), PATCHES)


def test_cmyk_with_a_profile():
    # Corners of the press's table, so nothing is interpolated; sRGB of CIELAB D50 by colour-science.
    for inks in ((0, 0, 0, 0), (1, 0, 0, 0), (0, 1, 0, 0), (0, 0, 1, 0), (0, 1, 1, 0), (0, 0, 0, 1)):
        data = saved(flat(tuple(255 * v for v in inks), mode="CMYK"), "TIFF", icc_profile=press_profile())
        found = np.asarray(loaded(data).image)[0, 0].astype(float)
        xyz = colour.Lab_to_XYZ(press_lab(inks), colour.XYZ_to_xy([0.9642, 1, 0.8249]))
        adapt = colour.adaptation.matrix_chromatic_adaptation_VonKries(
            np.array([0.9642, 1, 0.8249]), colour.xy_to_XYZ([0.3127, 0.3290]), "Bradford"
        )
        linear = colour.RGB_COLOURSPACES["sRGB"].matrix_XYZ_to_RGB @ (adapt @ xyz)
        expected = 255 * colour.RGB_COLOURSPACES["sRGB"].cctf_encoding(np.clip(linear, 0, 1))
        shown = (linear > -0.001) & (linear < 1.001)
        assert np.abs(found - expected)[shown].max() <= 2, inks


def test_cmyk_jpeg_without_a_profile():
    # The plain complement: full magenta and yellow is red. JPEGs of Adobe's programs store inks inverted.
    photo = loaded(saved(flat((0, 255, 255, 0), mode="CMYK"), "JPEG"))
    assert np.abs(np.asarray(photo.image)[20, 20].astype(int) - (255, 0, 0)).max() <= 3


def test_grey_with_a_profile():
    photo = loaded(saved(flat(128, mode="L"), "PNG", icc_profile=grey_profile(1.0)))
    # Half the light is sRGB 188 (IEC 61966-2-1: 1.055 · 0.50196^(1/2.4) − 0.055 = 0.7370).
    assert np.abs(np.asarray(photo.image).astype(int) - 188).max() <= 1


def test_grey_with_the_profile_of_a_colour_space():
    data = saved(flat(64, mode="L"), "JPEG", icc_profile=rgb_profile("Adobe RGB (1998)", EXPONENT))
    expected, _ = in_srgb(np.array([64, 64, 64]), "Adobe RGB (1998)")
    assert np.abs(np.asarray(loaded(data).image)[0, 0] - expected).max() <= 1


def test_cameras_may_say_adobe_rgb_in_exif_alone():
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA001] = 0xFFFF  # ColorSpace: uncalibrated
    exif.get_ifd(0x8769)[0xA005] = {1: "R03", 2: b"0100"}  # the interoperability tags
    photo = loaded(saved(flat(RED), "JPEG", exif=exif.tobytes()))
    expected, _ = in_srgb(np.array(RED), "Adobe RGB (1998)")
    assert np.abs(np.asarray(photo.image)[20, 20] - expected).max() <= 3
    assert np.abs(expected - RED).max() > 10


def test_numbers_in_heic_may_say_p3():
    # ITU-T H.273: primaries 12 with the sRGB curve 13, as some phones write instead of a profile.
    orange = (230, 120, 60)
    out = BytesIO()
    file = pillow_heif.from_pillow(flat(orange))
    file.save(out, quality=95, chroma=444, color_primaries=12, transfer_characteristics=13)
    assert b"colrnclx" in out.getvalue()
    expected, _ = in_srgb(np.array(orange), "Display P3")
    assert np.abs(np.asarray(loaded(out.getvalue()).image)[20, 20] - expected).max() <= 4


@pytest.mark.parametrize(("primaries", "curve"), [(1, 13), (2, 2), (12, 16), (9, 18), (0, 0), (65535, 1)])
def test_numbers_that_mean_srgb_or_need_tone_mapping_change_nothing(primaries: int, curve: int):
    assert named_profile(primaries, curve) is None


def test_no_profile_is_srgb():
    assert np.array_equal(np.asarray(loaded(saved(corners(), "PNG")).image), corners())
