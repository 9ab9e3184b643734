"""Our scripts and styles, squeezed: fewer bytes, nothing that counts."""

from __future__ import annotations

import re

import pytest
from support.rendered_town import TEMPLATES

from guidegen.rendering.theme.assets import BENCH_SCRIPT, PLAN_SCRIPT, SCRIPTS, STYLES
from guidegen.rendering.theme.squeeze import squeezed_script, squeezed_style


@pytest.mark.parametrize(
    ("source", "squeezed"),
    [
        ("const a = 1; // one\nlet b = 2;", "const a=1;let b=2;"),
        ("/* said\n   over lines */\nrun( a , b );", "run(a,b);"),
        ("a = b\nc = d", "a=b\nc=d"),
        ("a\n  .b()\n  .c()", "a.b().c()"),
        ("x = a + +b - -c", "x=a+ +b- -c"),
        ("typeof x in y", "typeof x in y"),
        ("'two  spaces // here' + \"/* and here */\"", "'two  spaces // here'+\"/* and here */\""),
        ("`a  b ${ c ? `d  e` : '}' }  // f` + 1", "`a  b ${ c ? `d  e` : '}' }  // f`+1"),
        ("x.replace( /[/ ]  \\/'/g , '' )", "x.replace(/[/ ]  \\/'/g,'')"),
        ("half = ( a + b ) / 2 / c", "half=(a+b)/2/c"),
        ("function f() {\n  return 1;\n}\n", "function f(){return 1}"),
        ("", ""),
    ],
)
def test_scripts(source: str, squeezed: str) -> None:
    assert squeezed_script(source).removesuffix("\n") == squeezed
    assert squeezed_script(squeezed).removesuffix("\n") == squeezed


@pytest.mark.parametrize(
    ("source", "squeezed"),
    [
        ("/* a */\na { color: red; }\n", "a{color:red}\n"),
        ("a > b, c d { margin: 0 calc(1rem + 2px); }", "a > b,c d{margin:0 calc(1rem + 2px)}\n"),
        ("a::after { content: \" ;  } \" attr(href) ')'; }", "a::after{content:\" ;  } \" attr(href) ')'}\n"),
        (
            "@media (min-width: 60rem) and (hover: hover) { a { b: c } }",
            "@media (min-width:60rem) and (hover:hover){a{b:c}\n}\n",
        ),
        ("a :is(b, c) { d: 1px/2 e; }", "a :is(b,c){d:1px/2 e}\n"),
    ],
)
def test_styles(source: str, squeezed: str) -> None:
    assert squeezed_style(source) == squeezed


EMPTY_BODY = re.compile(r"\b(?:for|while|if)\((?:[^()]|\((?:[^()]|\([^()]*\))*\))*\)[;}]")


def test_ours_are_written_as_the_squeezing_needs_it() -> None:
    """No loop or condition without a body, whose `;` would be missed, and no pattern after a closing bracket."""
    assert EMPTY_BODY.search("{for(const a of b(c(d)));}")
    for name in (*SCRIPTS, PLAN_SCRIPT, BENCH_SCRIPT):
        assert not EMPTY_BODY.search(squeezed_script(TEMPLATES.source(name))), name
        assert not re.search(r"\) /[^/*\s]", TEMPLATES.source(name)), name


def test_squeezing_takes_nothing_but_space_and_remarks() -> None:
    for name in (*SCRIPTS, PLAN_SCRIPT, BENCH_SCRIPT):
        source = TEMPLATES.source(name)
        bare = re.sub(r"/\*.*?\*/|^\s*//[^\n]*", "", source, flags=re.DOTALL | re.MULTILINE)
        assert re.sub(r"[\s;]", "", squeezed_script(source)) == re.sub(r"[\s;]", "", bare), name
    for name in STYLES:
        source = TEMPLATES.source(name)
        bare = re.sub(r"/\*.*?\*/", "", source, flags=re.DOTALL)
        assert re.sub(r"[\s;]", "", squeezed_style(source)) == re.sub(r"[\s;]", "", bare), name
