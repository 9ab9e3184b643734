"""The templates: found file by file, the author's own before ours, and what they may call."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guidegen.base.own_files import own_templates
from guidegen.base.suggest import folded
from guidegen.computing.colour.mixing import MIX_ERROR
from guidegen.rendering.theme.chips import (
    band,
    daub,
    pot,
    read_shapes,
    relief,
    ring,
    shapes_for,
    spread,
    swatch,
)
from guidegen.rendering.theme.template_files import FOLDER, lies_within
from guidegen.rendering.theme.template_process import BrokenTemplateError, EndedProcessError, TemplateProcess
from guidegen.words.language import Language

if TYPE_CHECKING:
    from jinja2 import Environment, Template


# Where the shapes of a page's chips go once it is known which it uses.
_SHAPES_HERE = "<!--shapes-->"


@dataclass(frozen=True)
class Templates:
    """Templates in one language. `authors` is the author's own folder, None for none."""

    language: Language
    authors: Path | None = None

    def render(self, name: str, values: Mapping[str, object]) -> bytes:
        """A page as UTF-8. Raises BrokenTemplateError where a template of the author's own cannot be used."""
        if self.authors is None:
            return self.render_here(name, values)
        with self._naming_the_template(name):
            return self._process.render(name, values)

    def __reduce__(self) -> tuple[object, tuple[object, ...]]:
        """Goes to another process without what was compiled here."""
        return Templates, (self.language, self.authors)

    def load(self, name: str) -> None:
        """Compile a template of the author's own, without rendering it. Raises BrokenTemplateError where it is none."""
        with self._naming_the_template(name):
            self._process.load(name)

    def render_here(self, name: str, values: Mapping[str, object]) -> bytes:
        """As `render`, in this process: for our own templates, and in the process that renders the author's."""
        html = self._environment.get_template(name).render(values)
        return html.replace(_SHAPES_HERE, shapes_for(html, self._shapes), 1).encode()

    def load_here(self, name: str) -> Template:
        """The template compiled in this process, for which the same holds."""
        return self._environment.get_template(name)

    @contextmanager
    def _naming_the_template(self, name: str) -> Iterator[None]:
        """Turns the end of the process into an error of the template that caused it."""
        try:
            yield
        except EndedProcessError as end:
            file = f"{FOLDER}/{end.template}" if end.template else self.blamed(name)
            raise BrokenTemplateError(file, end.line, end.words, exceeded=True) from None

    def blamed(self, name: str) -> str:
        """The file to name where all that is known is which page was made: the author's own, if need be any of them."""
        own = name if not self.is_ours(name) else next(iter(self.of_authors()), name)
        return f"{FOLDER}/{own}"

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

    def pages_of_authors(self) -> dict[str, str]:
        """The texts of the author's own pages and parts of them, by name; what is no UTF-8 is replaced."""
        if self.authors is None:
            return {}
        return {
            name: (self.authors / name).read_bytes().decode("utf-8", "replace") for name in self.of_authors()
        }

    def our_pages(self) -> list[str]:
        """The names of our own pages and parts of them."""
        folder = own_templates()
        return sorted(page.relative_to(folder).as_posix() for page in folder.rglob("*.html"))

    def digest(self) -> str:
        """Stands for every template, style and script that pages can be made with."""
        digest = hashlib.sha256()
        for folder in filter(None, (own_templates(), self.authors)):
            for file in sorted(folder.rglob("*")):
                if lies_within(file, folder):
                    name = file.relative_to(folder).as_posix()
                    digest.update(name.encode("utf-8", "surrogatepass") + b"\0" + file.read_bytes() + b"\0")
        return digest.hexdigest()[:16]

    @cached_property
    def _process(self) -> TemplateProcess:
        return TemplateProcess(self.authors or own_templates(), self.language.code)

    @cached_property
    def _shapes(self) -> dict[str, str]:
        return read_shapes(self.source("parts/chips.svg"))

    @cached_property
    def _environment(self) -> Environment:
        from jinja2 import ChoiceLoader, Environment, StrictUndefined

        from guidegen.rendering.theme.our_templates import (
            OURS_COMPILED,
            OurTemplates,
            PlainContext,
            PlainTemplate,
        )

        usual: dict[str, Any] = {
            "autoescape": True,
            "undefined": StrictUndefined,
            "trim_blocks": True,
            "lstrip_blocks": True,
            "auto_reload": False,
        }
        ours = OurTemplates(own_templates(), self.language)
        if self.authors is None:
            environment = Environment(loader=ours, bytecode_cache=OURS_COMPILED, **usual)  # noqa: S701  it escapes, as said above
            environment.context_class = PlainContext
            environment.template_class = PlainTemplate
        else:
            from guidegen.rendering.theme.sandbox import OwnTemplates, Sandbox

            environment = Sandbox(loader=ChoiceLoader([OwnTemplates(self.authors), ours]), **usual)
        environment.globals.update(
            t=self.language.t,
            swatch=swatch,
            band=band,
            daub=daub,
            draw_pot=pot,
            draw_ring=ring,
            relief=relief,
            spread=spread,
            mix_error=MIX_ERROR,
        )
        environment.filters["fold"] = folded
        return environment


def own_icon(side: int) -> bytes:
    """Our icon as a PNG of that many pixels a side."""
    return (own_templates() / f"icon-{side}.png").read_bytes()
