"""Templates of an author's own may lay out pages and nothing else: they run no code and read no file from elsewhere."""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterable, Iterator
from functools import wraps
from pathlib import Path, PurePath
from types import ModuleType
from typing import Any

from jinja2 import Environment, FileSystemLoader, TemplateNotFound, nodes
from jinja2.loaders import split_template_path
from jinja2.sandbox import ImmutableSandboxedEnvironment

from guidegen.rendering.template_files import lies_within

# What a page can need of numbers counted off; loops within loops use it up together, so that none goes on for ever.
MOST_COUNTED = 1_000_000
# As long as a text can get by being repeated.
LONGEST = 1_000_000
# The same for a number raised to a power.
_HIGHEST_POWER = 100
# What texts that are put together can come to if each sign of the one is replaced by all of the other.
_LONGEST_TOGETHER = 1_000_000_000

# The filter that counts, by a name that no template can write.
_COUNTED = "each one"


class OwnTemplates(FileSystemLoader):
    """The author's folder, but for links that lead out of it."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.root = os.path.realpath(folder)

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        """The text of a template. Raises TemplateNotFound where none lies in the folder itself."""
        for folder in self.searchpath:
            file = Path(folder, *split_template_path(template))
            if file.exists() and not lies_within(file, Path(self.root)):
                raise TemplateNotFound(template)
        return super().get_source(environment, template)


class Caged(ImmutableSandboxedEnvironment):
    """An environment whose templates change nothing, reach nothing that begins with _, and count only so far."""

    intercepted_binops = frozenset({"*", "**"})
    counted = 0

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self.filters = {name: _bounded(filter_) for name, filter_ in self.filters.items()}
        self.filters[_COUNTED] = self._each

    def begin(self) -> None:
        """Let the next page count from nought."""
        self.counted = 0
        self.globals["range"] = self._range

    def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
        """As it stands, but that every loop counts what it goes through."""
        tree = super()._parse(source, name, filename)
        for loop in tree.find_all(nodes.For):
            loop.iter = nodes.Filter(loop.iter, _COUNTED, [], [], None, None, lineno=loop.iter.lineno)
        return tree

    def call(self, context: Any, function: Any, *args: Any, **named: Any) -> Any:
        """The result of a call. Raises OverflowError for numbers that would make texts of gigabytes."""
        _look_at((*args, *named.values()))
        return super().call(context, function, *args, **named)

    def _each(self, several: Iterable[Any]) -> Iterator[Any]:
        for one in several:
            self._count(1)
            yield one

    def _count(self, several: int) -> None:
        self.counted += several
        if self.counted > MOST_COUNTED:
            raise OverflowError(f"it counts further than {MOST_COUNTED:,}")

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
        self._count(len(numbers))
        return numbers


def _bounded(filter_: Callable[..., Any]) -> Callable[..., Any]:
    """The filter, but for numbers that would make texts of gigabytes: widths, indents, and what takes a text's place."""

    @wraps(filter_)
    def bounded(*args: Any, **named: Any) -> Any:
        _look_at((*args, *named.values()))
        return filter_(*args, **named)

    return bounded


def _look_at(values: tuple[Any, ...]) -> None:
    length = 1
    for value in values:
        if isinstance(value, int) and abs(value) > LONGEST:
            raise OverflowError("the text would become far too long")
        if isinstance(value, str):
            length *= max(1, len(value))
    if length > _LONGEST_TOGETHER:
        raise OverflowError("the text would become far too long")
