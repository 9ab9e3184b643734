"""Shared lists of steps, and putting them into the guides that insert them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.listed import list_of_words
from guidegen.base.listing import Listing
from guidegen.base.paths import slug
from guidegen.base.slips import only_meant
from guidegen.base.source import Source
from guidegen.model.guide import Insert, Shared, Step, Stop
from guidegen.model.names import Name
from guidegen.reading.content.circles import circles
from guidegen.reading.content.steps import STEP, STEPS
from guidegen.reading.types.keys import Key, Record, read_whole
from guidegen.reading.types.parse_context import ParseContext, near
from guidegen.reading.yaml.quoting import fix_of

# A guide of a thousand steps is a book; lists that insert lists can multiply far beyond that.
MOST_STEPS = 1_000

SHARED = Record(
    noun="shared list",
    about="Steps that several guides insert.",
    beside=(STEP,),
    keys=(
        Key(
            "steps",
            STEPS,
            "The steps, stops and inserts.",
            required=True,
            field="entries",
            example="[{step: Boards, paint: Wet Plank, each: 2 min}]",
        ),
    ),
)

# What lies in the shared folder by name; None for a file that could not be read.
SharedLists = Mapping[str, Shared | None]


def read_shared(
    source: Source, name: str, listing: Listing, people: Mapping[str, str] = MappingProxyType({})
) -> tuple[Shared | None, tuple[Diagnostic, ...]]:
    """A shared list; None where its file cannot be read at all.

    `name` is what guides insert it by; `people` leads from the folded keys of the site's people to their names.

    A step that cannot be read in full has its bad fields at their defaults, as in a guide.
    """
    context = ParseContext(source, listing)
    context.people = people
    fields = read_whole(
        SHARED, context, empty="This shared list has no steps.", help_line="Add steps: and a list of them."
    )
    if fields is None:
        return None, tuple(context.diagnostics)
    entries = tuple(
        replace(entry, shared=name) if isinstance(entry, Step) else entry
        for entry in fields.values.get("entries", ())[:MOST_STEPS]
    )
    if len(fields.values.get("entries", ())) > MOST_STEPS:
        context.say(
            "bad-value",
            f"This list has more than {MOST_STEPS:,} steps, stops and inserts, which is as many as it can have.",
            fields.places["steps"],
            "Divide it into several lists.",
        )
    return Shared(name=name, entries=entries, span=fields.span), tuple(context.diagnostics)


def check_inserts(lists: SharedLists) -> Iterator[Diagnostic]:
    """unknown-insert and insert-circle within the shared lists themselves."""
    edges: dict[str, list[tuple[str, Name]]] = {}
    for name in sorted(lists):
        found = lists[name]
        inserts = [entry.name for entry in found.entries if isinstance(entry, Insert)] if found else []
        edges[name] = [(slug(insert.text), insert) for insert in inserts]
        for target, insert in edges[name]:
            if target not in lists:
                yield unknown_insert(insert, lists)
    for circle, insert in circles(edges):
        way = [f"shared/{name}.yaml" for name in circle]
        between = f" by way of {list_of_words(way[1:-1])}" if way[1:-1] else ""
        closing = {a: next(n for to, n in edges[a] if to == b) for a, b in pairwise(circle)}
        yield Diagnostic(
            code="insert-circle",
            message=f"{way[-1]} inserts “{insert.text}”, which "
            + ("is this list itself." if len(way) == 1 else f"inserts it in turn{between}."),
            span=insert.span,
            help="Take one of the inserts out.",
            related=tuple(
                Related(span=name.span, message=f"inserts “{name.text}”.") for name in closing.values()
            ),
        )


def unknown_insert(name: Name, lists: SharedLists) -> Diagnostic:
    """unknown-insert, with the nearest name there is."""
    known = sorted(lists)
    typed = slug(name.text.rsplit("/", 1)[-1].removesuffix(".yaml").removesuffix(".yml"))
    best = near(typed, known)
    if best:
        help_line = f"Write {best}."
    elif known:
        help_line = f"There is {list_of_words(known[:8])}; or add a file of that name to the shared folder."
    else:
        help_line = f"Put its steps into shared/{slug(name.text)}.yaml."
    return Diagnostic(
        code="unknown-insert",
        message=f"There is no shared list “{name.text}”.",
        span=name.span,
        help=help_line,
        fix=fix_of(name, only_meant(typed, known) if best else None),
    )


def expanded(
    entries: Iterable[Step | Stop | Insert], lists: SharedLists, context: ParseContext
) -> tuple[tuple[Step | Stop, ...], tuple[str, ...]]:
    """The steps and stops with every insert replaced, and the names of the lists that came in, in first-use order.

    Tells unknown inserts of the guide itself; those within lists, and circles, are told once by `check_inserts`.
    Stops at 1,000 entries and tells so.
    """
    kept: list[Step | Stop] = []
    used: dict[str, None] = {}
    ahead: list[tuple[str, Iterator[Step | Stop | Insert]]] = [("", iter(entries))]
    top: Name | None = None
    seen = 0
    while ahead:
        here, rest = ahead[-1]
        entry = next(rest, None)
        if entry is None:
            ahead.pop()
            continue
        seen += 1
        if seen > MOST_STEPS:
            _too_many(top, entry, context)
            break
        if not isinstance(entry, Insert):
            kept.append(entry)
            continue
        top = top if here else entry.name
        target = slug(entry.name.text)
        if target not in lists:
            if not here:
                context.diagnostics.append(unknown_insert(entry.name, lists))
            continue
        found = lists[target]
        used[target] = None
        if found is not None and all(name != target for name, _ in ahead):
            ahead.append((target, iter(found.entries)))
    return tuple(kept), tuple(used)


def _too_many(top: Name | None, entry: Step | Stop | Insert, context: ParseContext) -> None:
    """bad-value at the guide's own insert, `top`, that leads past the bound, else at the entry itself."""
    span = top.span if top is not None else entry.name.span if isinstance(entry, Insert) else entry.span
    context.say(
        "bad-value",
        f"With this the guide has more than {MOST_STEPS:,} steps, stops and inserts, which is as many as it can have.",
        span,
        "Divide it into several guides, or take an insert out.",
    )
