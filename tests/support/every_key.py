"""The content that uses every key of every table once, and records as they look without their places."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from enum import Enum
from typing import Any

from support.paths import CASES

from guidegen.base.source import Span
from guidegen.model.names import Name

CASE = (CASES / "every-key.txt").read_text(encoding="utf-8")


def plain(value: Any) -> Any:
    """A record as dictionaries and lists, without places; a name as its text."""
    if isinstance(value, Name):
        return value.text
    if isinstance(value, Enum):
        return value.value
    if dataclasses.is_dataclass(value):
        fields = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
        return {
            name: plain(field)
            for name, field in fields.items()
            if name not in {"places", "_levels"} and not isinstance(field, Span)
        }
    if isinstance(value, Mapping):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, tuple | list):
        return [plain(one) for one in value]
    return value
