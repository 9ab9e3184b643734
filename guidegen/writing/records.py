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
        pickler = pickle.Pickler(out, protocol=5)
        pickler.dispatch_table = self._reducers()
        with uncollected():
            pickler.dump(value)
        return out.getvalue()

    def load(self, data: bytes) -> object:
        """What `dump` was given. Raises pickle.UnpicklingError, or whatever broken bytes bring about."""
        with uncollected():
            value: object = _Reader(io.BytesIO(data), self._admitted).load()
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


class _Reader(pickle.Unpickler):
    """Knows plain values, and of all else what is admitted."""

    def __init__(self, data: io.BytesIO, admitted: Mapping[tuple[str, str], object]) -> None:
        super().__init__(data)
        self._admitted = admitted

    def find_class(self, module: str, name: str) -> Any:
        """What a name in the bytes stands for."""
        if (module, name) not in self._admitted:
            raise pickle.UnpicklingError(f"{module}.{name} is no record")
        return self._admitted[module, name]
