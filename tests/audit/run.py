"""Has the demo site judged by tools that are no dependencies of guidegen: `python tests/audit/run.py`.

Needs Node, Java and npm; `--install` brings Firefox and WebKitGTK on Debian, as root. Prints a table in Markdown, then
what is wrong, and ends with 1 if anything is.
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from judges import Finding, firefox, lighthouse, nu, structured_data
from webkit import opened_by_webkit

HERE = Path(__file__).parent
CONTENT = HERE.parents[1] / "content"
GUIDE = "ferry-watch"
PAGES = ("index.html", f"guides/{GUIDE}/index.html", "paints/index.html", f"guides/{GUIDE}/bench.html")
DEBIAN = ("firefox-esr", "webkit2gtk-driver", "xvfb", "xauth")


def tools_at_hand() -> Path:
    """The folder with the judges, installed by npm once."""
    caches = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    tools = caches / "guidegen-audit"
    tools.mkdir(parents=True, exist_ok=True)
    wanted = (HERE / "package.json").read_text("utf-8")
    package = tools / "package.json"
    if not package.is_file() or package.read_text("utf-8") != wanted:
        shutil.rmtree(tools / "node_modules", ignore_errors=True)
        package.write_text(wanted, "utf-8")
        subprocess.run(["npm", "install", "--silent", "--no-audit", "--no-fund"], cwd=tools, check=True)
    return tools


def judged(site: Path, tools: Path) -> list[Finding]:
    """What every judge says of a site."""
    findings = [nu(tools, site), *lighthouse(tools, site, PAGES)]
    findings.append(
        firefox(tools, site, GUIDE) or Finding(judge="Firefox", looked_at="not installed", wrong=())
    )
    webkit = opened_by_webkit(site, GUIDE)
    if webkit is None:
        findings.append(Finding(judge="WebKitGTK", looked_at="not installed", wrong=()))
    else:
        version, wrong = webkit
        findings.append(
            Finding(
                judge=f"WebKitGTK, {version}",
                looked_at="6 pages from the disk, a tick kept over a reload, one figure more",
                wrong=tuple(wrong),
            )
        )
    findings.append(structured_data(tools, site))
    return findings


def main() -> int:
    """Build the demo, have it judged, print the table."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--install", action="store_true", help="install Firefox and WebKitGTK with apt-get")
    asked.add_argument("--site", type=Path, help="judge this built site instead of the demo")
    options = asked.parse_args()
    if options.install:
        subprocess.run(["apt-get", "install", "--yes", "--quiet", *DEBIAN], check=True)
    tools = tools_at_hand()
    with tempfile.TemporaryDirectory() as scratch:
        site = options.site or Path(scratch) / "site"
        if not options.site:
            subprocess.run(
                [sys.executable, "-m", "guidegen", "build", "--content", CONTENT, "--out", site],
                check=True, stdout=subprocess.DEVNULL,
            )  # fmt: skip
        findings = judged(site.resolve(), tools)
    print("| judge | looked at | wrong |\n|---|---|---:|")
    for finding in findings:
        print(f"| {finding.judge} | {finding.looked_at} | {len(finding.wrong)} |")
    for finding in findings:
        for what in finding.wrong:
            print(f"\n{finding.judge}: {what}")
    return 1 if any(finding.wrong for finding in findings) else 0


if __name__ == "__main__":
    sys.exit(main())
