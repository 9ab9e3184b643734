"""The demo archive as readers get it: built once for all tests, by the command, and parsed once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.made_once import built_demo

HERE = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test in this folder builds a whole site, or looks at all of one."""
    for item in items:
        if HERE in Path(item.path).parents:
            item.add_marker(pytest.mark.slow)


@dataclass(frozen=True)
class Demo:
    """The built demo: where it lies, and what is in it."""

    folder: Path

    @cached_property
    def files(self) -> frozenset[str]:
        return frozenset(
            path.relative_to(self.folder).as_posix() for path in self.folder.rglob("*") if path.is_file()
        )

    @cached_property
    def pages(self) -> dict[str, BeautifulSoup]:
        """Every page by its path. The standard library's own reader, which mends nothing."""
        return {
            path: BeautifulSoup((self.folder / path).read_text(encoding="utf-8"), "html.parser")
            for path in sorted(self.files)
            if path.endswith(".html")
        }

    @cached_property
    def ids(self) -> dict[str, list[str]]:
        """The places of every page, as often as they stand there."""
        return {path: [str(tag["id"]) for tag in soup.find_all(id=True)] for path, soup in self.pages.items()}


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Demo:
    return Demo(built_demo(tmp_path_factory))
