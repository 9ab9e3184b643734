"""Who is connected to the preview: so many at once, each with so much time and room to say what is wanted."""

from __future__ import annotations

import io
import re
import socket
import threading
import time
from contextlib import suppress
from email.message import Message
from http.client import HTTPException
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed import WriteableBuffer

# A browser opens six connections to a server, a page that waits for news holds one of them; ten windows are plenty.
MOST_VISITORS = 96
# From the last answer to the end of the next question, in seconds. A browser that has nothing to ask for so long
# connects anew; whoever sends a letter a second is let go as well.
QUESTION_TIME = 20.0
# A question's first line and headers together: the library takes 64 KiB for each line and a hundred lines.
QUESTION_BYTES = 128 * 1024
# What is taken off a refused visitor's hands, so that the refusal is read before the line is cut (RFC 9112, 9.6).
LEFT_OVER_BYTES = 1024 * 1024
LEFT_OVER_TIME = 1.0


# What a header's name is made of: RFC 9110, section 5.6.2.
_NAME = re.compile(r"[!#$%&'*+.^_`|~0-9A-Za-z-]+")


class TooMuchError(HTTPException):
    """A question is longer than anybody's is; the library answers it as one with too many headers."""


class Question(io.RawIOBase):
    """What a visitor sends, within a bound of time and size for each question. Raises TimeoutError, TooMuchError."""

    def __init__(self, connection: socket.socket) -> None:
        """The first question begins now."""
        self._connection = connection
        self.begin()

    def begin(self) -> None:
        """The next question begins now."""
        self._until = time.monotonic() + QUESTION_TIME
        self._room = QUESTION_BYTES

    def readable(self) -> bool:
        """True."""
        return True

    def readinto(self, buffer: WriteableBuffer) -> int:
        """Take what has come, and wait for it no longer than the question may take."""
        if self._room <= 0:
            raise TooMuchError("The question is too long.")
        left = self._until - time.monotonic()
        if left <= 0:
            raise TimeoutError
        usual = self._connection.gettimeout()
        self._connection.settimeout(left)
        try:
            count = self._connection.recv_into(memoryview(buffer)[: self._room])
        finally:
            self._connection.settimeout(usual)
        self._room -= count
        return count


class Visitors:
    """Open connections. Where there are too many, the one that has asked for nothing for longest makes room."""

    def __init__(self, most: int = MOST_VISITORS) -> None:
        """None so far."""
        self._most = most
        self._open: dict[socket.socket, None] = {}
        self._counting = threading.Lock()

    def enter(self, connection: socket.socket) -> None:
        """Count a connection in; with too many, shut the one that asked for something longest ago."""
        with self._counting:
            while len(self._open) >= self._most:
                oldest = next(iter(self._open))
                del self._open[oldest]
                with suppress(OSError):
                    oldest.shutdown(socket.SHUT_RDWR)
            self._open[connection] = None

    def ask(self, connection: socket.socket) -> None:
        """A connection has sent a whole request: the others are now shut before it."""
        with self._counting:
            if connection in self._open:
                del self._open[connection]
                self._open[connection] = None

    def leave(self, connection: socket.socket) -> None:
        """Count a connection out."""
        with self._counting:
            self._open.pop(connection, None)


def is_well_formed(headers: Message) -> bool:
    """Whether each header line is a name with a colon right after it, and its value: RFC 9112, section 5.

    The library reads headers as those of a letter: with a line that is none its text begins, and whatever comes after
    that, as the length of a body, it would not see.
    """
    if headers.defects or headers.get_payload() or headers.get_unixfrom():
        return False
    return all(_NAME.fullmatch(name) and not {"\r", "\n"} & set(value) for name, value in headers.raw_items())


def take_left_over(connection: socket.socket) -> None:
    """Close our side, and for a moment read and drop what is still being sent, or the client would not see our answer."""
    until, room = time.monotonic() + LEFT_OVER_TIME, LEFT_OVER_BYTES
    with suppress(OSError):
        connection.shutdown(socket.SHUT_WR)
        while room > 0 and (left := until - time.monotonic()) > 0:
            connection.settimeout(left)
            piece = connection.recv(1 << 16)
            if not piece:
                return
            room -= len(piece)
