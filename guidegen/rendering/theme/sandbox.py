"""Where templates of an author's own run: they lay out pages, run no code and read no file from elsewhere.

What they may cost is bounded for the process that they run in, see `template_worker.py`.
"""

from __future__ import annotations

import io
import os
from collections.abc import Callable
from pathlib import Path, PurePath
from types import ModuleType
from typing import Any

from jinja2 import Environment, FileSystemLoader, TemplateNotFound
from jinja2.loaders import split_template_path
from jinja2.sandbox import ImmutableSandboxedEnvironment

from guidegen.rendering.theme.template_files import FOLDER, lies_within


class OwnTemplates(FileSystemLoader):
    """The author's folder, but for links that lead out of it. A traceback has its files by their paths in content."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.root = os.path.realpath(folder)

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        """The text of a template. Raises TemplateNotFound where none lies in the folder itself."""
        for folder in self.searchpath:
            file = Path(folder, *split_template_path(template))
            if file.exists() and not lies_within(file, Path(self.root)):
                raise TemplateNotFound(template)
        text, _, is_current = super().get_source(environment, template)
        return text, f"{FOLDER}/{template}", is_current


class Sandbox(ImmutableSandboxedEnvironment):
    """An environment whose templates change nothing and reach nothing that begins with _."""

    # So that no sum of theirs is done while they are compiled, where no line is known yet.
    intercepted_binops = frozenset(ImmutableSandboxedEnvironment.default_binop_table)

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        # As long as one likes: the process is bounded, not each loop.
        self.globals["range"] = range

    def is_safe_callable(self, obj: Any) -> bool:
        """Whether it may be called: nothing of files, folders and modules."""
        of = getattr(obj, "__self__", None)
        return super().is_safe_callable(obj) and not isinstance(of, PurePath | io.IOBase | ModuleType | type)
