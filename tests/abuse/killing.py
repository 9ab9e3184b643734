"""Kills real builds at moments spread over their work, and looks at the site that is left each time.

    python tests/abuse/killing.py --moments 200

Each build goes from one archive to another in which guides came, went, were renamed and edited. It is killed after a
share of the time that a build of the same edit took; the moments are spread evenly, and looked for once more where
a build was over before. Prints how many kills met the site untouched, in motion and done.
"""

from __future__ import annotations

import argparse
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bs4 import BeautifulSoup
from folders import bytes_of
from growing import begun, write_guide

MANIFEST = ".guidegen-manifest.json"


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
        for tag in BeautifulSoup(text, "html.parser").find_all(["a", "link", "script", "img", "source"]):
            typed = [
                tag.get("href"),
                tag.get("src"),
                *(one.split()[0] for one in str(tag.get("srcset") or "").split(", ") if one),
            ]
            for link in filter(None, map(str, filter(None, typed))):
                target = link.partition("#")[0].partition("?")[0]
                if target and ":" not in target and not (page.parent / target).exists():
                    found.append(f"{name} links to {link}, which is not there")
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

    def measured(self) -> tuple[float, float]:
        """Seconds until the first sign of work on the site, and until the end; the shorter of two runs."""
        runs = []
        for _ in range(2):
            out = self.laid("measured")
            start = time.monotonic()
            building = subprocess.Popen(
                self.command(self.new, out), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
            )
            first = None
            while building.poll() is None:
                if first is None and (out / ".guidegen-new").exists():
                    first = time.monotonic() - start
                time.sleep(0.001)
            whole = time.monotonic() - start
            runs.append((whole, first or whole / 2))
        whole, first = min(runs)
        return first, whole

    def killed(self, seconds: float, name: str = "killed") -> str:
        """Kill a build so long after its start; what it had come to. AssertionError where the site is not whole."""
        out = self.laid(name)
        building = subprocess.Popen(
            self.command(self.new, out), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        time.sleep(seconds)
        building.send_signal(signal.SIGKILL)
        ended = building.wait() != -signal.SIGKILL
        found = faults(out)
        assert not found, found
        now = bytes_of(out)
        came_to = self._came_to(now, ended=ended)
        healed = self.build(self.new, out)
        assert healed.returncode == 0, healed.stderr.decode()
        assert bytes_of(out) == self.sites[1], f"not healed after {seconds:.3f} s"
        assert not (out / ".guidegen-new").exists()
        return came_to

    def _came_to(self, now: dict[str, bytes], *, ended: bool) -> str:
        if ended:
            return "over"
        if now == self.sites[0]:
            return "untouched"
        if now == self.sites[1]:
            return "done"
        return "in motion" if now[MANIFEST] != self.sites[0][MANIFEST] else "beside the site"


def kill_at(ground: Ground, moments: int) -> Counter[str]:
    """Kill at so many moments: a fifth over the reading, the rest over the work on the site."""
    first, whole = ground.measured()
    early = moments // 5
    late = moments - early
    shares = [first * n / early for n in range(early)]
    shares += [first + (whole - first) * n / late for n in range(late)]
    return Counter(ground.killed(seconds) for seconds in shares)


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
