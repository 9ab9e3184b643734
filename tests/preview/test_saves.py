"""The preview at work while editors save in their ways, files vanish, and the content folder goes and comes back."""

from __future__ import annotations

import http.client
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from support.edited_archive import begun, write_guide
from support.waiting import PATIENCE, until

from guidegen.base.errors import GuidegenError
from guidegen.building.build import Order
from guidegen.preview import session as previewing
from guidegen.preview.session import Preview, Watched
from guidegen.rendering.theme import template_process

pytestmark = pytest.mark.slow

GUIDE = "guides/lock-keeper/guide.md"


class Shown:
    """A preview that runs in a thread, and what it said."""

    def __init__(self, top: Path) -> None:
        self.content = begun(top / "content", guides=2)
        write_guide(self.content, "lock-keeper", 0, title="Lamp boys 0", see="")
        self.guide = self.content / GUIDE
        self.text = self.guide.read_text(encoding="utf-8")
        self.out = top / "shown"
        self.told: list[Watched] = []
        self.preview = Preview(
            Order(content=self.content, out=self.out, cache=top / "cache"), 0, self.told.append
        )
        self.port = int(self.preview.address.rstrip("/").rpartition(":")[2])
        self.thread = threading.Thread(target=self.preview.run, daemon=True)
        self.thread.start()
        self.wait(lambda: "Lamp boys 0" in self.page())

    def page(self, path: str = "/guides/lock-keeper/index.html") -> str:
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        try:
            line.request("GET", path)
            return line.getresponse().read().decode()
        finally:
            line.close()

    @property
    def codes(self) -> set[str]:
        built = self.told[-1].built if self.told else None
        return {told.code for told in built.diagnostics} if built is not None else set()

    def titled(self, title: str) -> str:
        return self.text.replace("Lamp boys 0", title)

    def wait(self, what: Callable[[], bool]) -> None:
        until(lambda: what() or not self.thread.is_alive(), lambda: self.told)
        assert self.thread.is_alive(), self.told

    def gone(self) -> bool:
        """Whether the guide's page has gone from the site."""
        return not (self.out / "guides/lock-keeper/index.html").exists()


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shown]:
    made = Shown(tmp_path_factory.mktemp("saves"))
    yield made
    made.preview.end()
    made.thread.join(PATIENCE)
    assert not made.thread.is_alive()


def replaced(shown: Shown, text: str) -> None:
    """Written beside it and moved into place."""
    file = shown.guide
    beside = file.with_name(f".{file.name}.tmp")
    beside.write_text(text, encoding="utf-8")
    beside.replace(file)


def emptied(shown: Shown, text: str) -> None:
    """Emptied first, then written in pieces."""
    with shown.guide.open("w", encoding="utf-8") as new:
        for at in range(0, len(text), 64):
            new.write(text[at : at + 64])
            new.flush()


def backed_up(shown: Shown, text: str) -> None:
    """The old one is moved aside, a new one takes its name, the old one goes; a test of the folder's rights before."""
    file = shown.guide
    (file.parent / "4913").write_bytes(b"")
    (file.parent / "4913").unlink()
    backup = file.with_name(f"{file.name}~")
    file.rename(backup)
    file.write_text(text, encoding="utf-8")
    backup.unlink()


def swapped(shown: Shown, text: str) -> None:
    """With a swap file beside it all the while."""
    file = shown.guide
    swap = file.with_name(f".{file.name}.swp")
    swap.write_bytes(b"b0VIM")
    file.write_text(text, encoding="utf-8")
    swap.unlink()


def made_anew(shown: Shown, text: str) -> None:
    """Removed, and written again once its page has gone."""
    shown.guide.unlink()
    shown.wait(shown.gone)
    shown.guide.write_text(text, encoding="utf-8")


def swung(shown: Shown, text: str) -> None:
    """A file of another folder moved over it."""
    file = shown.guide
    other = file.parents[3] / "elsewhere.md"
    other.write_text(text, encoding="utf-8")
    other.replace(file)


@pytest.mark.parametrize("save", [replaced, emptied, backed_up, swapped, made_anew, swung])
def test_however_an_editor_saves_the_page_shows_it(shown: Shown, save: Callable[[Shown, str], None]):
    save(shown, shown.titled(f"Saved, {save.__name__}"))
    shown.wait(lambda: f"Saved, {save.__name__}" in shown.page())


def test_after_a_thousand_saves_the_last_one_is_shown(shown: Shown):
    for number in range(1000):
        (replaced if number % 3 else emptied)(shown, shown.titled(f"Saved {number} times"))
    shown.wait(lambda: "Saved 999 times" in shown.page())


def test_saves_without_a_pause_are_not_waited_out(monkeypatch: pytest.MonkeyPatch):
    """Otherwise whoever never stops typing never sees a page."""
    from guidegen.preview import watching

    monkeypatch.setattr(watching, "LONGEST_UNSETTLED", 0.2)
    changes = watching.Changes()
    typing = threading.Event()

    def type_on() -> None:
        while not typing.is_set():
            changes.note()

    hand = threading.Thread(target=type_on)
    hand.start()
    try:
        assert changes.wait(PATIENCE)
        changes.settle()
    finally:
        typing.set()
        hand.join()


