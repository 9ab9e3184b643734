"""The guide that a command is asked about: by its address, its title, or the path of its folder or file."""

from __future__ import annotations

import os
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, NoReturn

from guidegen.base.diagnostic import has_errors
from guidegen.base.paths import slug
from guidegen.base.suggest import folded, nearest
from guidegen.commands.at_hand import known_help, leave
from guidegen.terminal.common import exit_for, show

if TYPE_CHECKING:
    from guidegen.building.check import Checked
    from guidegen.model.guide import Guide


def guide_asked(checked: Checked, asked: str, content: Path, *, sound: bool = False) -> Guide:
    """The guide; leaves with 1 where there is none or more than one, or, where it has to be `sound`, for its errors."""
    from guidegen.building.standalone import concerning

    address = _address(checked, asked)
    found = checked.archive.guide(address)
    if found is None or sound:
        concerned = concerning(checked, address)
        if found is None or has_errors(concerned):
            show(concerned, content)
            exit_for(concerned)
    if found is None:
        _leave_unknown(checked, asked)
    return found


def _address(checked: Checked, asked: str) -> str:
    """The address of the guide that is asked for; leaves with 1 where there is none, or more than one."""
    for name in (asked, slug(asked), slug(_place(asked, checked.content))):
        if name in checked.archive.addresses:
            return name
    titled = [one.slug for one in checked.archive.guides if folded(one.title) == folded(asked)]
    if len(titled) > 1:
        leave(f"{len(titled)} guides have the title “{asked}”.", f"Write one of {', '.join(titled)}.")
    if not titled:
        _leave_unknown(checked, asked)
    return titled[0]


def _place(asked: str, content: Path) -> str:
    """The name of the guide's folder or file where its path was given, from here or from content; else ''."""
    top = Path(os.path.realpath(content), "guides")
    real = Path(os.path.realpath(asked))
    parts = real.relative_to(top).parts if real.is_relative_to(top) else PurePath(asked).parts
    if parts[:1] == ("guides",):
        parts = parts[1:]
    return parts[0].removesuffix(".md") if parts else ""


def _leave_unknown(checked: Checked, asked: str) -> NoReturn:
    known = sorted(checked.archive.addresses)
    near = nearest(asked, [*known, *(guide.title for guide in checked.archive.guides)])
    none = "Make one with guidegen start guides/NAME."
    leave(f"There is no guide “{asked}”.", known_help(asked, known, none, near=near and f"“{near}”"))
