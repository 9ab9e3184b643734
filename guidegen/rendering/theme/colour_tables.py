"""The numbers that `scripts/colour.js` computes colours with: those of `computing.colour`, handed to the browser."""

from __future__ import annotations

import json
from functools import cache

from guidegen.computing.colour import (
    difference_bound,
    directions,
    drops,
    first_try,
    kubelka_munk,
    layers,
    recipe_colours,
    recipes,
    reflectance,
    spaces,
    stand_in,
    vision,
)


@cache
def colour_tables() -> str:
    """A script that puts them where the engine looks for them. Numbers keep every digit."""
    tables = {
        "toXyz": spaces.TO_XYZ.tolist(),
        "toLinear": spaces.TO_LINEAR.tolist(),
        "white": spaces.WHITE.tolist(),
        "words": [(limit, key) for limit, key, _ in spaces.DIFFERENCES],
        "directions": {
            "lightness": directions.LIGHTNESS,
            "warmth": directions.WARMTH,
            "chroma": directions.CHROMA,
            "warmest": directions.WARMEST,
            "grey": directions.GREY,
        },
        "curves": reflectance.TO_LINEAR.tolist(),
        "luminance": reflectance.PRINTED[1].tolist(),
        "lift": kubelka_munk.LIFT,
        "flatThickness": layers.FLAT_THICKNESS,
        "factors": layers.FACTORS,
        "overGloss": layers.OVER_GLOSS,
        "sorts": {kind.value: sort.value for kind, sort in stand_in.SORTS.items()},
        "grounds": (stand_in.WHITE, stand_in.MIDDLING),
        "greyMetal": stand_in.GREY_METAL,
        "sameHue": stand_in.SAME_HUE,
        "good": stand_in.GOOD,
        "hopeless": stand_in.HOPELESS,
        "most": stand_in.MOST,
        **_of_recipes(),
        "bound": _of_the_bound(),
        "vision": vision.MATRICES,
        "times": first_try.TIMES,
        "tolerance": drops.TOLERANCE,
        "mostDrops": drops.MOST_DROPS,
    }
    return f"window.guidegenColourTables={json.dumps(tables, separators=(',', ':'), sort_keys=True)};\n"


def _of_recipes() -> dict[str, object]:
    """How mixtures toward a colour are sought."""
    return {
        "ratios": {2: recipe_colours.OF_TWO, 3: recipe_colours.OF_THREE},
        "asGood": recipes.AS_GOOD,
        "mostInThrees": recipes.MOST_IN_THREES,
        "bestSets": recipes.BEST_SETS,
        "mostInRough": recipes.MOST_IN_ROUGH,
        "bandsAsOne": recipe_colours.BANDS_AS_ONE,
        "mostInPairs": recipes.MOST_IN_PAIRS,
        "bestPairs": recipes.BEST_PAIRS,
        "mostAtAll": recipes.MOST_AT_ALL,
        "nearest": recipes.NEAREST,
        "apart": recipes.APART,
        "seeded": recipes.SEEDED,
        "fewestSeeds": recipes.FEWEST_SEEDS,
        "rounds": recipes.ROUNDS,
        "firstPots": recipes.FIRST_POTS,
    }


def _of_the_bound() -> dict[str, float]:
    """What a colour difference never falls below, for a quick look."""
    return {
        "greatestSl": difference_bound.GREATEST_SL,
        "slSlope": difference_bound.SL_SLOPE,
        "scLeast": difference_bound.SC_LEAST,
        "scSlope": difference_bound.SC_SLOPE,
        "rotated": difference_bound.ROTATED,
    }
