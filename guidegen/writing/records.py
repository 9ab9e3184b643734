"""Our own records as bytes and back, and nothing but them: bytes that somebody else wrote can run nothing."""

from __future__ import annotations

import dataclasses
import importlib
import io
import pickle
from collections.abc import Callable, Sequence
from enum import Enum
from functools import lru_cache, partial
from operator import attrgetter
from types import MappingProxyType
from typing import Any

from guidegen.base.garbage import uncollected

# Values of the standard library that records have in them; making one does nothing else.
_PLAIN = frozenset(
    {
        ("datetime", "date"),
        ("datetime", "datetime"),
        ("datetime", "time"),
        ("datetime", "timedelta"),
        ("pathlib", "PosixPath"),
        ("pathlib", "WindowsPath"),
    }
)


class Records:
    """Turns values into bytes and back. `modules` are those whose records may be among them.

    A record is a dataclass, an enumeration or a named tuple that is defined there; besides them there are only plain
    values. All that bytes can bring about is that one of these is set up.
    """

    def __init__(self, modules: Sequence[str]) -> None:
        """Nothing is imported before it is needed."""
        self._modules = tuple(modules)

    def dump(self, value: object) -> bytes:
        """The value as bytes. Raises TypeError or pickle.PicklingError for what is no record."""
        out = io.BytesIO()
        pickler = pickle.Pickler(out, protocol=5)
        pickler.dispatch_table = _reducers(self._modules)  # type: ignore[assignment]  # a reducer's value is a tuple
        with uncollected():
            pickler.dump(value)
        return out.getvalue()

    def load(self, data: bytes) -> object:
        """What `dump` was given. Raises pickle.UnpicklingError, or whatever broken bytes bring about."""
        with uncollected():
            value: object = _Reader(io.BytesIO(data), self._modules).load()
        return value


class _Reader(pickle.Unpickler):
    """Knows plain values, records, and the functions that set them up."""

    def __init__(self, data: io.BytesIO, modules: tuple[str, ...]) -> None:
        super().__init__(data)
        self._modules = modules

    def find_class(self, module: str, name: str) -> Any:
        """What a name in the bytes stands for."""
        if (module, name) in _PLAIN:
            return super().find_class(module, name)
        if module == __name__ and name in _SETTING_UP:
            return _SETTING_UP[name]
        if module in self._modules:
            found = vars(importlib.import_module(module)).get(name)
            if _is_record(found, module):
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is no record")


def _is_record(found: object, module: str) -> bool:
    if not isinstance(found, type) or found.__module__ != module:
        return False
    return dataclasses.is_dataclass(found) or issubclass(found, Enum | tuple)


_Reducer = Callable[[Any], tuple[object, ...]]


@lru_cache(maxsize=4)
def _reducers(modules: tuple[str, ...]) -> dict[type, _Reducer]:
    """How each kind of record is taken apart: quicker than by the methods that a dataclass has for it."""
    found: dict[type, _Reducer] = {MappingProxyType: _read_only_reduced}
    for module in modules:
        for kind in vars(importlib.import_module(module)).values():
            if not isinstance(kind, type) or not _is_record(kind, module):
                continue
            if dataclasses.is_dataclass(kind):
                found[kind] = partial(_reduced, kind, _fields_of(kind))
            elif issubclass(kind, Enum):
                found[kind] = _member_reduced
    return found


def _fields_of(kind: type) -> Callable[[Any], tuple[object, ...]]:
    names = [field.name for field in dataclasses.fields(kind)]
    if len(names) > 1:
        return attrgetter(*names)
    return partial(_values, names)


def _values(names: list[str], one: object) -> tuple[object, ...]:
    return tuple(getattr(one, name) for name in names)


def _reduced(kind: type, fields: Callable[[Any], tuple[object, ...]], one: object) -> tuple[object, ...]:
    return made, (kind, *fields(one))


def _member_reduced(one: Enum) -> tuple[object, ...]:
    return member, (type(one), one.name)


def _read_only_reduced(values: MappingProxyType[Any, Any]) -> tuple[object, ...]:
    return read_only, (dict(values),)


def made(kind: type, *values: object) -> object:
    """A dataclass with these values in the order of its fields, as they were: nothing is checked or worked out."""
    one: object = object.__new__(kind)
    for put, value in zip(_setters(kind), values, strict=True):
        put(one, value)
    return one


@lru_cache(maxsize=512)
def _setters(kind: type) -> tuple[Callable[[object, object], None], ...]:
    """What sets each field, past the guard of a frozen record. Raises TypeError for what is no dataclass."""
    names = [field.name for field in dataclasses.fields(kind)]
    return tuple(getattr(vars(kind).get(name), "__set__", partial(_set, name)) for name in names)


def _set(name: str, one: object, value: object) -> None:
    object.__setattr__(one, name, value)


def member(kind: type[Enum], name: str) -> Enum:
    """One of an enumeration, by its name."""
    return kind[name]


def read_only(values: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    """A mapping that nobody can change."""
    return MappingProxyType(values)


_SETTING_UP: dict[str, Callable[..., object]] = {"made": made, "member": member, "read_only": read_only}
