"""What is told of a key that stands twice, or that nothing stands after."""

from __future__ import annotations

from guidegen.base.diagnostic import Related
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.yaml.nodes import Entry, Scalar
from guidegen.reading.yaml.quoting import shortened


def tell_double(second: Scalar, first: Scalar, context: ParseContext) -> None:
    """Tell duplicate-key at the second of two keys that mean the same."""
    if second.diagnosed:
        return
    again = shortened(second.value)
    same = second.value.strip() == first.value.strip()
    context.say(
        "duplicate-key",
        f"“{again}” is given twice here; only one can count."
        if same
        else f"“{again}” means the same as “{shortened(first.value)}”, given before; only one can count.",
        context.span(second),
        "Take one of the two out.",
        (Related(span=context.span(first), message="gives it first."),),
    )


def tell_empty(name: str, entry: Entry, context: ParseContext, meant: str = "") -> None:
    """empty-value for a key with nothing after it."""
    span = context.span(entry.value if entry.value.end > entry.value.start else entry.key)
    context.say(
        "empty-value",
        f"Nothing stands after {name}, so it counts as left out.",
        span,
        f"Write {name}: {meant}, or take it out."
        if meant
        else f"Write something after {name}: or take it out.",
    )


def tell_needed(name: str, entry: Entry, context: ParseContext) -> None:
    """no-paint for its key with nothing after it, which only a step's paint can be."""
    context.say(
        "no-paint",
        f"Nothing stands after {name}.",
        context.span(entry.key),
        f"Write a name after {name}:, or none where no paint is used.",
    )
