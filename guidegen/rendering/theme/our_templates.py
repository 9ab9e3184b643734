"""Our own templates, with the phrases in them that are the same on every page."""

from __future__ import annotations

import re
from collections.abc import Callable, MutableMapping
from functools import lru_cache
from pathlib import Path
from types import CodeType, FunctionType, MethodType
from typing import Any

from jinja2 import BytecodeCache, Environment, FileSystemLoader, Template
from jinja2.bccache import Bucket
from jinja2.runtime import Context, Macro
from markupsafe import Markup, escape

from guidegen.words.language import Language, PhraseKey

# A phrase that takes no values; a page has hundreds of them.
_PHRASE = re.compile(r"""\{\{ t\("([^"]+)"\) \}\}""")

_SPECIAL = re.compile("[&<>'\"]")


class PlainContext(Context):
    """Calls what a template calls, without asking each time whether it wants the context: none of ours does."""

    def call(self, called: Callable[..., Any], /, *values: Any, **named: Any) -> Any:
        """What the call comes to."""
        if isinstance(called, _PLAIN) and not hasattr(called, "jinja_pass_arg"):
            # What only those that want the context are given.
            named.pop("_block_vars", None)
            named.pop("_loop_vars", None)
            return called(*values, **named)
        return super().call(called, *values, **named)


_PLAIN = (MethodType, FunctionType, Macro, type(lru_cache(str)))


class PlainTemplate(Template):
    """Writes texts that need no escaping as they are: nearly all of the thousands on a page."""

    @classmethod
    def from_code(
        cls,
        environment: Environment,
        code: CodeType,
        globals: MutableMapping[str, Any],  # noqa: A002  jinja2 calls it so
        uptodate: Callable[[], bool] | None = None,
    ) -> Template:
        """The template of compiled code, which calls `escape` by that name."""
        template = super().from_code(environment, code, globals, uptodate)
        vars(template)["root_render_func"].__globals__["escape"] = _escaped
        return template


def _escaped(value: object) -> str:
    """As markupsafe has it, but that what holds nothing to escape stays a plain text."""
    if type(value) is str and not _SPECIAL.search(value):
        return value
    return value if type(value) is Markup else escape(value)


class OurTemplates(FileSystemLoader):
    """Our folder. Phrases without values are put in when a template is read, not each time that it is rendered."""

    def __init__(self, folder: Path, language: Language) -> None:
        super().__init__(folder)
        self._language = language

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        """The text of a template. Raises TemplateNotFound where there is none."""
        text, file, is_current = super().get_source(environment, template)
        return _PHRASE.sub(self._phrase, text), file, is_current

    def _phrase(self, call: re.Match[str]) -> str:
        said = str(escape(self._language.t(PhraseKey(call[1]))))
        return call[0] if "{" in said else said


class CompiledTemplates(BytecodeCache):
    """What texts were compiled to, for the later builds of this process: of a preview, say. For one kind of environment."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill the bucket if its text was compiled before."""
        bucket.code = self._kept.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what its text was compiled to."""
        if bucket.code is not None:
            self._kept[bucket.key, bucket.checksum] = bucket.code


OURS_COMPILED = CompiledTemplates()
