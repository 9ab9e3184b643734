"""What the preview goes by: which files were written to, and which pages are to be fetched again."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from support.waiting import PATIENCE, until
from watchdog.events import (
    DirCreatedEvent,
    DirModifiedEvent,
    FileClosedEvent,
    FileDeletedEvent,
    FileModifiedEvent,
    FileMovedEvent,
    FileOpenedEvent,
)

from guidegen.preview.reload import News
from guidegen.preview.watching import Changes, Listener

ROOT = Path("/delta/content")
GUIDE = "guides/lamp-boys/guide.md"


def at(path: str) -> str:
    return str(ROOT / path)


@pytest.mark.parametrize(
    "event",
    [
        FileModifiedEvent(at(GUIDE)),
        FileMovedEvent(at("guides/lamp-boys/4913"), at(GUIDE)),
        FileMovedEvent(at("guides/lamp-boys/.guide.md.part"), at(GUIDE)),
        FileClosedEvent(at(GUIDE)),
        FileDeletedEvent(at("palette.yaml")),
        DirCreatedEvent(at("guides/new")),
        FileMovedEvent(at(GUIDE), "/elsewhere/guide.md"),
    ],
)
def test_a_change_is_heard_of_once(event: object):
    changes = Changes()
    Listener(changes).dispatch(event)
    assert changes.wait(0)
    changes.settle()
    assert not changes.wait(0)


@pytest.mark.parametrize(
    "event",
    [
        FileOpenedEvent(at(GUIDE)),
        FileModifiedEvent(at("guides/lamp-boys/.guide.md.swp")),
        FileModifiedEvent(at("guides/lamp-boys/guide.md~")),
        DirModifiedEvent(at("guides")),
    ],
)
def test_what_is_no_change_is_not_heard_of(event: object):
    changes = Changes()
    Listener(changes).dispatch(event)
    assert not changes.wait(0)


def test_a_page_hears_of_the_turns_that_concern_it():
    news = News()
    news.tell("", None)
    assert news.wait(0, "index.html", patience=0) == (1, "")
    news.tell("", ["guides/lamp-boys/index.html"])
    assert news.turn_of("index.html") == 1
    assert news.turn_of("guides/lamp-boys/index.html") == 2
    assert news.wait(1, "index.html", patience=0) == (1, "")
    news.tell("a mistake", [])
    assert news.wait(1, "index.html", patience=0) == (3, "a mistake")
    news.tell("a mistake", ["index.html"])
    assert (news.turn_of("index.html"), news.turn_of("paints/index.html")) == (4, 3)


def test_only_pages_that_changed_are_woken():
    news = News()
    heard: dict[str, int] = {}

    def wait(page: str) -> None:
        heard[page], _ = news.wait(0, page, patience=PATIENCE)

    waiting = {page: threading.Thread(target=wait, args=(page,)) for page in ("index.html", "shelf.html")}
    for thread in waiting.values():
        thread.start()
    until(lambda: news._waiting == 2)
    # Were the home page woken by the first turn, it would have heard of no second.
    for page in ("shelf.html", "index.html"):
        news.tell("", [page])
        waiting[page].join(PATIENCE)
    assert heard == {"shelf.html": 1, "index.html": 2}
