"""What a member's site.yaml said of a guide, written out in the guide, so that it means the same elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.model.guide import Guide, Scale
from guidegen.model.site import Site
from guidegen.reading.editing.written import in_braces, in_brackets, one_line, values_of, yaml_text
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar, tree_of
from guidegen.receiving.file_edits import Edits

# What a step takes where neither it nor anybody else says anything.
_NOTHING = {"technique": "base coat", "dry": "0 min", "holds": "figure", "brush": "none", "thin": "none"}


def values_for_guides(site: Site) -> tuple[object, ...]:
    """What a site says of guides that say nothing themselves."""
    own = site.defaults
    return (
        site.author,
        site.people,
        site.licence,
        site.language,
        site.meant,
        own.scale,
        own.base,
        own.figures,
        own.batch,
        dict(own.steps.given),
    )


def write_site_values(
    edits: Edits, guide: Guide, own: Site, club: Site, source: Source | None, author: str
) -> None:
    """Put in what holds for the guide by its own site, wherever the club's would say otherwise.

    `source` is the member's site.yaml, `author` whoever made a guide that names nobody.
    """
    _name_people(edits, edits.root, {folded(one.key): one.name for one in own.people})
    there = values_of(edits.root)
    defaults = there.get("defaults")
    for_steps = dict(_for_steps(values_of(defaults), own, club, source))
    pairs = [
        (key, text)
        for key, text in _of_guide(guide, own, club, author)
        if key not in there and key not in values_of(defaults)
    ]
    if for_steps and not isinstance(defaults, MapNode):
        pairs.append(("defaults", in_braces(for_steps.items())))
    elif for_steps:
        _add(edits, defaults, for_steps.items())
    _add(edits, edits.root, pairs)


def _name_people(edits: Edits, node: Node | None, names: Mapping[str, str]) -> None:
    """Write people's names where their keys stand, which another site does not know."""
    if isinstance(node, ListNode):
        for item in node.items:
            _name_people(edits, item, names)
    for entry in node.entries if isinstance(node, MapNode) else ():
        if entry.key.value.strip() in {"by", "author"}:
            several = entry.value.items if isinstance(entry.value, ListNode) else (entry.value,)
            for one in several:
                name = names.get(folded(one.value)) if isinstance(one, Scalar) else None
                if name is not None:
                    edits.put(edits.source.span(one.start, one.end), yaml_text(name))
        elif names:
            _name_people(edits, entry.value, names)


def _of_guide(guide: Guide, own: Site, club: Site, author: str) -> Iterator[tuple[str, str]]:
    author = own.author or author
    if author:
        yield "author", yaml_text(author)
    if own.language != club.language:
        yield "language", yaml_text(own.language)
    if own.meant:
        yield "meant", in_brackets(own.meant)
    if own.licence or club.licence:
        yield "licence", yaml_text(own.licence) if own.licence else '""'
    if guide.handbook:
        return
    nobody = Scale()
    if own.defaults.scale.given or club.defaults.scale.given:
        yield "scale", yaml_text((own.defaults.scale if own.defaults.scale.given else nobody).text)
    if own.defaults.base is not None or club.defaults.base is not None:
        base = own.defaults.base
        yield "base", yaml_text(f"{base:g} mm") if base is not None else "none"
    if own.defaults.figures != 1 or club.defaults.figures != 1:
        yield "figures", str(own.defaults.figures)
    if own.defaults.batch != club.defaults.batch:
        yield "batch", str(own.defaults.batch or "all")


def _for_steps(
    there: dict[str, Node], own: Site, club: Site, source: Source | None
) -> Iterator[tuple[str, str]]:
    nodes = values_of(values_of(tree_of(source).root).get("defaults")) if source is not None else {}
    for word, nothing in _NOTHING.items():
        if word in there:
            continue
        if word in own.defaults.steps.places and word in nodes:
            yield word, one_line(nodes[word])
        elif word in club.defaults.steps.places:
            yield word, yaml_text(nothing)


def _add(edits: Edits, node: Node | None, pairs: Iterable[tuple[str, str]]) -> None:
    """Put keys before the first of a group, as these are written."""
    several = list(pairs)
    if not several or not isinstance(node, MapNode):
        return
    if node.flow or not node.entries:
        rest = ", " if node.entries else ""
        edits.insert(node.start + 1, ", ".join(f"{key}: {text}" for key, text in several) + rest)
        return
    first = node.entries[0].key.start
    line, column = edits.source.position(first)
    before = edits.source.line(line)[: column - 1]
    if before.strip():
        indent = " " * (column - 1)
        edits.insert(first, "".join(f"{key}: {text}\n{indent}" for key, text in several))
    else:
        edits.insert(first - len(before), "".join(f"{before}{key}: {text}\n" for key, text in several))
