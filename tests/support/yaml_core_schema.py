"""YAML as an editor reads it: by the core schema of YAML 1.2 (yaml.org/spec/1.2.2, section 10.3.2)."""

from __future__ import annotations

import re
from typing import Any

import yaml


class _Core(yaml.SafeLoader):
    """Numbers, yes and no, and nothing, as the core schema has them, and no dates."""


_Core.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("null", r"null|Null|NULL|~|", "nN~"),
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", "-+0123456789"),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    _Core.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(f"^(?:{_pattern})$"), [*_first, ""])


def _number(loader: _Core, node: yaml.ScalarNode) -> int | float:
    text = str(loader.construct_scalar(node))
    return int(text) if re.fullmatch(r"[-+]?[0-9]+", text) else float(text)


_Core.add_constructor("tag:yaml.org,2002:int", _number)
_Core.add_constructor("tag:yaml.org,2002:float", _number)


def as_an_editor_reads(text: str) -> Any:
    """The values of a file, of a guide's front matter."""
    if text.startswith("---\n"):
        text = text.split("\n---", 1)[0]
    return yaml.load(text, _Core)
