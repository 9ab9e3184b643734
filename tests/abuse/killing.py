"""Kills real builds at moments spread over their work, and looks at the site that is left each time.

    python tests/abuse/killing.py --moments 200

Each build goes from one archive to another in which guides came, went, were renamed and edited. A measured build of
the same edit tells how long it reads, how long it writes beside the site, and how long it moves files into place; the
moments are spread over each of the three, and counted from the sign on the disk that it began. Prints how many kills
met the site untouched, with new files beside it, in motion, and done.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.content_folders import bytes_of
from support.edited_archive import begun, built, write_guide

MANIFEST = ".guidegen-manifest.json"
STAGING = ".guidegen-new"


def before(content: Path) -> Path:
    """Five guides that link each other."""
    begun(content, guides=5)
    for number, (name, see) in enumerate((("lamp-boys", "toll-house"), ("toll-house", "lamp-boys"))):
        write_guide(content, name, number, see=see)
    return content


def after(content: Path) -> Path:
    """One guide gone, one renamed, one new, two edited; each links to one of the others."""
    before(content)
    guides = content / "guides"
    shutil.rmtree(guides / "eel-seller")
    (guides / "toll-house").rename(guides / "sluice-house")
    write_guide(content, "sluice-house", 1, see="lock-keeper")
    write_guide(content, "lock-keeper", 6, see="sluice-house")
    write_guide(content, "lamp-boys", 2, title="Lamp boys of the weir", see="lock-keeper")
    write_guide(content, "ferry-watch", 4, title="The ferry watch at night", see="lock-keeper")
    return content


def faults(site: Path) -> list[str]:
    """Pages that are not whole, and local links that lead nowhere."""
    found = []
    for page in sorted(site.rglob("*.html")):
        text = page.read_text(encoding="utf-8")
        name = page.relative_to(site).as_posix()
        if not text.rstrip().endswith("</html>"):
            found.append(f"{name} is not whole")
        if name == "404.html":  # served at any address, so its links start at the site's
            continue
        for link in links(text):
            target = link.partition("#")[0].partition("?")[0]
            if target and ":" not in target and not (page.parent / target).exists():
                found.append(f"{name} links to {link}, which is not there")
    return found


def links(text: str) -> list[str]:
    """Everything that a page of ours leads to or fetches: our templates quote every value."""
    found = re.findall(r'\s(?:href|src)="([^"]*)"', text)
    for several in re.findall(r'\ssrcset="([^"]*)"', text):
        found += [one.split()[0] for one in several.split(",") if one.strip()]
    return found


class Ground:
    """Two archives, their sites, and a cache that has every photo, so that a build is all about pages."""

    def __init__(self, at: Path) -> None:
        """Build both."""
        self.at = at
        self.old, self.new = before(at / "old"), after(at / "new")
        for name in ("old", "new"):
            self.build(at / name, at / f"{name}-site").check_returncode()
        self.sites = [bytes_of(at / "old-site"), bytes_of(at / "new-site")]

    def command(self, content: Path, out: Path) -> list[str]:
        """A build as anybody starts it."""
        places = ["--content", str(content), "--out", str(out), "--cache", str(self.at / "cache")]
        return [sys.executable, "-m", "guidegen", "build", *places]

    def build(self, content: Path, out: Path) -> subprocess.CompletedProcess[bytes]:
        """One that may end."""
        return subprocess.run(self.command(content, out), capture_output=True, check=False)

    def laid(self, name: str) -> Path:
        """The old site once more, in a folder of its own."""
        out = self.at / name
        shutil.rmtree(out, ignore_errors=True)
        shutil.copytree(self.at / "old-site", out)
        return out

    def start(self, out: Path) -> subprocess.Popen[bytes]:
        """The build of the new archive over the old one's site, at work."""
        silent = subprocess.DEVNULL
        return subprocess.Popen(self.command(self.new, out), stdout=silent, stderr=silent)

    def signs(self, out: Path) -> tuple[Callable[[], bool], ...]:
        """What tells from outside that a build began, writes beside the site, and moves files into place."""
        manifest = out / MANIFEST
        begun = manifest.stat().st_ino
        return lambda: True, (out / STAGING).exists, lambda: _number(manifest) not in {0, begun}

    def measured(self) -> list[float]:
        """How many seconds each of the three takes."""
        out = self.laid("measured")
        signs = self.signs(out)
        building = self.start(out)
        seen = []
        for sign in signs:
            _wait(sign, building)
            seen.append(time.monotonic())
        _wait(lambda: not (out / STAGING).exists(), building)
        seen.append(time.monotonic())
        building.wait()
        return [after - before for before, after in pairwise(seen)]

    def killed(self, part: int, seconds: float) -> str:
        """Kill a build so long after one of its parts began, and let the next one heal the site: what it had come to.

        AssertionError where a page is not whole, a link leads nowhere, or the next build comes out otherwise.
        """
        out = self.laid("killed")
        sign = self.signs(out)[part]
        building = self.start(out)
        _wait(sign, building)
        # The moments within a part are closer than the system's own sleep can tell.
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            pass
        building.send_signal(signal.SIGKILL)
        building.wait()
        found = faults(out)
        assert not found, found
        came_to = self._came_to(bytes_of(out))
        healed = built(self.new, out, self.at / "cache")
        assert healed.counts is not None, healed.diagnostics
        assert bytes_of(out) == self.sites[1], f"not healed, {seconds:.3f} s after part {part} began"
        assert not (out / STAGING).exists()
        return came_to

    def _came_to(self, now: dict[str, bytes]) -> str:
        here = {path: data for path, data in now.items() if not path.startswith(STAGING)}
        if here == self.sites[0]:
            return "untouched" if here == now else "beside the site"
        return "done" if now == self.sites[1] else "in motion"


def _number(file: Path) -> int:
    try:
        return file.stat().st_ino
    except FileNotFoundError:
        return 0


def _wait(sign: Callable[[], bool], building: subprocess.Popen[bytes]) -> None:
    while not sign() and building.poll() is None:
        os.sched_yield()


def kill_at(ground: Ground, moments: int) -> Counter[str]:
    """Kill at so many moments: a fifth while it reads, two while it writes, two while it moves."""
    lasting = ground.measured()
    early = moments // 5
    counts = (early, (moments - early) // 2, moments - early - (moments - early) // 2)
    return Counter(
        ground.killed(part, lasting[part] * n / count)
        for part, count in enumerate(counts)
        for n in range(count)
    )


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--moments", type=int, default=200)
    moments = asked.parse_args().moments
    with tempfile.TemporaryDirectory() as folder:
        came_to = kill_at(Ground(Path(folder)), moments)
    print(f"{moments} kills, every page whole and every link good, every next build to the exact bytes:")
    for what, count in came_to.most_common():
        print(f"  {count:4} {what}")


if __name__ == "__main__":
    main()
