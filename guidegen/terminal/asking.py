"""A few questions on a terminal, none of which has to be answered, with names completed by the Tab key."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager

import click

from guidegen.base.suggest import folded, nearest
from guidegen.reading.types.parse_context import LONGEST_NAME
from guidegen.reading.types.values import MOST_FIGURES

# The most areas that an answer may name.
MOST_AREAS = 40


def may_ask() -> bool:
    """Whether input and output are both a terminal."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def begin() -> None:
    """Tell how the questions are answered."""
    click.echo(
        "A few questions; Enter alone keeps what stands in brackets. Nothing is made before the last one."
    )


def text(question: str, default: str, known: Sequence[str] = ()) -> str:
    """One line of text; the default where nothing is typed. Raises click.Abort where the typing has ended."""
    while True:
        answer = _line(f"{question} [{default}]: " if default else f"{question}: ", known) or default
        if len(answer) <= LONGEST_NAME and answer.isprintable():
            return answer
        click.echo(f"    Write it on one line, {LONGEST_NAME} characters at most.")


def figures(default: int) -> int:
    """How many figures; the default where nothing is typed."""
    while True:
        answer = _line(f"How many figures? [{default}]: ", ())
        if not answer:
            return default
        if re.fullmatch("[0-9]{1,9}", answer) and 1 <= int(answer) <= MOST_FIGURES:
            return int(answer)
        click.echo(f"    Write a number from 1 to {MOST_FIGURES:,}.")


def areas(known: Sequence[str]) -> list[str]:
    """The areas, each once; none where nothing is typed."""
    question = "Which areas do you paint, with commas between (coat, hood)? []: "
    while True:
        once: dict[str, str] = {}
        for piece in _line(question, known, several=True).split(","):
            if area := " ".join(piece.split()):
                once.setdefault(folded(area), area)
        if len(once) <= MOST_AREAS and all(len(a) <= LONGEST_NAME and a.isprintable() for a in once.values()):
            return list(once.values())
        click.echo(f"    Name {MOST_AREAS} at most, each in a few words.")


def name(question: str, known: Sequence[str], find: Callable[[str], str | None], default: str = "") -> str:
    """One of the known names; one that is nearly right is asked about. `find` gives the name that an answer means."""
    while True:
        answer = _line(f"{question} [{default}]: ", known)
        if not answer:
            return default
        found = find(answer)
        if found is not None:
            return found
        near = nearest(answer, known) if len(answer) <= LONGEST_NAME else None
        if near is None:
            click.echo(f"    There is no “{answer}”. The Tab key shows the names there are.")
        elif _line(f"    There is no “{answer}”. {near}? [yes]: ", ()).casefold() in {"", "y", "yes"}:
            return near


def agrees(question: str) -> bool:
    """Whether yes is typed; Enter alone is no."""
    return _line(f"{question} [no]: ", ()).casefold() in {"y", "yes"}


def _line(prompt: str, known: Sequence[str], *, several: bool = False) -> str:
    try:
        with _completing(known, several=several):
            return " ".join(input(prompt).split())
    except EOFError as ended:
        click.echo()
        raise click.Abort from ended


@contextmanager
def _completing(known: Sequence[str], *, several: bool) -> Iterator[None]:
    """Let the Tab key finish the names, where the machine has a library for it."""
    try:
        import readline
    except ImportError:  # as on Windows; then names are typed in full
        yield
        return

    def finish(begun: str, number: int) -> str | None:
        begun = folded(begun)
        fitting = [one for one in known if folded(one).startswith(begun)]
        return fitting[number] if number < len(fitting) else None

    before = readline.get_completer(), readline.get_completer_delims()
    readline.set_completer(finish)
    readline.set_completer_delims("," if several else "")
    # The same key, as the two libraries there are have it.
    apples = "libedit" in (readline.__doc__ or "")
    readline.parse_and_bind("bind ^I rl_complete" if apples else "tab: complete")
    try:
        yield
    finally:
        readline.set_completer(before[0])
        readline.set_completer_delims(before[1])
