"""The preview's server against visitors that are slow, many, or hang up."""

from __future__ import annotations

import socket
import threading
from contextlib import closing, suppress
from pathlib import Path

import pytest
from support.preview_site import LARGE, Served, status
from support.waiting import PATIENCE, until

from guidegen.preview import server as serving
from guidegen.preview import visitors

pytestmark = pytest.mark.usefixtures("quiet")


def test_questions_that_are_too_long_are_refused(served: Served):
    own = f"Host: 127.0.0.1:{served.port}\r\n"
    assert status(served.say(f"GET /{'x' * 400_000} HTTP/1.1\r\n{own}\r\n".encode())) == 414
    for flood in (
        "".join(f"X-{n}: y\r\n" for n in range(5000)),
        f"X: {'y' * 400_000}\r\n",
        "".join(f"X-{n}: {'y' * 4000}\r\n" for n in range(90)),
    ):
        assert status(served.say(f"GET / HTTP/1.1\r\n{own}{flood}\r\n".encode())) == 431
    assert status(served.ask()) == 200


def slow_visitors(served: Served) -> list[socket.socket]:
    """Some who begin a question, each a letter further than the one before, and one who says nothing."""
    lines = [served.connect() for _ in range(20)]
    for at, line in enumerate(lines):
        line.sendall(b"GET / HTTP/1.1\r\nHost: 127.0.0.1"[:at])
    return lines


def hung_up(line: socket.socket) -> bool:
    """Whether the server has ended the connection, without an answer; waits for it as long as the socket does."""
    try:
        assert line.recv(100) == b""
    except TimeoutError:
        return False
    except ConnectionError:
        pass
    return True


def test_slow_visitors_hold_up_nobody(served: Served):
    slow = slow_visitors(served)
    assert status(served.ask()) == 200
    # They were there all the while.
    assert len(served.server.visitors._open) >= len(slow)
    for line in slow:
        line.close()


def test_slow_visitors_are_let_go(served: Served, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(visitors, "QUESTION_TIME", 0.5)
    for line in slow_visitors(served):
        with closing(line):
            assert hung_up(line)


def test_a_letter_at_a_time_is_no_way_to_stay(served: Served, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(visitors, "QUESTION_TIME", 0.5)
    with closing(served.connect()) as line:
        line.settimeout(0.05)

        def let_go() -> bool:
            with suppress(OSError):
                line.sendall(b"X")
            return hung_up(line)

        until(let_go)


def test_who_does_not_take_the_answer_holds_up_nobody(served: Served):
    asked = f"GET /large.bin HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\n\r\n".encode()
    greedy = [served.connect() for _ in range(20)]
    for line in greedy:
        line.sendall(asked * 3)
    assert status(served.ask()) == 200
    assert served.ask("/large.bin").endswith(LARGE)
    for line in greedy:
        line.close()


def test_who_takes_nothing_is_let_go(served: Served, monkeypatch: pytest.MonkeyPatch):
    there = served.server.visitors
    until(lambda: not there._open)
    gone, leave = threading.Event(), there.leave
    with monkeypatch.context() as patched, closing(socket.socket()) as line:
        patched.setattr(serving._Handler, "timeout", 0.3)
        patched.setattr(there, "leave", lambda connection: (leave(connection), gone.set()))
        line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
        line.settimeout(PATIENCE)
        line.connect(("127.0.0.1", served.port))
        line.sendall(f"GET /large.bin HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\n\r\n".encode())
        assert gone.wait(PATIENCE)
    assert status(served.ask()) == 200


def test_of_very_many_visitors_the_idle_ones_make_room(served: Served, monkeypatch: pytest.MonkeyPatch):
    # Fewer than in earnest, since some systems let a process hold only 256 files open.
    monkeypatch.setattr(served.server.visitors, "_most", 20)
    crowd = [served.connect() for _ in range(40)]
    assert status(served.ask()) == 200
    assert len(served.server.visitors._open) <= 20
    for line in crowd:
        line.close()


def test_many_at_once_are_all_answered(served: Served):
    answers: list[int] = []

    def ask() -> None:
        answers.append(status(served.ask("/guides/lamp-boys/index.html")))

    asking = [threading.Thread(target=ask) for _ in range(60)]
    for thread in asking:
        thread.start()
    for thread in asking:
        thread.join()
    assert answers == [200] * 60


def test_a_visitor_that_hangs_up_in_the_middle_is_no_trouble(served: Served):
    for sent in (b"", b"GET", f"GET /large.bin HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\n\r\n".encode()):
        line = served.connect()
        line.sendall(sent)
        # Hang up at once: the other end hears of it by a reset.
        line.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")
        line.close()
    assert status(served.ask()) == 200


def test_one_connection_serves_several_questions(served: Served):
    one = f"GET /guides/lamp-boys/ HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\n\r\n"
    last = one.replace("\r\n\r\n", "\r\nConnection: close\r\n\r\n")
    assert served.say((one * 4 + last).encode()).count(b"lamp boys") == 5


def test_a_file_that_may_not_be_read_is_not_there(served: Served, monkeypatch: pytest.MonkeyPatch):
    def refuse(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(Path, "open", refuse)
    assert status(served.ask("/large.bin")) == 404


def test_the_way_home_from_nowhere_leads_to_the_home_page_that_is_shown(served: Served):
    """In the published site it leads to where the site lives, which is nowhere here."""
    served.server.lost_home = "/club/a&b/index.html"
    for target in ("/nowhere.html", "/guides/nobody/index.html", "/a/b/c/d"):
        answer = served.ask(target)
        assert status(answer) == 404
        assert b'<a href="/index.html">lost</a>' in answer
