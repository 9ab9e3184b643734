"""Hypothesis strategies for files as authors type them, well and badly; the others are in strategies.py."""

from __future__ import annotations

from hypothesis import strategies as st

_SIGNS = st.sampled_from(
    (*"[]{}:#,-&*!|>'\"%@`?~.=\\/ \n\t", "\n  ", "\n  - ", ": ", " #", "---\n", "é", "🖌", "\ufeff")
)
_WORDS = st.sampled_from(
    [
        "title",
        "steps",
        "step",
        "paint",
        "paints",
        "name",
        "colour",
        "color",
        "parts",
        "dry",
        "air",
        "none",
        "a touch",
        "1:30",
        "10 min",
        "2,80",
        "#b8862f",
        "Grey #2",
        "b8862f",
        "yes",
        "20%",
        "2026-02-30",
        "insert",
        "photo",
        "<<",
    ]
)
# Anything at all; then what looks like YAML from afar, which gets further before something is wrong with it.
scribbles = st.one_of(st.text(max_size=60), st.lists(st.one_of(_SIGNS, _WORDS), max_size=40).map("".join))


def typed(keys: tuple[str, ...]) -> st.SearchStrategy[str]:
    """A group of keys of a table in braces, in any order, some twice, each with a value that may be of any kind."""
    leaf = st.one_of(
        _WORDS, st.sampled_from(("", '""', "[]", "{}", "Oilskin Ochre", "ferry-watch", "-1", "99999999999"))
    )
    value = st.recursive(
        leaf,
        lambda inner: st.one_of(
            st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
            st.lists(st.tuples(st.sampled_from(keys), inner), max_size=3).map(_braces),
        ),
        max_leaves=6,
    )
    return st.lists(st.tuples(st.sampled_from(keys), value), max_size=6).map(_braces)


def _braces(entries: list[tuple[str, str]]) -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in entries) + "}"


_MARKS = st.sampled_from(
    [
        "# ",
        "## ",
        "### ",
        "Coats",
        "Coat",
        "![",
        "](",
        ")",
        "[",
        "]",
        "finished.jpg",
        "<b>",
        "javascript:",
        "\n",
        "\n\n",
        "- ",
        "> ",
        "|",
        "\n|-|-|\n",
        "`",
        "**",
        "~~",
        "&lt;",
        "<http://x.org>",
        "../ferry-watch/guide.md",
        "#coats",
        '"',
    ]
)
markdown_texts = st.one_of(
    st.text(max_size=80), st.lists(st.one_of(_MARKS, _WORDS), max_size=40).map("".join)
)
