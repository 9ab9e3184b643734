"""Circles among things that are made of one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeVar

P = TypeVar("P")


def circles(edges: Mapping[str, Sequence[tuple[str, P]]]) -> Iterator[tuple[tuple[str, ...], P]]:
    """Each way back found in going down from every thing in order: the things of the circle, and the edge that closes it.

    Without recursion, so that a long chain costs no more than its length.
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
