"""Refuses to take a large part of a site away, since that is seldom meant: a wrong folder, a mistake in one shared file."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from pathlib import Path

from guidegen.base.errors import RemovesManyError
from guidegen.writing.artifact import is_page

# More than so many pages, and more than one in so many, go only where it is asked for.
FEW_PAGES = 20
ONE_IN = 10

_NAMED_AT_MOST = 5


def refuse_to_remove_many(out: Path, there: Collection[str], wanted: Collection[str]) -> None:
    """Raise RemovesManyError if the files that are there have many pages that the wanted site has not."""
    pages = [path for path in there if is_page(path)]
    going = sorted(path for path in pages if path not in wanted)
    if len(going) <= FEW_PAGES or len(going) * ONE_IN <= len(pages):
        return
    folders = Counter(path.rpartition("/")[0] for path in going)
    named = [f"{folder or 'its top'} ({count})" for folder, count in list(folders.items())[:_NAMED_AT_MOST]]
    others = len(folders) - len(named)
    more = f" and {others} more folders" if others > 1 else " and one more folder" if others else ""
    raise RemovesManyError(
        f"This build would remove {len(going):,} of the {len(pages):,} pages in “{out}”: {', '.join(named)}{more}.",
        "Look whether the content is whole and the folder the right one. If they are to go, add --remove-many.",
    )
