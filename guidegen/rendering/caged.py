"""Templates of an author's own may lay out pages and nothing else: they run no code and read no file from elsewhere."""

from __future__ import annotations

import io
import os
from collections.abc import Callable
from pathlib import Path, PurePath
from types import ModuleType
from typing import Any

from jinja2 import Environment, FileSystemLoader, TemplateNotFound
from jinja2.sandbox import ImmutableSandboxedEnvironment

# What a page can need of numbers counted off; loops within loops use it up together, so that none goes on for ever.
MOST_COUNTED = 1_000_000
# As long as a text can get by being repeated.
LONGEST = 1_000_000
# The same for a number raised to a power.
_HIGHEST_POWER = 100


class OwnTemplates(FileSystemLoader):
    """The author's folder, but for links that lead out of it."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.root = os.path.realpath(folder)

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        """The text of a template. Raises TemplateNotFound where none lies in the folder itself."""
        found = super().get_source(environment, template)
        if not os.path.realpath(found[1]).startswith(self.root + os.sep):
            raise TemplateNotFound(template)
        return found


class Caged(ImmutableSandboxedEnvironment):
    """An environment whose templates change nothing, reach nothing that begins with _, and count only so far."""

    intercepted_binops = frozenset({"*", "**"})
    counted = 0

    def begin(self) -> None:
        """Let the next page count from nought."""
        self.counted = 0
        self.globals["range"] = self._range

    def is_safe_callable(self, obj: Any) -> bool:
        """Whether it may be called: nothing of files, folders and modules."""
        of = getattr(obj, "__self__", None)
        return super().is_safe_callable(obj) and not isinstance(of, PurePath | io.IOBase | ModuleType | type)

    def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
        """The product or the power. Raises OverflowError where it would be of no use to a page."""
        if operator == "**":
            if abs(left) > LONGEST or abs(right) > _HIGHEST_POWER:
                raise OverflowError("the power is far too large")
        else:
            for several, times in ((left, right), (right, left)):
                if hasattr(several, "__len__") and isinstance(times, int) and len(several) * times > LONGEST:
                    raise OverflowError("the text or list would become far too long")
        return super().call_binop(context, operator, left, right)

    def _range(self, *bounds: int) -> range:
        numbers = range(*bounds)
        self.counted += len(numbers)
        if self.counted > MOST_COUNTED:
            raise OverflowError(f"it counts further than {MOST_COUNTED:,}")
        return numbers
