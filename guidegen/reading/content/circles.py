"""Circles among things that are made of one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeVar

P = TypeVar("P")


def circles(edges: Mapping[str, Sequence[tuple[str, P]]]) -> Iterator[tuple[tuple[str, ...], P]]:
    """The circles in a graph: the names on each, and the label of the edge that closes it.

    `edges` gives for each name the names that it is made of, each with a label. Depth first, from every name in order;
    without recursion, so that a long chain costs no more than its length.
    """
    done: set[str] = set()
    for root in edges:
        if root in done:
            continue
        path = {root: None}
        ahead = [iter(edges[root])]
        while ahead:
            step = next(ahead[-1], None)
            if step is None:
                ahead.pop()
                done.add(path.popitem()[0])
                continue
            name, edge = step
            if name in path:
                way = list(path)
                yield tuple(way[way.index(name) :]), edge
            elif name in edges and name not in done:
                path[name] = None
                ahead.append(iter(edges[name]))
