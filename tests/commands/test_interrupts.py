"""Ctrl-C and SIGTERM, at a few moments of every command. `python tests/abuse/interrupting.py` tries many more."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from abuse.interrupting import COMMANDS, Ground
from support.waiting import PATIENCE

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(os.name != "posix", reason="signals are sent as POSIX has them"),
]


@pytest.fixture(scope="module")
def ground(tmp_path_factory: pytest.TempPathFactory) -> Ground:
    return Ground(tmp_path_factory.mktemp("stopped"))


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_is_stopped_in_good_order(ground: Ground, command: str):
    assert ground.stopped(command, 0.0, signal.SIGINT) == "stopped"
    ground.stopped(command, 0.6, signal.SIGTERM)


def test_an_interrupt_that_the_interpreter_drops_is_heard_all_the_same(tmp_path: Path):
    """What is raised while an object is taken apart goes nowhere, and would leave a trace."""
    program = """
import os, signal, time
from guidegen.base.stopping import install_handlers
class Falls:
    def __del__(self):
        os.kill(os.getpid(), signal.SIGTERM)
        for _ in range(1000): pass
install_handlers()
try:
    Falls()
    time.sleep(60)
except KeyboardInterrupt:
    print("heard")
"""
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=PATIENCE, check=False
    )
    assert (done.stdout, done.stderr) == ("heard\n", "")


def test_signals_that_were_switched_off_stay_so():
    """As `nohup` does, and a shell with what it runs in the background."""
    program = """
import signal
signal.signal(signal.SIGINT, signal.SIG_IGN)
from guidegen.base.stopping import install_handlers
install_handlers()
print(signal.getsignal(signal.SIGINT) is signal.SIG_IGN, signal.getsignal(signal.SIGTERM) is signal.SIG_DFL)
"""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout == "True False\n"
