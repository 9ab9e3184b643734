"""What the preview hears changes by: where folders come and go, and where the system watches no more of them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from support.waiting import PATIENCE
from watchdog import observers

from guidegen.preview.watching import Changes, Watch


def test_a_system_that_watches_no_more_folders_is_looked_at_from_time_to_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    class Full(observers.Observer):
        def start(self) -> None:
            raise OSError(28, "inotify watch limit reached")

    monkeypatch.setattr(observers, "Observer", Full)
    changes = Changes()
    watch = Watch(tmp_path, changes)
    watch.look()
    try:
        (tmp_path / "palette.yaml").write_text("paints: []\n", encoding="utf-8")
        assert changes.wait(PATIENCE)
    finally:
        watch.end()


def test_a_folder_that_comes_and_goes_is_heard_of_without_a_word_on_the_terminal(tmp_path: Path):
    """Faster than the watcher looks, so that it comes to the same folder twice."""
    program = """
import shutil, sys
from pathlib import Path
from guidegen.preview import watching
folder, patience = Path(sys.argv[1]) / "guides", float(sys.argv[2])
paths = set()
class Listener(watching.Listener):
    def dispatch(self, event):
        paths.add(Path(event.src_path).relative_to(folder.parent).as_posix())
        super().dispatch(event)
watching.Listener = Listener
changes = watching.Changes()
watch = watching.Watch(folder.parent, changes)
watch.look()
for _ in range(300):
    (folder / "lamp-boys").mkdir(parents=True)
    shutil.rmtree(folder)
folder.mkdir()
(folder / "guide.md").write_text("")
while "guides/guide.md" not in paths and changes.wait(patience):
    changes.settle()
    (folder / "guide.md").write_text("")
print("guides/guide.md" in paths)
watch.end()
"""
    done = subprocess.run(
        [sys.executable, "-c", program, str(tmp_path), str(PATIENCE / 2)],
        capture_output=True, text=True, timeout=PATIENCE, check=False,
    )  # fmt: skip
    assert (done.stdout, done.stderr) == ("True\n", "")
