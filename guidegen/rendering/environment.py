"""The templates: found file by file, the author's own before ours, and what they may call."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guidegen.base.suggest import folded
from guidegen.computing.mixing import MIX_ERROR
from guidegen.rendering.chips import band, daub, read_shapes, relief, shapes_for, spread, swatch
from guidegen.rendering.language import Language
from guidegen.rendering.template_files import lies_within

if TYPE_CHECKING:
    from jinja2 import Environment, FileSystemLoader

_PACKAGE = Path(__file__).resolve().parent.parent

# Where the shapes of a page's chips go once it is known which it uses.
_SHAPES_HERE = "<!--shapes-->"


def own_templates() -> Path:
    """Our templates: inside the package once installed, beside it in a checkout."""
    installed = _PACKAGE / "_templates"
    return installed if installed.is_dir() else _PACKAGE.parent / "templates"


@dataclass(frozen=True)
class Templates:
    """Templates in one language. `authors` is the author's own folder, None for none."""

    language: Language
    authors: Path | None = None

    def render(self, name: str, values: Mapping[str, object]) -> bytes:
        """A page as UTF-8. Raises jinja2.TemplateError where a template cannot be used."""
        if self.authors is not None:
            self._environment.begin()  # type: ignore[attr-defined]
        html = self._environment.get_template(name).render(values)
        return html.replace(_SHAPES_HERE, shapes_for(html, self._shapes), 1).encode()

    def load(self, name: str) -> None:
        """Read a template without rendering it. Raises jinja2.TemplateError where it is none."""
        self._environment.get_template(name)

    def source(self, name: str) -> str:
        """The text of a template, style or script, the author's own if there is one."""
        loader = self._environment.loader
        if loader is None:
            raise LookupError(name)
        return loader.get_source(self._environment, name)[0]

    def is_ours(self, name: str) -> bool:
        """Whether the author has put nothing in the place of a template, style or script."""
        return self.authors is None or not lies_within(self.authors / name, self.authors)

    def of_authors(self) -> tuple[str, ...]:
        """The author's own pages and parts of them, by name."""
        names = self._environment.list_templates(extensions=["html"])
        return tuple(name for name in names if not self.is_ours(name))

    def digest(self) -> str:
        """Stands for every template, style and script that pages can be made with."""
        digest = hashlib.sha256()
        for folder in filter(None, (own_templates(), self.authors)):
            for file in sorted(folder.rglob("*")):
                if lies_within(file, folder):
                    name = file.relative_to(folder).as_posix()
                    digest.update(name.encode("utf-8", "surrogatepass") + b"\0" + file.read_bytes() + b"\0")
        return digest.hexdigest()[:16]

    @staticmethod
    def _caged(authors: Path, ours: FileSystemLoader, usual: Mapping[str, Any]) -> Environment:
        from jinja2 import ChoiceLoader

        from guidegen.rendering.caged import Caged, OwnTemplates

        return Caged(loader=ChoiceLoader([OwnTemplates(authors), ours]), **usual)

    @cached_property
    def _shapes(self) -> dict[str, str]:
        return read_shapes(self.source("parts/chips.svg"))

    @cached_property
    def _environment(self) -> Environment:
        from jinja2 import Environment, FileSystemLoader, StrictUndefined

        usual: dict[str, Any] = {
            "autoescape": True,
            "undefined": StrictUndefined,
            "trim_blocks": True,
            "lstrip_blocks": True,
            "auto_reload": False,
        }
        ours = FileSystemLoader(own_templates())
        environment = (
            Environment(loader=ours, **usual)  # noqa: S701  it escapes, as said above
            if self.authors is None
            else self._caged(self.authors, ours, usual)
        )
        environment.globals.update(t=self.language.t, swatch=swatch, band=band, daub=daub, relief=relief)
        environment.globals["mix_error"] = MIX_ERROR
        environment.globals["spread"] = spread
        environment.filters["fold"] = folded
        return environment
