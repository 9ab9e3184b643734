"""What is kept between builds as bytes and back: pickles that name our own records, and nothing else."""

from __future__ import annotations

import dataclasses
import importlib
import io
import pickle
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from enum import Enum
from functools import cache, cached_property, partial
from operator import attrgetter
from types import MappingProxyType
from typing import Any

from guidegen.base.garbage import uncollected
from guidegen.base.source import Span

# The bits of a line or column in a span's number: no text that is read has so many characters.
_PLACE = 24
# The bytes that say how long the list of files at the end is.
_LENGTH = 8
# Values of the standard library that records have in them; making one does nothing else.
_PLAIN = {
    "datetime": ("date", "datetime", "time", "timedelta"),
    "pathlib": ("PosixPath", "WindowsPath"),
}


def made(kind: type, *values: object) -> object:
    """A dataclass with these values in the order of its fields, as they were: nothing is checked or worked out."""
    one: object = object.__new__(kind)
    for put, value in zip(_setters(kind), values, strict=True):
        put(one, value)
    return one


def read_only(values: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    """A mapping that nobody can change."""
    return MappingProxyType(values)


class Records:
    """Turns values into bytes and back. `modules` are those whose records may be among them.

    A record is a dataclass, an enumeration or a named tuple that is defined there; besides them there are only plain
    values. All that bytes can bring about is that one of these is set up.
    """

    def __init__(self, modules: Sequence[str]) -> None:
        """Nothing is imported before it is needed."""
        self._modules = frozenset(modules)

    def dump(self, value: object) -> bytes:
        """The value as bytes. Raises TypeError or pickle.PicklingError for what cannot be taken apart."""
        out = io.BytesIO()
        pickler = _Writer(out)
        pickler.dispatch_table = self._reducers()
        with uncollected():
            pickler.dump(value)
        # Last, since only now they are all known; how long they are says where they begin.
        files = pickle.dumps([*pickler.files], protocol=5)
        out.write(files)
        out.write(len(files).to_bytes(_LENGTH, "big"))
        return out.getvalue()

    def load(self, data: bytes | memoryview) -> object:
        """What `dump` was given. Raises pickle.UnpicklingError, or whatever broken bytes bring about."""
        with uncollected():
            value: object = _Reader(data, self._admitted).load()
        return value

    @cached_property
    def _admitted(self) -> Mapping[tuple[str, str], object]:
        """All that bytes may name, by module and name."""
        plain = {
            (module, name): getattr(importlib.import_module(module), name)
            for module, names in _PLAIN.items()
            for name in names
        }
        own = {(__name__, setting_up.__name__): setting_up for setting_up in (made, read_only)}
        return plain | own | {(kind.__module__, kind.__name__): kind for kind in _kinds(self._modules)}

    def _reducers(self) -> dict[type, Callable[[Any], Any]]:
        """How dataclasses are taken apart: in half the time that their own way takes."""
        found: dict[type, Callable[[Any], Any]] = {MappingProxyType: lambda one: (read_only, (dict(one),))}
        # Of a module that nobody has imported there are no records.
        for kind in filter(dataclasses.is_dataclass, _kinds(self._modules & sys.modules.keys())):
            values = attrgetter("__class__", *(field.name for field in dataclasses.fields(kind)))
            found[kind] = partial(_reduced, values)
        return found


def _kinds(modules: Iterable[str]) -> Iterator[type]:
    for module in sorted(modules):
        for kind in vars(importlib.import_module(module)).values():
            if not isinstance(kind, type) or kind.__module__ != module:
                continue
            if dataclasses.is_dataclass(kind) or issubclass(kind, Enum | tuple):
                yield kind


def _reduced(values: Callable[[object], tuple[object, ...]], one: object) -> tuple[object, ...]:
    return made, values(one)


@cache
def _setters(kind: type) -> tuple[Callable[[object, object], None], ...]:
    """What sets each field, past the guard of a frozen record. Raises TypeError for what is no dataclass."""
    names = [field.name for field in dataclasses.fields(kind)]
    return tuple(getattr(vars(kind).get(name), "__set__", partial(_set, name)) for name in names)


def _set(name: str, one: object, value: object) -> None:
    object.__setattr__(one, name, value)


class _Writer(pickle.Pickler):
    """Writes spans, which are half of all records, as numbers: a record takes ten times the memory while it is written.

    `files` are those that spans are in.
    """

    def __init__(self, out: io.BytesIO) -> None:
        super().__init__(out, protocol=5)
        self.files: dict[str, int] = {}

    def persistent_id(self, one: object) -> int | None:
        """The number of a span, None for all else."""
        if type(one) is not Span:
            return None
        number = self.files.setdefault(one.file, len(self.files))
        for place in (one.line, one.column, one.end_line, one.end_column):
            number = number << _PLACE | place
        return number


class _Reader(pickle.Unpickler):
    """Knows plain values, spans by their numbers, and of all else what is admitted."""

    def __init__(self, data: bytes | memoryview, admitted: Mapping[tuple[str, str], object]) -> None:
        super().__init__(io.BytesIO(data))
        self._data = data
        self._admitted = admitted
        self._spans: dict[int, Span] = {}

    @cached_property
    def _files(self) -> list[str]:
        end = len(self._data) - _LENGTH
        length = int.from_bytes(self._data[end:], "big")
        files: list[str] = _Reader(self._data[end - length : end], {}).load()
        return files

    def persistent_load(self, number: int) -> Span:
        """The span of that number, the same for the same."""
        span = self._spans.get(number)
        if span is None:
            mask = (1 << _PLACE) - 1
            line, column, end_line, end_column = (number >> _PLACE * n & mask for n in (3, 2, 1, 0))
            span = Span(
                file=self._files[number >> _PLACE * 4],
                line=line,
                column=column,
                end_line=end_line,
                end_column=end_column,
            )
            self._spans[number] = span
        return span

    def find_class(self, module: str, name: str) -> Any:
        """What a name in the bytes stands for."""
        if (module, name) not in self._admitted:
            raise pickle.UnpicklingError(f"{module}.{name} is no record")
        return self._admitted[module, name]
