"""Our scripts and styles, squeezed by libraries: the same bytes with and without their compiled parts."""

from __future__ import annotations

import re

import pytest
import rcssmin
import rjsmin
from support.rendered_town import TEMPLATES

from guidegen.rendering.theme.assets import (
    BENCH_SCRIPTS,
    HOME_SCRIPTS,
    KEEP_SCRIPT,
    PLAN_SCRIPTS,
    SCRIPTS,
    STYLES,
    script_of,
    style_of,
)

ALL_SCRIPTS = tuple(dict.fromkeys((*SCRIPTS, *BENCH_SCRIPTS, *PLAN_SCRIPTS, KEEP_SCRIPT, *HOME_SCRIPTS)))


@pytest.mark.parametrize("name", ALL_SCRIPTS)
def test_scripts_are_the_same_without_a_compiled_library(name: str) -> None:
    plain = rjsmin._make_jsmin(python_only=True)
    assert script_of(TEMPLATES, name) == plain(TEMPLATES.source(name)) + "\n"


@pytest.mark.parametrize("name", STYLES)
def test_styles_are_the_same_without_a_compiled_library(name: str) -> None:
    plain = rcssmin._make_cssmin(python_only=True)
    assert style_of(TEMPLATES, name) == plain(TEMPLATES.source(name)) + "\n"


@pytest.mark.parametrize("name", ALL_SCRIPTS)
def test_squeezing_takes_nothing_but_space_and_remarks(name: str) -> None:
    source = TEMPLATES.source(name)
    bare = re.sub(r"/\*.*?\*/|^\s*//[^\n]*", "", source, flags=re.DOTALL | re.MULTILINE)
    assert re.sub(r"\s", "", script_of(TEMPLATES, name)) == re.sub(r"\s", "", bare)


@pytest.mark.parametrize("name", STYLES)
def test_squeezing_a_style_takes_nothing_but_space_and_remarks(name: str) -> None:
    source = TEMPLATES.source(name)
    bare = re.sub(r"/\*.*?\*/", "", source, flags=re.DOTALL)
    assert re.sub(r"[\s;]", "", style_of(TEMPLATES, name)) == re.sub(r"[\s;]", "", bare)