def test_what_vanishes_and_comes_back_is_gone_and_there_again(shown: Shown):
    folder = shown.guide.parent
    photo = (folder / "coat.jpg").read_bytes()

    def back(title: str) -> None:
        folder.mkdir()
        (folder / "coat.jpg").write_bytes(photo)
        shown.guide.write_text(shown.titled(title), encoding="utf-8")

    for number in range(5):
        shutil.rmtree(folder)
        back(f"Back {number}")
    shown.wait(lambda: "Back 4" in shown.page())
    shutil.rmtree(folder)
    shown.wait(shown.gone)
    back("There again")
    shown.wait(lambda: "There again" in shown.page())


def test_a_file_that_goes_in_the_middle_of_a_build_stops_nothing(
    shown: Shown, monkeypatch: pytest.MonkeyPatch
):
    """After the folder was listed and before its files are read."""
    real = previewing.build
    palette = shown.content / "palette.yaml"
    aside = shown.content.parent / "aside.yaml"

    def build(order: Order, memory: object) -> object:
        from guidegen.building import build as building

        found = building.discover(order.content)
        monkeypatch.setattr(building, "discover", lambda _content: found)
        palette.rename(aside)
        try:
            return real(order, memory)
        finally:
            monkeypatch.undo()
            aside.rename(palette)

    monkeypatch.setattr(previewing, "build", build)
    (shown.content / "guides/new-one.md").write_text(
        "---\ntitle: New\nsteps: [{step: A, paint: none}]\n---\n", encoding="utf-8"
    )
    shown.wait(lambda: "<h1" in shown.page("/guides/new-one/index.html"))


def test_a_content_folder_that_goes_and_is_made_again_is_heard_of(shown: Shown):
    for name in ("moved", "copied"):
        away = shown.content.with_name(name)
        shown.content.rename(away)
        shown.wait(lambda: bool(shown.told and shown.told[-1].failure))
        assert "no content folder" in shown.told[-1].failure.message
        assert "<h1" in shown.page()
        if name == "copied":
            shutil.copytree(away, shown.content)
        else:
            away.rename(shown.content)
        shown.guide.write_text(shown.titled(f"Home again, {name}"), encoding="utf-8")
        shown.wait(lambda name=name: f"Home again, {name}" in shown.page())
        # The watch is on the new folder.
        shown.guide.write_text(shown.titled(f"Heard, {name}"), encoding="utf-8")
        shown.wait(lambda name=name: f"Heard, {name}" in shown.page())


def test_a_crash_of_ours_ends_no_preview(shown: Shown, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))

    def fails(*_: object) -> None:
        raise ZeroDivisionError("a brush too many")

    before = shown.page()
    with monkeypatch.context() as failing:
        failing.setattr(previewing, "build", fails)
        shown.guide.write_text(shown.titled("Never seen"), encoding="utf-8")
        shown.wait(lambda: bool(shown.told and shown.told[-1].failure))
        assert shown.told[-1].failure.message.startswith("guidegen itself has failed.")
        # The terminal is told first.
        shown.wait(lambda: "guidegen itself has failed" in shown.page("/.preview/news.js?turn=0"))
        assert "Never seen" not in shown.page()
        assert before.partition("<h1")[0].partition("data-turn")[0]
    shown.guide.write_text(shown.titled("Seen after all"), encoding="utf-8")
    shown.wait(lambda: "Seen after all" in shown.page())


def test_a_template_without_an_end_leaves_the_site_up(shown: Shown, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(template_process, "BUDGET", template_process.Budget(seconds=1.0))
    template = shown.content / "templates" / "404.html"
    template.parent.mkdir()
    template.write_text("{% for i in range(10 ** 12) %}{% endfor %}", encoding="utf-8")
    shown.wait(lambda: "bad-template" in shown.codes)
    assert "<h1" in shown.page()
    template.write_text("<title>Mended</title>", encoding="utf-8")
    shown.wait(lambda: "Mended" in (shown.out / "404.html").read_text(encoding="utf-8"))
    template.unlink()
    shown.wait(lambda: "Mended" not in (shown.out / "404.html").read_text(encoding="utf-8"))


def test_with_an_address_of_the_site_the_way_home_still_leads_home(shown: Shown):
    (shown.content / "site.yaml").write_text(
        "title: The bench\nurl: https://delta.example/club\n", encoding="utf-8"
    )
    lost = shown.out / "404.html"
    shown.wait(lambda: 'href="/club/index.html"' in lost.read_text(encoding="utf-8"))
    shown.wait(lambda: 'href="/index.html"' in shown.page("/no/such/page.html"))
    assert 'href="/club/index.html"' not in shown.page("/no/such/page.html")


def test_without_a_content_folder_no_preview_begins(tmp_path: Path):
    with pytest.raises(GuidegenError, match="no content folder"):
        Preview(Order(content=tmp_path / "nowhere", out=tmp_path / "shown"), 0, lambda _: None)
    assert not (tmp_path / "shown").exists()


@pytest.mark.skipif(os.name != "posix", reason="made of what POSIX machines have")
def test_where_nothing_can_be_written_no_preview_begins(tmp_path: Path):
    begun(tmp_path / "content", guides=1)
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(GuidegenError, match="cannot be made"):
        Preview(Order(content=tmp_path / "content", out=tmp_path / "file" / "shown"), 0, lambda _: None)
