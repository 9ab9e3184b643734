"""A page or another file of the site, with everything that it is made from."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from guidegen.rendering.theme.templates import Templates


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page of the site. `values` are plain frozen values, whose text tells two pages apart."""

    path: str
    template: str
    values: Mapping[str, object]

    def key(self, version: str) -> str:
        """The same for pages that come out the same; `version` stands for the templates and the program."""
        return digest(version, self.path, self.template, repr(self.values))

    def render(self, templates: Templates) -> bytes:
        """The page's bytes."""
        return templates.render(self.template, self.values)


@dataclass(frozen=True, slots=True, kw_only=True)
class Export:
    """A file of the site that needs no template."""

    path: str
    data: bytes

    def key(self, version: str) -> str:
        """The same for files with the same bytes."""
        return digest(version, self.path, "", self.data.decode(errors="replace"))

    def render(self, templates: Templates) -> bytes:
        """The file's bytes."""
        del templates
        return self.data


@dataclass(frozen=True, slots=True, kw_only=True)
class LazyPage:
    """A page or file that is computed only when it is wanted; `made_of` stands for all that it is made from."""

    path: str
    made_of: str
    make: Callable[[], Page | Export]

    def key(self, version: str) -> str:
        """The same for files made from the same; `version` stands for the templates and the program."""
        return digest(version, self.path, self.made_of)

    def render(self, templates: Templates) -> bytes:
        """The file's bytes."""
        return self.make().render(templates)


def digest(*parts: str) -> str:
    """Stands for all of these texts, in this order."""
    return hashlib.sha256("\0".join(parts).encode("utf-8", "surrogatepass")).hexdigest()
