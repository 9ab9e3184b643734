"""The judges that run as programs: the Nu HTML checker, Lighthouse, Firefox, and types for structured data.

Each gives what it is (with its version), how much it looked at, and what it finds wrong, [] if nothing.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

from host import served

HERE = Path(__file__).parent
BROWSERS = ("chromium", "google-chrome", "chrome", "msedge")
FLAGS = "--headless --no-sandbox --disable-gpu --disable-dev-shm-usage"
DATA = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one judge says."""

    judge: str
    looked_at: str
    wrong: tuple[str, ...]


def version_of(tools: Path, package: str) -> str:
    """The installed version of one of the tools."""
    return json.loads((tools / "node_modules" / package / "package.json").read_text("utf-8"))["version"]


def nu(tools: Path, site: Path) -> Finding:
    """The Nu HTML checker over every page, style and drawing; errors only."""
    files = sorted(path for kind in ("html", "css", "svg") for path in site.rglob(f"*.{kind}"))
    jar = tools / "node_modules/vnu-jar/build/dist/vnu.jar"
    how = ["--errors-only", "--also-check-css", "--also-check-svg", "--format", "json", "--stdout"]
    told = subprocess.run(
        ["java", "-jar", jar, *how, *files], capture_output=True, text=True, check=False
    ).stdout
    wrong = [
        f"{Path(message['url']).name}:{message.get('lastLine', '')} {message['message']}"
        for message in json.loads(told)["messages"]
    ]
    return Finding(
        judge=f"Nu HTML checker {version_of(tools, 'vnu-jar')}",
        looked_at=f"{len(files)} files of HTML, CSS and SVG",
        wrong=tuple(wrong),
    )


def lighthouse(tools: Path, site: Path, pages: tuple[str, ...]) -> list[Finding]:
    """Lighthouse's four scores of each page, served; anything under 100 is told with its reasons."""
    browser = next((found for name in BROWSERS if (found := shutil.which(name))), "")
    findings = []
    with served(site) as address:
        for page in pages:
            command = [
                tools / "node_modules/.bin/lighthouse", address + page,
                "--output=json", "--quiet", f"--chrome-flags={FLAGS}",
            ]  # fmt: skip
            told = subprocess.run(
                command,
                capture_output=True,
                text=True,
                check=True,
                env={**os.environ, "CHROME_PATH": browser},
            ).stdout
            report = json.loads(told)
            scores = {each["title"]: round(100 * each["score"]) for each in report["categories"].values()}
            wrong = []
            for category in report["categories"].values():
                if category["score"] == 1:
                    continue
                weighty = {each["id"] for each in category["auditRefs"] if each["weight"]}
                low = [
                    f"{audit['title']} {audit.get('displayValue', '')}".strip()
                    for key, audit in report["audits"].items()
                    if key in weighty and audit["score"] is not None and audit["score"] < 1
                ]
                wrong.append(f"{category['title']} {100 * category['score']:.0f}: {'; '.join(low)}")
            findings.append(
                Finding(
                    judge=f"Lighthouse {report['lighthouseVersion']}",
                    looked_at=f"{page}: "
                    + ", ".join(f"{name} {score}" for name, score in scores.items())
                    + f"; benchmark index {report['environment']['benchmarkIndex']:.0f}",
                    wrong=tuple(wrong),
                )
            )
    return findings


def firefox(tools: Path, site: Path, guide: str) -> Finding | None:
    """Firefox opens the site from the disk and ticks a step; None where it is not installed."""
    browser = shutil.which("firefox-esr") or shutil.which("firefox")
    if not browser:
        return None
    told = subprocess.run(
        ["node", HERE / "firefox.js", tools, browser, site, guide], capture_output=True, text=True, check=True
    ).stdout
    result = json.loads(told)
    return Finding(
        judge=result["version"].capitalize(),
        looked_at=f"{result['pages']} pages from the disk, a tick kept over a reload, one figure more",
        wrong=tuple(result["wrong"]),
    )


def structured_data(tools: Path, site: Path) -> Finding:
    """Every block of JSON-LD, typed as schema.org's HowTo."""
    found = {
        str(page.relative_to(site)): json.loads(data)
        for page in sorted(site.rglob("*.html"))
        for data in DATA.findall(page.read_text("utf-8"))
    }
    work = tools / "typed"
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir()
    lines = ['import type { HowTo, WithContext } from "schema-dts";']
    lines += [
        f"export const page{n}: WithContext<HowTo> = {json.dumps(data)};"
        for n, data in enumerate(found.values())
    ]
    (work / "typed.ts").write_text("\n".join(lines), "utf-8")
    told = subprocess.run(
        [
            tools / "node_modules/.bin/tsc", "--noEmit", "--strict", "--skipLibCheck",
            "--target", "es2022", "--module", "nodenext", "--moduleResolution", "nodenext", work / "typed.ts",
        ],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    wrong = [] if found else ["no page has structured data"]
    if told.returncode:
        wrong += told.stdout.strip().splitlines()[:20]
    return Finding(
        judge=f"schema-dts {version_of(tools, 'schema-dts')}, TypeScript {version_of(tools, 'typescript')}",
        looked_at=f"structured data of {len(found)} pages",
        wrong=tuple(wrong),
    )
