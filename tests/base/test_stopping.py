"""The end of the program after Ctrl-C: its exit code is its own."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

LEAVING = """
import sys
from guidegen.base.stopping import ignore_signals
try:
    exec("raise KeyboardInterrupt")
except KeyboardInterrupt:
    ignore_signals()
sys.exit(7)
"""


def test_an_interrupt_while_text_is_run_leaves_the_exit_code(tmp_path: Path):
    """As a module, which is where Python looks at how its text ended."""
    (tmp_path / "leaving.py").write_text(LEAVING, "utf-8")
    done = subprocess.run([sys.executable, "-m", "leaving"], cwd=tmp_path, check=False)
    assert done.returncode == 7
