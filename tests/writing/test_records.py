"""What is kept for the next build comes back as it was, and nothing but our own records ever does."""

from __future__ import annotations

import datetime as dt
import os
import pickle
import sys
import tracemalloc
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source, Span
from guidegen.writing.cache_file import LARGEST_KEPT, load_kept, save_kept
from guidegen.writing.records import Records

RECORDS = Records(("guidegen.base.source", "guidegen.base.diagnostic", "guidegen.writing.stat_cache"))
SPAN = Span(file="guides/lamp-boys.md", line=2, column=3, end_line=2, end_column=9)
KEPT = {
    "span": SPAN,
    "told": (Diagnostic(code="bad-value", message="No.", span=SPAN, notes=("a", "b")),),
    "text": Source(file="site.yaml", text="title: One\nauthor: Two\n"),
    "when": [
        dt.date(2031, 4, 1),
        dt.timedelta(minutes=3),
        dt.datetime.fromisoformat("2031-04-01T20:00:00"),
        dt.time(20, 30),
    ],
    "place": Path("guides") / "lamp-boys.md",
    "plain": (1, 2.5, None, True, b"x", frozenset({"a"}), {"b"}, {"c": [1]}),
}


class Crime:
    """Unpickled without care, it leaves a file behind."""

    def __init__(self, place: Path) -> None:
        self.place = place

    def __reduce__(self) -> tuple[object, ...]:
        return os.system, (f"echo done > '{self.place}'",)


def test_records_come_back_as_they_were():
    again = RECORDS.load(RECORDS.dump(KEPT))
    assert again == KEPT
    assert again["text"].starts == KEPT["text"].starts
    assert again["span"] is again["told"][0].span


def test_spans_come_back_wherever_they_are():
    spans = [
        replace(SPAN, file=file, line=line, end_column=column)
        for file in ("palette.yaml", "guides/Fähre.md", "")
        for line in (1, 70_000)
        for column in (1, 2_000_000)
    ]
    again = RECORDS.load(RECORDS.dump({"spans": spans, "the same": [replace(one) for one in spans]}))
    assert again == {"spans": spans, "the same": spans}
    assert all(one is other for one, other in zip(again["spans"], again["the same"], strict=True))


def test_a_span_takes_no_memory_beside_its_own_while_it_is_kept():
    def peak(values: list[object]) -> int:
        RECORDS.dump(values)
        tracemalloc.start()
        RECORDS.dump(values)
        held = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return held

    spans = [replace(SPAN, line=line) for line in range(20_000)]
    others = [Diagnostic(code="bad-value", message="No.", span=SPAN) for _ in spans]
    assert peak([*spans]) < peak([*others]) / 4


def test_a_mapping_that_nobody_can_change_comes_back_as_one():
    again = RECORDS.load(RECORDS.dump(MappingProxyType({"figures": SPAN})))
    assert isinstance(again, MappingProxyType)
    assert again == {"figures": SPAN}


@pytest.mark.parametrize(
    "value",
    [os.system, eval, print, getattr, pickle.loads, Path.unlink, replace, Records, Exception, type, object()],
    ids=lambda value: getattr(value, "__name__", "object"),
)
def test_nothing_else_does(value: object):
    with pytest.raises(pickle.UnpicklingError, match="is no record"):
        RECORDS.load(pickle.dumps(value))


@pytest.mark.parametrize("name", ["Records", "made.__globals__", "partial", "importlib", "_setters"])
def test_no_name_leads_out_of_the_records(name: str):
    module = b"guidegen.writing.records"
    said = name.encode()
    data = b"\x80\x04\x8c" + bytes([len(module)]) + module + b"\x8c" + bytes([len(said)]) + said + b"\x93."
    with pytest.raises(pickle.UnpicklingError, match="is no record"):
        RECORDS.load(data)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "cache" / "content.kept"


def test_what_is_kept_is_found_again_by_the_same_program_alone(file: Path):
    save_kept(file, "one", KEPT, RECORDS)
    assert load_kept(file, "one", RECORDS) == KEPT
    assert load_kept(file, "two", RECORDS) is None
    assert load_kept(file.with_name("another"), "one", RECORDS) is None


def test_a_crafted_file_runs_nothing(file: Path, tmp_path: Path):
    trace = tmp_path / "trace"
    save_kept(file, "one", KEPT, _Careless())
    assert load_kept(file, "one", RECORDS) == KEPT
    save_kept(file, "one", Crime(trace), _Careless())
    assert load_kept(file, "one", RECORDS) is None
    assert not trace.exists()
    # It would have, so the test means something.
    pickle.loads(file.read_bytes()[64:])
    assert trace.exists()


class _Careless(Records):
    """As somebody may who forges a file: with the right seal and whatever in it."""

    def __init__(self) -> None:
        super().__init__(())

    def dump(self, value: object) -> bytes:
        return pickle.dumps(value)


@pytest.mark.skipif(sys.platform == "win32", reason="has no such permissions")
@pytest.mark.parametrize("mode", [0o620, 0o602, 0o666])
def test_a_file_that_others_can_write_to_is_not_believed(mode: int, file: Path):
    save_kept(file, "one", KEPT, RECORDS)
    assert file.stat().st_mode & 0o777 == 0o600
    file.chmod(mode)
    assert load_kept(file, "one", RECORDS) is None


@pytest.mark.skipif(sys.platform == "win32", reason="has no such users")
def test_a_file_of_another_user_is_not_believed(file: Path, monkeypatch: pytest.MonkeyPatch):
    save_kept(file, "one", KEPT, RECORDS)
    another = os.geteuid() + 1
    monkeypatch.setattr("guidegen.writing.cache_file.os.geteuid", lambda: another)
    assert load_kept(file, "one", RECORDS) is None


@pytest.mark.skipif(sys.platform == "win32", reason="has no pipes that lie in a folder")
def test_a_pipe_in_its_place_holds_nothing_up(file: Path):
    file.parent.mkdir()
    os.mkfifo(file)
    assert load_kept(file, "one", RECORDS) is None


def test_a_file_without_end_is_not_read(file: Path):
    file.parent.mkdir()
    with file.open("wb") as huge:
        huge.truncate(LARGEST_KEPT + 1)
    assert load_kept(file, "one", RECORDS) is None
