"""What can be the matter with a photo, in a painter's words, and the diagnostics made of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.imaging.kinds import USABLE


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Why a photo cannot be used: the rest of a sentence that its name begins, and what to do."""

    what: str
    help: str

    def diagnostic(self, name: str, span: Span) -> Diagnostic:
        """The `bad-photo` for the photo called `name`, which is named at `span`."""
        return Diagnostic(code="bad-photo", message=f"“{name}” {self.what}.", span=span, help=self.help)


_AGAIN = "Copy it from the camera or phone again, or open it in a picture program and save it anew as JPEG."

EMPTY = Trouble(what="is an empty file", help=_AGAIN)
BROKEN = Trouble(what="is broken or cut short, so it cannot be opened", help=_AGAIN)
NO_MEMORY = Trouble(
    what="needs more memory than this machine has to spare",
    help="Make it smaller, 4000 pixels wide for instance.",
)
NO_FILE = Trouble(what="is no ordinary file", help="Put the photo itself there.")


def unreadable(reason: str) -> Trouble:
    """`reason` is the operating system's own sentence."""
    return Trouble(what=f"cannot be read from the disk ({reason})", help="See that the file may be read.")


def unusable_kind(called: str) -> Trouble:
    """`called` is what the file is, '' where nobody can tell."""
    if called:
        what = f"is {called}; a photo can be {USABLE}"
    else:
        what = f"is no picture that guidegen knows; a photo can be {USABLE}"
    return Trouble(what=what, help="Save the photo as JPEG, and name that file here.")


def too_many_bytes(size: int, limit: int) -> Trouble:
    """`size` and `limit` in bytes."""
    return Trouble(
        what=f"takes up {math.ceil(size / 1e6)} MB; a photo may have up to {limit / 1e6:.0f} MB",
        help="Save it as JPEG, 4000 pixels wide for instance.",
    )


def too_many_pixels(limit: int, size: tuple[int, int] | None) -> Trouble:
    """`size` in pixels, None where the picture was refused before its size was known."""
    millions = f"{limit / 1e6:.0f} million pixels"
    if size is None:
        what = f"has far more than {millions}, the most that a photo may have"
    else:
        what = f"is {size[0]} × {size[1]} pixels large; a photo may have up to {millions}"
    return Trouble(what=what, help="Make it smaller, 4000 pixels wide for instance.")


def too_long(width: int, height: int) -> Trouble:
    """A strip whose derivatives would be longer than a WebP picture can be."""
    return Trouble(
        what=f"is {width} × {height} pixels, far too long a strip to show on a page",
        help="Crop it, or cut it into several photos.",
    )


def unusual_colours(mode: str) -> Trouble:
    """`mode` is Pillow's name for how the colours are kept."""
    return Trouble(
        what=f"keeps its colours in a way that photos seldom do ({mode})",
        help="Save it as RGB with 8 or 16 bits a channel, as JPEG or PNG for instance.",
    )


CAMERA_RAW = unusable_kind("a camera's raw file")
TOO_MANY_SCANS = Trouble(
    what="is put together from far too many layers, as no camera or picture program does", help=_AGAIN
)


def animated(name: str, span: Span) -> Diagnostic:
    """The warning for a picture that moves."""
    return Diagnostic(
        code="animated-photo",
        message=f"“{name}” moves; only its first picture is shown.",
        span=span,
        help="Name a still photo instead, or leave it as it is.",
    )


def small(name: str, width: int, limit: int, span: Span) -> Diagnostic:
    """The warning for a photo less than `limit` pixels wide."""
    return Diagnostic(
        code="small-photo",
        message=f"“{name}” is {width} pixels wide; from {limit} on a photo looks sharp on a page.",
        span=span,
        help="Use the photo as it came from the camera, if you still have it.",
    )


def names_somebody(name: str, span: Span) -> Diagnostic:
    """The advice for a photo whose file says who made it, while its author does not."""
    return Diagnostic(
        code="photo-names-somebody",
        message=f"“{name}” names its maker or owner in its file, and nothing of that is published.",
        span=span,
        help="Write down who took it, and on what terms it may be shown: {file: …, alt: …, by: …, licence: …}.",
    )
