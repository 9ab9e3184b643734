"""Many photos at once: in order, once each, and from the store where it has them."""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterator
from pathlib import Path

import pytest
from support.photos import SPAN, Shelf, corners, flat, saved

from guidegen.base.errors import MachineError
from guidegen.base.workers import LATER
from guidegen.imaging.develop import _KEY, ALONE, ROOM, Developed, Original, _PhotoDispatcher, develop
from guidegen.imaging.limits import LARGE_FILE, MAX_AT_A_TIME, Budget
from guidegen.imaging.picture import digest_of


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Twelve different photos, of which one is broken."""
    for number in range(12):
        photo = saved(flat((20 * number, 100, 50), (500, 400)), "JPEG")
        (tmp_path / f"{number:02}.jpg").write_bytes(photo[:300] if number == 7 else photo)
    return tmp_path


def originals(folder: Path) -> list[Original]:
    return [Original(path=path, name=path.name, span=SPAN) for path in sorted(folder.glob("*.jpg"))]


def test_results_come_in_order_and_one_bad_photo_stops_nothing(folder: Path):
    shelf = Shelf()
    results = list(develop(originals(folder), shelf, cores=3))
    assert [result.original.name for result in results] == [f"{n:02}.jpg" for n in range(12)]
    assert [n for n, result in enumerate(results) if result.picture is None] == [7]
    for n, result in enumerate(results):
        if result.picture is None:
            (error,) = result.diagnostics
            assert (error.code, error.span) == ("bad-photo", SPAN)
            assert error.message.startswith("“07.jpg” is broken")
            continue
        assert result.encoded
        assert result.diagnostics == ()
        assert abs(int(result.picture.colour[1:3], 16) - 20 * n) <= 2
        assert all(shelf.has(key) for _, key in result.picture.files)


def test_one_core_and_many_give_the_same(folder: Path):
    one, many = Shelf(), Shelf()
    alone = [result.picture for result in develop(originals(folder), one, cores=1)]
    assert alone == [result.picture for result in develop(originals(folder), many, cores=4)]
    assert one.kept == many.kept


def test_a_photo_is_encoded_once_in_its_life(folder: Path):
    shelf = Shelf()
    first = list(develop(originals(folder), shelf))
    puts = list(shelf.puts)
    (folder / "00.jpg").rename(folder / "12.jpg")
    second = list(develop(originals(folder), shelf))
    assert shelf.puts == puts
    assert not any(result.encoded for result in second)
    assert second[-1].picture == first[0].picture
    assert second[-1].digest == first[0].digest == digest_of((folder / "12.jpg").read_bytes())


def test_copies_are_encoded_once(tmp_path: Path):
    data = saved(corners(500, 400), "JPEG")
    for number in range(6):
        (tmp_path / f"{number}.jpg").write_bytes(data)
    shelf = Shelf()
    results = list(develop(originals(tmp_path), shelf, cores=4))
    assert sum(result.encoded for result in results) == 1
    assert len({result.picture for result in results}) == 1
    assert len(shelf.puts) == len(set(shelf.puts))


def test_a_known_photo_is_not_even_read(folder: Path):
    shelf = Shelf()
    (first,) = develop(originals(folder)[:1], shelf)
    (folder / "00.jpg").unlink()
    known = Original(path=folder / "00.jpg", name="00.jpg", span=SPAN, digest=first.digest)
    (again,) = develop([known], shelf)
    assert again.picture == first.picture
    assert not again.encoded


@pytest.mark.parametrize("ending", [".json", ".webp", ".jpg"])
def test_what_the_store_lost_is_made_again(folder: Path, ending: str):
    shelf = Shelf()
    (first,) = develop(originals(folder)[:1], shelf)
    before = dict(shelf.kept)
    del shelf.kept[next(key for key in shelf.kept if key.endswith(ending))]
    known = Original(path=folder / "00.jpg", name="00.jpg", span=SPAN, digest=first.digest)
    (again,) = develop([known], shelf)
    assert again.encoded
    assert shelf.kept == before


def test_what_is_known_of_a_photo_is_put_last(folder: Path):
    # A build that is killed half-way must not leave a photo that looks done.
    shelf = Shelf()
    list(develop(originals(folder)[:1], shelf))
    assert [key.endswith(".json") for key in shelf.puts] == [False] * 4 + [True]


def test_spoilt_facts_are_made_again(folder: Path):
    shelf = Shelf()
    list(develop(originals(folder)[:1], shelf))
    before = dict(shelf.kept)
    key = next(key for key in shelf.kept if key.endswith(".json"))
    shelf.kept[key] = b'{"key": "another"}'
    (again,) = develop(originals(folder)[:1], shelf)
    assert again.encoded
    assert shelf.kept == before


@pytest.mark.parametrize("again", [False, True], ids=["encoded", "from the store"])
def test_warnings_are_told_every_time(tmp_path: Path, again: bool):
    moving = saved(flat("red", (90, 60)), "WEBP", save_all=True, append_images=[flat("blue", (90, 60))])
    (tmp_path / "a.jpg").write_bytes(moving)
    shelf = Shelf()
    if again:
        list(develop(originals(tmp_path), shelf))
    (result,) = develop(originals(tmp_path), shelf)
    assert result.encoded is not again
    assert [(d.code, d.message) for d in result.diagnostics] == [
        ("animated-photo", "“a.jpg” moves; only its first picture is shown."),
        ("small-photo", "“a.jpg” is 90 pixels wide; from 480 on a photo looks sharp on a page."),
    ]


def test_a_photo_held_upright_is_measured_upright(tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(saved(corners(479, 900), "JPEG"))
    (tmp_path / "b.jpg").write_bytes(saved(corners(480, 10), "JPEG"))
    narrow, wide = develop(originals(tmp_path), Shelf())
    assert [d.code for d in narrow.diagnostics] == ["small-photo"]
    assert wide.diagnostics == ()


def test_a_strip_is_refused(tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(saved(flat("red", (20, 20_000)), "JPEG"))
    (result,) = develop(originals(tmp_path), Shelf())
    (error,) = result.diagnostics
    assert error.code == "bad-photo"
    assert "20 × 20000 pixels, far too long a strip" in error.message


def test_files_that_cannot_be_read(tmp_path: Path):
    (tmp_path / "a.jpg").mkdir()
    gone = Original(path=tmp_path / "gone.jpg", name="gone.jpg", span=SPAN)
    results = list(develop([*originals(tmp_path), gone], Shelf()))
    assert [result.diagnostics[0].code for result in results] == ["bad-photo", "bad-photo"]
    assert [result.digest for result in results] == [None, None]


def test_no_photos():
    assert list(develop([], Shelf())) == []


def test_a_large_file_is_developed_as_well(tmp_path: Path):
    data = saved(corners(500, 400), "JPEG")
    for name in ("a.jpg", "b.jpg"):  # what stands behind a JPEG's end is of no matter
        (tmp_path / name).write_bytes(data + name.encode() + b"\0" * LARGE_FILE)
    assert all(result.encoded for result in develop(originals(tmp_path), Shelf(), cores=2))


def test_photos_are_asked_for_only_as_results_are_taken(folder: Path):
    asked = 0

    def many() -> Iterator[Original]:
        nonlocal asked
        for _ in range(500):
            asked += 1
            yield originals(folder)[0]

    results = develop(many(), Shelf(), cores=2)
    for _ in range(3):
        next(results)
    assert asked <= 3 + 2 * 4
    results.close()
    assert asked <= 3 + 2 * 4


def test_the_stores_failure_is_not_swallowed(folder: Path):
    class FullShelf(Shelf):
        def put(self, key: str, data: bytes) -> None:
            raise MachineError("The disk is full.")

    with pytest.raises(MachineError, match="The disk is full"):
        list(develop(originals(folder), FullShelf()))
    assert multiprocessing.active_children() == []


def test_no_worker_is_left_when_the_reader_stops(folder: Path):
    results = develop(originals(folder), Shelf(), cores=3)
    assert isinstance(next(results), Developed)
    assert multiprocessing.active_children() != []
    results.close()
    assert multiprocessing.active_children() == []


def test_the_budget_keeps_large_photos_apart():
    budget = Budget()
    half = MAX_AT_A_TIME // 2
    assert budget.take(0, half)
    assert budget.take(1, half)
    assert not budget.take(2, 1)
    budget.give_back(0)
    assert not budget.take(2, half + 1)
    assert budget.take(2, half)
    for job in (1, 2):
        assert not budget.take(3, 3 * MAX_AT_A_TIME)
        budget.give_back(job)
    # What is above the limit is alone.
    assert budget.take(3, 3 * MAX_AT_A_TIME)
    assert not budget.take(4, 1)
    budget.give_back(3)
    assert budget.take(4, MAX_AT_A_TIME - 1)
    assert budget.take(5, 1)


def test_large_files_are_read_one_at_a_time_and_copies_encoded_one_at_a_time():
    dispatcher = _PhotoDispatcher([], Shelf(), keep=True)
    for question in ((ALONE, ""), (_KEY, "a photo's")):
        assert dispatcher.answer(0, question) is None
        assert dispatcher.answer(1, question) is LATER
        assert dispatcher.answer(0, question) is None
    assert dispatcher.answer(1, (_KEY, "another's")) is None
    assert dispatcher.answer(0, (ROOM, MAX_AT_A_TIME)) is None
    assert dispatcher.answer(1, (ROOM, 1)) is LATER
    dispatcher.lost(0)
    for question in ((ALONE, ""), (_KEY, "a photo's"), (ROOM, 1)):
        assert dispatcher.answer(1, question) is None


def test_photos_decoded_together_stay_within_the_budget(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Four workers, and room for one and a half photos: each has it alone."""
    weights: dict[int, int] = {}

    class Watched(Budget):
        def take(self, job: int, pixels: int) -> bool:
            if taken := super().take(job, pixels):
                weights[job] = pixels
            assert sum(weights.values()) <= 300_000
            return taken

        def give_back(self, job: int) -> None:
            super().give_back(job)
            weights.pop(job, None)

    monkeypatch.setattr("guidegen.imaging.limits.MAX_AT_A_TIME", 300_000)
    monkeypatch.setattr("guidegen.imaging.develop.Budget", Watched)
    for number in range(8):
        (tmp_path / f"{number}.jpg").write_bytes(saved(flat((20 * number, 0, 0), (500, 400)), "PNG"))
    assert all(result.encoded for result in develop(originals(tmp_path), Shelf(), cores=4))
    assert weights == {}
