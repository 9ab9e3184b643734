"""The hazard statements that a label carries: their codes, and how authors write them.

H codes: United Nations, Globally Harmonized System of Classification and Labelling of Chemicals (GHS), Annex 3,
section 1. Their sub-codes with letters and the EUH codes: Regulation (EC) No 1272/2008 (CLP), Annex III. What each says
stands in the tables of the languages.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from guidegen.base.suggest import nearest

# Of the United Nations and taken over into CLP.
_UN = """
    H200 H201 H202 H203 H204 H205 H206 H207 H208 H220 H221 H222 H223 H224 H225 H226 H228 H229 H230 H231 H232
    H240 H241 H242 H250 H251 H252 H260 H261 H270 H271 H272 H280 H281 H290 H300 H301 H302 H304 H310 H311 H312
    H314 H315 H317 H318 H319 H330 H331 H332 H334 H335 H336 H340 H341 H350 H351 H360 H361 H362 H370 H371 H372
    H373 H300+H310 H300+H330 H310+H330 H300+H310+H330 H301+H311 H301+H331 H311+H331 H301+H311+H331 H302+H312
    H302+H332 H312+H332 H302+H312+H332 H400 H410 H411 H412 H413 H420
"""

# Of the United Nations alone; CLP leaves these out.
_UN_ONLY = """
    H209 H210 H211 H227 H282 H283 H284 H303 H305 H313 H316 H320 H333 H303+H313 H303+H313+H333 H303+H333
    H313+H333 H315+H320 H401 H402 H421
"""

# Of CLP alone. EUH001, EUH006 and EUH059 are no longer given, but may stand on an old label.
_EU = """
    H350i H360F H360D H360FD H360Fd H360Df H361f H361d H361fd EUH001 EUH006 EUH014 EUH018 EUH019 EUH029
    EUH031 EUH032 EUH044 EUH059 EUH066 EUH070 EUH071 EUH201 EUH201A EUH202 EUH203 EUH204 EUH205 EUH206
    EUH207 EUH208 EUH209 EUH209A EUH210 EUH211 EUH212 EUH380 EUH381 EUH401 EUH430 EUH431 EUH440 EUH441
    EUH450 EUH451
"""

# Every code, with who publishes it: `un`, `un-only` or `eu`.
HAZARDS: dict[str, str] = {
    code: origin
    for origin, codes in (("un", _UN), ("un-only", _UN_ONLY), ("eu", _EU))
    for code in codes.split()
}

# EUH208 is the one statement that an author completes: with the name of the substance.
NAMES_SUBSTANCE = "EUH208"


@dataclass(frozen=True, slots=True)
class Statement:
    """One code of a label; `substance` is what an author says it contains, '' for most codes."""

    code: str
    substance: str = ""


_ONE = r"(?:EUH|H)\s?\d{3}[A-Za-z]{0,2}(?![A-Za-z0-9])"
_JOIN = r"(?:\s*[+,;/&]\s*|\s+)"
_ENTRY = re.compile(rf"\s*({_ONE}(?:{_JOIN}{_ONE})*)\s*[:,;–—-]?\s*(.*)", re.IGNORECASE | re.DOTALL)
# How EUH208 ends in the languages of the interface: authors copy whole labels.
_EUH208 = "may produce an allergic reaction|kann allergische reaktionen hervorrufen"
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
        return (Statement(joined, substance),)
    return tuple(Statement(code) for code in ([joined] if joined in HAZARDS else codes))


def known(text: str) -> bool:
    """Whether a label carries this code; precautionary (P) codes are advice, no hazards."""
    return bool(read_entry(text))


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
    name = re.sub(r"^(?:contains|enthält)\s+", "", " ".join(words.split()), flags=re.IGNORECASE)
    name = re.sub(rf"\.?\s*(?:{_EUH208})\.?$", "", name, flags=re.IGNORECASE)
    return name.strip(" .")
