"""Tells real commands to end, by Ctrl-C's signal and by SIGTERM, at moments spread over their whole life.

    python tests/abuse/interrupting.py --moments 60

Each command is measured once, from the first line of ours to its exit, and then ended so many times, beyond its end too.
It must leave with 130, or with its own exit code where it had finished, without a trace on the terminal; the site must be
whole; and what was asked for must go well the next time. Prints how often each was stopped and how often it had finished.
"""

from __future__ import annotations

import argparse
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from abuse.killing import faults
from support.edited_archive import begun, write_guide
from support.waiting import PATIENCE, free_port

# Before this moment a signal meets Python itself, which nothing of ours can hear for it.
BEGUN = """
import os, sys
class Sign:
    def find_spec(self, name, path=None, target=None):
        if name == "guidegen.cli":
            os.write(int(os.environ["SIGN"]), b".")
            os.read(int(os.environ["GO"]), 1)
sys.meta_path.insert(0, Sign())
from guidegen.__main__ import main
main()
"""
STOPPED = 130
COMMANDS = ("build", "check", "start", "start guide", "send", "plan", "preview")
# What nobody is to see, whatever happens.
TRACES = ("Traceback", "Exception ignored", "KeyboardInterrupt", "guidegen itself has failed")
PLAN = 'title: Regatta\nstart: 2026-06-01\nsittings: {mon-fri: "20:00-22:00"}\nunits: [{guide: lamp-boys, figures: 30}]\n'


class Ground:
    """A content folder, its site, and a cache of its own, in which commands are run and stopped."""

    def __init__(self, at: Path) -> None:
        """Lay it out, and build the site once."""
        self.at = at
        self.content = begun(at / "content", guides=4)
        write_guide(self.content, "lamp-boys", 0, see="")
        (self.content / "plans").mkdir(exist_ok=True)
        (self.content / "plans" / "regatta.yaml").write_text(PLAN, encoding="utf-8")
        self.edits = 0
        self.lasting: dict[str, float] = {}
        code, complaints = self.run("build")
        assert code == 0, complaints

    def arguments(self, command: str) -> list[str]:
        """The command line."""
        content, cache = ["--content", str(self.content)], ["--cache", str(self.at / "cache")]
        out = str(self.at / "site")
        return {
            "build": ["build", *content, *cache, "--out", out],
            "check": ["check", *content],
            "start": ["start", str(self.at / "begun" / "club"), "--no-ask"],
            "start guide": ["start", "guides/jetty-watch", "--no-ask", *content],
            "send": ["send", "lamp-boys", *content, *cache, "--out", str(self.at / "sent.html"), "--replace"],
            "plan": ["plan", "regatta", *content],
            "preview": ["preview", *content, "--out", str(self.at / "shown"), "--port", str(free_port())],
        }[command]

    def begin(self, command: str, how: signal.Signals | None = None) -> subprocess.Popen[str]:
        """Run a command until its first line of ours, and on from there; with a signal, that comes at this very line."""
        reading, writing = os.pipe()
        held, go = os.pipe()
        env = os.environ | {
            "SIGN": str(writing),
            "GO": str(held),
            "XDG_CACHE_HOME": str(self.at / "caches"),
        }
        process = subprocess.Popen(
            [sys.executable, "-c", BEGUN, *self.arguments(command)],
            pass_fds=[writing, held],
            env=env,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            stdin=subprocess.DEVNULL,
            text=True,
        )
        os.close(writing)
        os.close(held)
        assert os.read(reading, 1) == b".", process.communicate()
        os.close(reading)
        if how is not None:
            process.send_signal(how)
        os.close(go)
        return process

    def run(self, command: str) -> tuple[int, str]:
        """Run one that may end by itself, and keep in mind how long it took; its exit code and what it complained of."""
        process = self.begin(command)
        begun_at = time.monotonic()
        if command == "preview":
            assert process.stdout is not None
            while not process.stdout.readline().startswith("Up to date"):
                assert process.poll() is None
            self.lasting[command] = time.monotonic() - begun_at
            process.terminate()
        _, complaints = process.communicate(timeout=PATIENCE)
        self.lasting.setdefault(command, time.monotonic() - begun_at)
        return process.returncode, complaints

    def stopped(self, command: str, share: float, how: signal.Signals) -> str:
        """Stop a command after a share of the time it takes; what became of it. AssertionError where that is not well."""
        if command not in self.lasting:
            self.run(command)
        self.edit()
        process = self.begin(command, None if share else how)
        if share:
            time.sleep(self.lasting[command] * share)
            process.send_signal(how)
        try:
            _, complaints = process.communicate(timeout=PATIENCE)
        finally:
            process.kill()
        case = (
            f"{command}, {how.name} after {share:.3f} of {self.lasting[command]:.2f} s: {process.returncode}"
        )
        assert process.returncode in {0, STOPPED}, f"{case}\n{complaints}"
        assert not [trace for trace in TRACES if trace in complaints], f"{case}\n{complaints}"
        if process.returncode == STOPPED:
            assert "Stopped." in complaints, case
        self.look(command, case)
        return "finished" if process.returncode == 0 else "stopped"

    def edit(self) -> None:
        """Give the next command something to do, and take away what the last one made."""
        self.edits += 1
        write_guide(self.content, "lamp-boys", 0, title=f"Lamp boys {self.edits}", see="")
        shutil.rmtree(self.at / "begun", ignore_errors=True)
        shutil.rmtree(self.content / "guides" / "jetty-watch", ignore_errors=True)

    def look(self, command: str, case: str) -> None:
        """Everything must be whole, and the same must go well now."""
        assert faults(self.at / "site") == [], case
        if (self.at / "shown").exists():
            assert faults(self.at / "shown") == [], case
        assert not [*self.content.rglob("*.part")], case
        if command == "start" and (self.at / "begun" / "club").exists():
            # All of it is there, and a second start would refuse it rightly.
            assert (self.at / "begun/club/guides/first-guide/guide.md").read_text(encoding="utf-8").count(
                "---"
            ) >= 2, case
            return
        if command == "start guide" and (self.content / "guides/jetty-watch/guide.md").exists():
            return
        if command != "preview":
            code, complaints = self.run(command)
            assert code == 0, f"{case}, then {code}\n{complaints}"
        if command == "start":
            assert not [path for path in (self.at / "begun").iterdir() if path.name != "club"], case


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--moments", type=int, default=60, help="for each command")
    asked.add_argument("--command", choices=COMMANDS, action="append")
    arguments = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        ground = Ground(Path(folder))
        for command in arguments.command or COMMANDS:
            came_to = Counter(
                ground.stopped(command, 1.1 * n / arguments.moments, (signal.SIGINT, signal.SIGTERM)[n % 2])
                for n in range(arguments.moments)
            )
            print(
                f"{command}: {', '.join(f'{count} {what}' for what, count in sorted(came_to.items()))}",
                flush=True,
            )


if __name__ == "__main__":
    main()
