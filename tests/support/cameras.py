"""Measured paints under lamps, as two measured cameras see them: what a card's reading is held against.

Spectra: 84 oil paints and mixtures (Geldof et al., Heritage Science 6 (2018), doi 10.1186/s40494-018-0181-6, CC0) and a
published chart of 24 patches. Cameras: the two measured by NPL; lamps: CIE 015:2018. All but the oils come with
colour-science.
"""

from __future__ import annotations

import csv
import warnings
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from support.paths import ROOT

from guidegen.computing.colour.spaces import TO_LINEAR, WHITE, Floats, encoded

LAMPS = ("A", "D50", "D65", "FL2", "FL11", "FL12", "LED-B1", "LED-B3", "LED-B5", "LED-V1", "LED-RGB1")
SETS = ("oils", "chart")
BANDS = np.arange(400, 701, 10)

# How strongly cameras bend their curve, how bright the white paper comes out, noise in levels, pixels of a box.
TONE, EXPOSURE, NOISE, PIXELS = 0.35, 0.88, 2.0, 400

OILS = ROOT / "tests" / "reference" / "oil-mixtures-cc0-spectra.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Paints by their true linear sRGB (n, 3), and what a camera delivers of them under a lamp."""

    camera: int
    lamp: str
    paints: str
    truth: Floats
    seen: Floats  # sRGB-like values 0..1 without noise, before 8 bits
    paper: Floats  # the same of the bare paper


@lru_cache(maxsize=1)
def _outside() -> tuple[dict[str, Floats], dict[str, Floats], tuple[Floats, ...], Floats]:
    """Reflectances (n, 31) by set, lamps (31,), cameras (31, 3), the observer (31, 3), from 400 to 700 nm."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour

        def at_bands(spectra: object) -> Floats:
            return np.array([spectra[float(band)] for band in BANDS])  # type: ignore[index]

        chart = colour.SDS_COLOURCHECKERS[next(iter(colour.SDS_COLOURCHECKERS))]
        shape = colour.SpectralShape(400, 700, 10)
        patches = np.array([at_bands(one.copy().align(shape)) for one in chart.values()])
        lamps = {name: at_bands(colour.SDS_ILLUMINANTS[name].copy().align(shape)) for name in LAMPS}
        cameras = tuple(
            np.nan_to_num(at_bands(one.copy().align(shape)))
            for name, one in colour.MSDS_CAMERA_SENSITIVITIES.items()
            if "(NPL)" in name
        )
        observer = at_bands(colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape))
    with OILS.open(encoding="utf-8") as file:
        oils = np.array([[float(row[f"R{band}"]) for band in BANDS] for row in csv.DictReader(file)])
    return {"oils": oils, "chart": patches}, lamps, cameras, observer


def linear_of_spectra(reflectances: Floats) -> Floats:
    """Linear sRGB (n, 3) of reflectances (n, 31) under D65, 2° observer, unclipped."""
    _, lamps, _, observer = _outside()
    weights = observer * lamps["D65"][:, None]
    weights = weights / weights.sum(axis=0) * WHITE
    return reflectances @ weights @ TO_LINEAR.T


def reflectances(paints: str) -> Floats:
    """Reflectances (n, 31) of a set."""
    return _outside()[0][paints]


def bent(values: Floats, tone: float = TONE) -> Floats:
    """What cameras do to encoded values for contrast: a blend of straight and smoothstep."""
    inside = np.clip(values, 0.0, 1.0)
    return (1.0 - tone) * inside + tone * inside**2 * (3.0 - 2.0 * inside)


@lru_cache(maxsize=4)
def _camera_matrix(camera: int) -> Floats:
    """From balanced camera values to linear sRGB, fitted at D65 over the chart, white to white."""
    sets, lamps, cameras, _ = _outside()
    raw = sets["chart"] * lamps["D65"] @ cameras[camera] / (lamps["D65"] @ cameras[camera])
    wanted = linear_of_spectra(sets["chart"])
    matrix = np.linalg.lstsq(raw, wanted, rcond=None)[0].T
    return matrix / matrix.sum(axis=1, keepdims=True)


def photographed(
    spectra: Floats, camera: int, lamp: str, *, tone: float = TONE, paper: float = 0.88
) -> Floats:
    """sRGB-like values (n, 3) of reflectances (n, 31); white balance on a perfect white, `paper` comes out at EXPOSURE."""
    _, lamps, cameras, _ = _outside()
    light = lamps[lamp][:, None] * cameras[camera]
    raw = spectra @ light / light.sum(axis=0)
    values = np.clip(raw @ _camera_matrix(camera).T, 0.0, None)
    return bent(encoded(values * _linear(EXPOSURE, tone) / paper), tone)


def _linear(level: float, tone: float) -> float:
    """The linear light that comes out at a level."""
    from guidegen.computing.colour.spaces import decoded

    straight = np.linspace(0.0, 1.0, 4096)
    return float(decoded(np.interp(level, bent(straight, tone), straight)))


def scenes(paper: float = 0.88) -> list[Scene]:
    """Both cameras, all lamps, both sets: 44."""
    return [
        Scene(
            camera=camera,
            lamp=lamp,
            paints=paints,
            truth=linear_of_spectra(reflectances(paints)),
            seen=photographed(reflectances(paints), camera, lamp, paper=paper),
            paper=photographed(np.full((1, len(BANDS)), paper), camera, lamp, paper=paper)[0],
        )
        for camera in range(2)
        for lamp in LAMPS
        for paints in SETS
    ]


def pixels_of(seen: Floats, random: np.random.Generator, count: int = PIXELS) -> np.ndarray:
    """Pixels (n, count, 3) of 8 bits with noise for values (n, 3)."""
    noisy = seen[:, None, :] * 255.0 + random.normal(0.0, NOISE, (len(seen), count, 3))
    return np.clip(np.rint(noisy), 0, 255).astype(np.uint8)
