"""The hazard statements that a label carries: their codes, their official words, and where those are published.

H codes: United Nations, Globally Harmonized System of Classification and Labelling of Chemicals (GHS), Annex 3,
section 1. Their sub-codes with letters and the EUH codes: Regulation (EC) No 1272/2008 (CLP), Annex III. All were
written down from memory; tests/reference/ghs-statements.csv has what they were checked against. A full stop is added
to every statement, and what the publications leave to the label (organ, route, effect) is left out.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from guidegen.base.suggest import nearest

UN_GHS = "UN GHS, Annex 3"
EU_CLP = "Regulation (EC) No 1272/2008, Annex III"


_UN = {
    "H200": "Unstable explosive.",
    "H201": "Explosive; mass explosion hazard.",
    "H202": "Explosive; severe projection hazard.",
    "H203": "Explosive; fire, blast or projection hazard.",
    "H204": "Fire or projection hazard.",
    "H205": "May mass explode in fire.",
    "H206": "Fire, blast or projection hazard; increased risk of explosion if desensitizing agent is reduced.",
    "H207": "Fire or projection hazard; increased risk of explosion if desensitizing agent is reduced.",
    "H208": "Fire hazard; increased risk of explosion if desensitizing agent is reduced.",
    "H209": "Explosive.",
    "H210": "Very sensitive.",
    "H211": "May be sensitive.",
    "H220": "Extremely flammable gas.",
    "H221": "Flammable gas.",
    "H222": "Extremely flammable aerosol.",
    "H223": "Flammable aerosol.",
    "H224": "Extremely flammable liquid and vapour.",
    "H225": "Highly flammable liquid and vapour.",
    "H226": "Flammable liquid and vapour.",
    "H227": "Combustible liquid.",
    "H228": "Flammable solid.",
    "H229": "Pressurized container: may burst if heated.",
    "H230": "May react explosively even in the absence of air.",
    "H231": "May react explosively even in the absence of air at elevated pressure and/or temperature.",
    "H232": "May ignite spontaneously if exposed to air.",
    "H240": "Heating may cause an explosion.",
    "H241": "Heating may cause a fire or explosion.",
    "H242": "Heating may cause a fire.",
    "H250": "Catches fire spontaneously if exposed to air.",
    "H251": "Self-heating; may catch fire.",
    "H252": "Self-heating in large quantities; may catch fire.",
    "H260": "In contact with water releases flammable gases which may ignite spontaneously.",
    "H261": "In contact with water releases flammable gas.",
    "H270": "May cause or intensify fire; oxidizer.",
    "H271": "May cause fire or explosion; strong oxidizer.",
    "H272": "May intensify fire; oxidizer.",
    "H280": "Contains gas under pressure; may explode if heated.",
    "H281": "Contains refrigerated gas; may cause cryogenic burns or injury.",
    "H282": "Extremely flammable chemical under pressure: may explode if heated.",
    "H283": "Flammable chemical under pressure: may explode if heated.",
    "H284": "Chemical under pressure: may explode if heated.",
    "H290": "May be corrosive to metals.",
    "H300": "Fatal if swallowed.",
    "H301": "Toxic if swallowed.",
    "H302": "Harmful if swallowed.",
    "H303": "May be harmful if swallowed.",
    "H304": "May be fatal if swallowed and enters airways.",
    "H305": "May be harmful if swallowed and enters airways.",
    "H310": "Fatal in contact with skin.",
    "H311": "Toxic in contact with skin.",
    "H312": "Harmful in contact with skin.",
    "H313": "May be harmful in contact with skin.",
    "H314": "Causes severe skin burns and eye damage.",
    "H315": "Causes skin irritation.",
    "H316": "Causes mild skin irritation.",
    "H317": "May cause an allergic skin reaction.",
    "H318": "Causes serious eye damage.",
    "H319": "Causes serious eye irritation.",
    "H320": "Causes eye irritation.",
    "H330": "Fatal if inhaled.",
    "H331": "Toxic if inhaled.",
    "H332": "Harmful if inhaled.",
    "H333": "May be harmful if inhaled.",
    "H334": "May cause allergy or asthma symptoms or breathing difficulties if inhaled.",
    "H335": "May cause respiratory irritation.",
    "H336": "May cause drowsiness or dizziness.",
    "H340": "May cause genetic defects.",
    "H341": "Suspected of causing genetic defects.",
    "H350": "May cause cancer.",
    "H351": "Suspected of causing cancer.",
    "H360": "May damage fertility or the unborn child.",
    "H361": "Suspected of damaging fertility or the unborn child.",
    "H362": "May cause harm to breast-fed children.",
    "H370": "Causes damage to organs.",
    "H371": "May cause damage to organs.",
    "H372": "Causes damage to organs through prolonged or repeated exposure.",
    "H373": "May cause damage to organs through prolonged or repeated exposure.",
    "H300+H310": "Fatal if swallowed or in contact with skin.",
    "H300+H330": "Fatal if swallowed or if inhaled.",
    "H310+H330": "Fatal in contact with skin or if inhaled.",
    "H300+H310+H330": "Fatal if swallowed, in contact with skin or if inhaled.",
    "H301+H311": "Toxic if swallowed or in contact with skin.",
    "H301+H331": "Toxic if swallowed or if inhaled.",
    "H311+H331": "Toxic in contact with skin or if inhaled.",
    "H301+H311+H331": "Toxic if swallowed, in contact with skin or if inhaled.",
    "H302+H312": "Harmful if swallowed or in contact with skin.",
    "H302+H332": "Harmful if swallowed or if inhaled.",
    "H312+H332": "Harmful in contact with skin or if inhaled.",
    "H302+H312+H332": "Harmful if swallowed, in contact with skin or if inhaled.",
    "H303+H313": "May be harmful if swallowed or in contact with skin.",
    "H303+H333": "May be harmful if swallowed or if inhaled.",
    "H313+H333": "May be harmful in contact with skin or if inhaled.",
    "H303+H313+H333": "May be harmful if swallowed, in contact with skin or if inhaled.",
    "H315+H320": "Causes skin and eye irritation.",
    "H400": "Very toxic to aquatic life.",
    "H401": "Toxic to aquatic life.",
    "H402": "Harmful to aquatic life.",
    "H410": "Very toxic to aquatic life with long lasting effects.",
    "H411": "Toxic to aquatic life with long lasting effects.",
    "H412": "Harmful to aquatic life with long lasting effects.",
    "H413": "May cause long lasting harmful effects to aquatic life.",
    "H420": "Harms public health and the environment by destroying ozone in the upper atmosphere.",
    "H421": "Harms public health and the environment by contributing to global warming.",
}

_EU = {
    "H350i": "May cause cancer by inhalation.",
    "H360F": "May damage fertility.",
    "H360D": "May damage the unborn child.",
    "H360FD": "May damage fertility. May damage the unborn child.",
    "H360Fd": "May damage fertility. Suspected of damaging the unborn child.",
    "H360Df": "May damage the unborn child. Suspected of damaging fertility.",
    "H361f": "Suspected of damaging fertility.",
    "H361d": "Suspected of damaging the unborn child.",
    "H361fd": "Suspected of damaging fertility. Suspected of damaging the unborn child.",
    "EUH001": "Explosive when dry.",  # no longer given, may stand on an old label; so with 006 and 059
    "EUH006": "Explosive with or without contact with air.",
    "EUH014": "Reacts violently with water.",
    "EUH018": "In use may form flammable/explosive vapour-air mixture.",
    "EUH019": "May form explosive peroxides.",
    "EUH029": "Contact with water liberates toxic gas.",
    "EUH031": "Contact with acids liberates toxic gas.",
    "EUH032": "Contact with acids liberates very toxic gas.",
    "EUH044": "Risk of explosion if heated under confinement.",
    "EUH059": "Hazardous to the ozone layer.",
    "EUH066": "Repeated exposure may cause skin dryness or cracking.",
    "EUH070": "Toxic by eye contact.",
    "EUH071": "Corrosive to the respiratory tract.",
    "EUH201": "Contains lead. Should not be used on surfaces liable to be chewed or sucked by children.",
    "EUH201A": "Warning! Contains lead.",
    "EUH202": "Cyanoacrylate. Danger. Bonds skin and eyes in seconds. Keep out of the reach of children.",
    "EUH203": "Contains chromium (VI). May produce an allergic reaction.",
    "EUH204": "Contains isocyanates. May produce an allergic reaction.",
    "EUH205": "Contains epoxy constituents. May produce an allergic reaction.",
    "EUH206": "Warning! Do not use together with other products. May release dangerous gases (chlorine).",
    "EUH207": "Warning! Contains cadmium. Dangerous fumes are formed during use. See information supplied by the "
    "manufacturer. Comply with the safety instructions.",
    "EUH208": "Contains a sensitising substance, named on the label. May produce an allergic reaction.",
    "EUH209": "Can become highly flammable in use.",
    "EUH209A": "Can become flammable in use.",
    "EUH210": "Safety data sheet available on request.",
    "EUH211": "Warning! Hazardous respirable droplets may be formed when sprayed. Do not breathe spray or mist.",
    "EUH212": "Warning! Hazardous respirable dust may be formed when used. Do not breathe dust.",
    "EUH380": "May cause endocrine disruption in humans.",
    "EUH381": "Suspected of causing endocrine disruption in humans.",
    "EUH401": "To avoid risks to human health and the environment, comply with the instructions for use.",
    "EUH430": "May cause endocrine disruption in the environment.",
    "EUH431": "Suspected of causing endocrine disruption in the environment.",
    "EUH440": "Accumulates in the environment and living organisms including in humans.",
    "EUH441": "Strongly accumulates in the environment and living organisms including in humans.",
    "EUH450": "Can cause long-lasting and diffuse contamination of water resources.",
    "EUH451": "Can cause very long-lasting and diffuse contamination of water resources.",
}

HAZARDS: dict[str, str] = _UN | _EU

# EUH208 is the one statement that an author completes: with the name of the substance.
NAMES_SUBSTANCE = "EUH208"


@dataclass(frozen=True, slots=True)
class Statement:
    """One code of a label, its official words, and where they are published."""

    code: str
    text: str
    source: str


_ONE = r"(?:EUH|H)\s?\d{3}[A-Za-z]{0,2}(?![A-Za-z0-9])"
_JOIN = r"(?:\s*[+,;/&]\s*|\s+)"
_ENTRY = re.compile(rf"\s*({_ONE}(?:{_JOIN}{_ONE})*)\s*[:,;–—-]?\s*(.*)", re.IGNORECASE | re.DOTALL)
_ANY = re.compile(rf"\b{_ONE}", re.IGNORECASE)

# A code's letters as tables spell them; where two differ in case alone (H360FD, H360Fd) only the exact one will do.
_BY_UPPER: dict[str, list[str]] = {}
for _code in HAZARDS:
    _BY_UPPER.setdefault(_code.upper(), []).append(_code)


def read_entry(text: str) -> tuple[Statement, ...]:
    """What an entry says, empty where a code in it is unknown.

    A code may be in lower case or spaced (`euh 208`) and followed by its words; after EUH208 they name the substance.
    Several codes in one entry are the published combination of them, else one statement each. A code among the words
    makes the entry unknown, since it would be lost.
    """
    entry = _ENTRY.fullmatch(text)
    if entry is None or _ANY.search(entry[2]):
        return ()
    found = [_spelled(code) for code in _ANY.findall(entry[1])]
    codes = sorted({code for code in found if code})
    if None in found:
        return ()
    joined = "+".join(codes)
    if joined == NAMES_SUBSTANCE and (substance := _substance(entry[2])):
        return (Statement(joined, f"Contains {substance}. May produce an allergic reaction.", EU_CLP),)
    return tuple(_published(code) for code in ([joined] if joined in HAZARDS else codes))


def known(text: str) -> bool:
    """Whether a label carries this code; precautionary (P) codes are advice, no hazards."""
    return bool(read_entry(text))


def statement(text: str) -> str | None:
    """The official words for an entry such as `H222` or `EUH208 2-octyl-2H-isothiazol-3-one`."""
    return " ".join(found.text for found in read_entry(text)) or None


def _published(code: str) -> Statement:
    return Statement(code, HAZARDS[code], EU_CLP if code in _EU else UN_GHS)


def nearest_code(text: str) -> str | None:
    """The code that an unknown entry is a slip of the pen away from; nothing for a P code."""
    word = text.strip().split(":")[0].split()
    if not word or not word[0].upper().startswith(("H", "E")):
        return None
    return nearest(word[0], HAZARDS)


def _spelled(code: str) -> str | None:
    bare = "".join(code.split())
    letters = bare.upper().index("H") + 4
    exact = bare[:letters].upper() + bare[letters:]
    if exact in HAZARDS:
        return exact
    folded = _BY_UPPER.get(bare.upper(), [])
    return folded[0] if len(folded) == 1 else None


def _substance(words: str) -> str:
    name = re.sub(r"^contains\s+", "", " ".join(words.split()), flags=re.IGNORECASE)
    name = re.sub(r"\.?\s*may produce an allergic reaction\.?$", "", name, flags=re.IGNORECASE)
    return name.strip(" .")
