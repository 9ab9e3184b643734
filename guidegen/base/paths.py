"""Names that are safe on every machine and in every address, and how a file's path is shown to its author."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Callable, Collection, Iterable, Iterator
from pathlib import PurePath

LONGEST_SLUG = 80
# The smallest bound in use on one name, in bytes: an encrypted home folder's (from memory). ext4 and NTFS allow 255.
LONGEST_NAME = 143
# Windows stops at 260 characters for the whole path unless told otherwise (Microsoft, "Maximum Path Length
# Limitation"); this leaves 60 for the folder that the site lies in.
LONGEST_PATH = 200

# Nearly every path, told at one look: a site may have fifty thousand.
_PLAIN = re.compile(
    r"(?:(?!(?:con|prn|aux|nul|com\d|lpt\d|desktop\.ini|thumbs\.db)(?:[./]|$))"
    rf"[a-z0-9](?:[a-z0-9_-]|\.(?=[a-z0-9])){{0,{LONGEST_NAME - 1}}}(?:/(?=.)|$))+"
)
# Microsoft, "Naming Files, Paths, and Namespaces": these are devices, with any ending and in any folder.
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul", "conin$", "conout$"]
    + [f"{port}{digit}" for port in ("com", "lpt") for digit in "0123456789¹²³"]
)
# The same page: characters that no name on Windows may have; those below 32 are seen to apart.
_FORBIDDEN = frozenset('<>:"\\|?*')

# In a site's folder, but nobody's page: a version control system's own, kept and never touched.
LEFT_ALONE_AT_TOP = frozenset({".git", ".gitignore"})
# Left behind by file managers when somebody looks at a folder (common practice, no source).
LITTER = frozenset({".ds_store", "thumbs.db", "desktop.ini", ".directory"})
# Our own files in a site that are no part of it: the manifest, what is being written, a lock.
OWN_PREFIX = ".guidegen-"

# Letters of the Latin script that Unicode does not take apart; the rest falls apart under NFKD.
_LETTERS = str.maketrans(
    {
        "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "ł": "l", "ħ": "h", "ı": "i",
        "ŋ": "n", "ŧ": "t",
    }
)  # fmt: skip
# Controls, line and paragraph separators, lone surrogates.
_CONTROLS = frozenset({"Cc", "Zl", "Zp", "Cs"})
_TURNS = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_ASCII_WORDS = re.compile("[a-z0-9]+")
_APOSTROPHES = frozenset("'’‘ʼ`´")


def slug(text: str, *, avoid: Collection[str] = ()) -> str:
    """A name for an address: lower-case ASCII letters, digits and single hyphens, 1 to 80 characters.

    Case, accents and normal form make no difference. What has no ASCII letters, is cut short, is a device
    on Windows or stands in `avoid` gets a short hash of the text, so that it stays apart from its neighbours.
    """
    if text.isascii():  # nearly every name, and the same there
        plain = text.lower()
        words = _ASCII_WORDS.findall(plain.replace("'", "").replace("`", ""))
        return _apart("-".join(words), plain, lost=False, avoid=avoid)
    plain = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    words, lost = [""], False
    for character in plain.translate(_LETTERS):
        if character.isascii() and character.isalnum():
            words[-1] += character
        elif unicodedata.combining(character) or character in _APOSTROPHES:
            continue
        else:
            lost = lost or character.isalnum()
            words.append("")
    return _apart("-".join(word for word in words if word), plain, lost=lost, avoid=avoid)


def _apart(name: str, plain: str, *, lost: bool, avoid: Collection[str]) -> str:
    if lost or not name or len(name) > LONGEST_SLUG or name in _DEVICES or name in avoid:
        mark = hashlib.sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()[:8]
        name = f"{name[: LONGEST_SLUG - 9].rstrip('-')}-{mark}".lstrip("-")
    return name


def asset_name(stem: str, digest: str, ending: str) -> str:
    """A file name that changes with the content: `coats-3f2a90c1d4.webp`. `ending` comes with its dot."""
    return f"{slug(stem)[:60].rstrip('-')}-{digest[:10]}{ending}"


def why_unsafe(path: str) -> str | None:
    """Why a file may not lie at this path of a site, as what follows its name in a sentence; None if it may.

    `path` is relative, with forward slashes.
    """
    if len(path) <= LONGEST_PATH and _PLAIN.fullmatch(path):
        return None
    if not path or path.startswith("/"):
        return "is no path inside the site"
    if len(path) > LONGEST_PATH:
        return f"has a path longer than {LONGEST_PATH} characters, which not every machine can hold"
    parts = path.split("/")
    if parts[0].casefold() in LEFT_ALONE_AT_TOP or parts[0].casefold().startswith(OWN_PREFIX):
        return "has a name that guidegen leaves alone in a site"
    return next((reason for part in parts if (reason := _why_unsafe_part(part))), None)


def _why_unsafe_part(name: str) -> str | None:
    if name in {"", ".", ".."}:
        return "is no path inside the site"
    try:
        size = len(name.encode())
    except UnicodeEncodeError:
        return "has a name that is not written in Unicode"
    if size > LONGEST_NAME:
        return f"has a name longer than {LONGEST_NAME} bytes, which not every machine can hold"
    odd = next((c for c in name if c in _FORBIDDEN or is_unsafe_to_show(c)), None)
    if odd is not None:
        shown = f"“{odd}”" if odd.isprintable() else f"U+{ord(odd):04X}"
        return f"has {shown} in its name, which not every machine allows"
    if name[-1] in ". ":
        return "has a name that ends in a dot or a space, which Windows drops"
    if name.split(".", 1)[0].rstrip(" ").casefold() in _DEVICES:
        return "has a name that Windows keeps for a device"
    if is_litter(name):
        return "is a file manager's own file"
    return None


def is_litter(name: str) -> bool:
    """Whether a file manager left this file behind: it is neither a part of a site nor in its way."""
    return name.casefold() in LITTER or name.startswith("._")


def is_unsafe_to_show(character: str) -> bool:
    """Whether a character moves, hides or reorders the text around it: controls, line ends, turns of direction.

    The turns are those of Unicode Standard Annex 9, section 2, and the two marks with them.
    """
    return is_control(character) or character in _TURNS


def is_control(character: str) -> bool:
    """Whether a character is a control, a line end, or a byte that is no text."""
    return unicodedata.category(character) in _CONTROLS


def folded_path(path: str) -> str:
    """The form under which two paths are one file on machines that ignore case or normal form."""
    return path.lower() if path.isascii() else unicodedata.normalize("NFC", path).casefold()


def clashes(paths: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Pairs of paths that cannot both be files: twins but for case or normal form, or one a folder of the other.

    The same path twice is a pair too. Sorted by the second of the pair.
    """
    files: dict[str, str] = {}
    found: list[tuple[str, str]] = []
    for path in sorted(paths):
        folded = folded_path(path)
        if folded in files:
            found.append((files[folded], path))
        else:
            files[folded] = path
    around: dict[str, str] = {}
    for folded, path in files.items():
        parent = folded.rpartition("/")[0]
        if parent not in around:
            around[parent] = next((above for above in _outwards(parent) if above in files), "")
        if around[parent]:
            found.append((files[around[parent]], path))
    return tuple(sorted(found, key=lambda pair: (pair[1], pair[0])))


def _outwards(folder: str) -> Iterator[str]:
    while folder:
        yield folder
        folder = folder.rpartition("/")[0]


def shown_from(content: PurePath, here: PurePath) -> Callable[[str], str]:
    """How a file of the content folder is named to its author: from the current folder where it lies inside it.

    Both folders are absolute. The function takes a path relative to the content folder, with forward slashes,
    and returns one relative to `here` if the file lies in it, else the path it was given.
    """
    try:
        before = content.relative_to(here).as_posix()
    except ValueError:
        inside = _inside(here, content)
        return lambda file: (
            file.removeprefix(f"{inside}/") if inside and file.startswith(f"{inside}/") else file
        )
    return lambda file: file if before == "." else f"{before}/{file}"


def _inside(here: PurePath, content: PurePath) -> str:
    try:
        return here.relative_to(content).as_posix()
    except ValueError:
        return ""
