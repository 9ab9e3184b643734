"""The files that lie in a content folder for editors, and the line that leads an editor to them."""

from __future__ import annotations

import json
import posixpath
from collections.abc import Iterable, Mapping

from guidegen.reading.content.discover import starter_charts
from guidegen.reading.content.guide import GUIDE
from guidegen.reading.content.paints import PALETTE
from guidegen.reading.content.plan import PLAN
from guidegen.reading.content.shared import SHARED
from guidegen.reading.content.site import SITE
from guidegen.reading.editing.schemas import schema_of

# In the content folder; what begins with a dot is passed over when content is read.
FOLDER = ".editor-help"

_RECORDS = {"site": SITE, "palette": PALETTE, "guide": GUIDE, "shared": SHARED, "plan": PLAN}


def editor_files(*, techniques: Iterable[str], hazards: Iterable[str]) -> dict[str, str]:
    """Each file by its path in the content folder. `techniques` and `hazards` are words for editors to offer."""
    words: Mapping[str, Iterable[str]] = {
        "step: technique": tuple(techniques),
        "guide: figure": starter_charts(),
        "paint: hazards": tuple(hazards),
    }
    return {
        f"{FOLDER}/{name}.json": json.dumps(
            schema_of(record, words=words), ensure_ascii=False, indent=1, sort_keys=False
        )
        + "\n"
        for name, record in _RECORDS.items()
    }


def line_for(name: str, file: str) -> str:
    """The remark at the top of a file, by its path in the content folder, that editors with help for YAML know."""
    here = posixpath.dirname(file)
    return f"# yaml-language-server: $schema={posixpath.relpath(f'{FOLDER}/{name}.json', here or '.')}\n"
