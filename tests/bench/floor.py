"""The least that building an archive can take: the bare library calls for the same work, as well as they can be called.

    python tests/bench/floor.py CONTENT OUT

Each photo is read and decoded once, at the smallest scale that will do, shrunk in a cascade, and encoded in both formats, on
all cores; each guide's front matter and text go through the YAML and Markdown libraries, its pages through a template of
about the same size as ours, and the files are written. Nothing is checked, computed, cached, or made safe.
"""

from __future__ import annotations

import os
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

WIDTHS = (1600, 960, 480)
# The qualities that the site's own photos are encoded with.
JPEG = {"quality": 82}
WEBP = {"quality": 78, "method": 2}


def photo(file: Path, out: Path) -> None:
    """One photo in all sizes and both formats."""
    from PIL import Image

    with Image.open(file) as opened:
        opened.draft("RGB", (WIDTHS[0], WIDTHS[0]))
        image = opened.convert("RGB")
    name = f"{file.parent.name}-{file.stem}"
    widths = [width for width in WIDTHS if width < image.width]
    for width in [min(image.width, WIDTHS[0]), *(w for w in widths if w != WIDTHS[0])]:
        if width != image.width:
            image = image.resize((width, round(image.height * width / image.width)), Image.Resampling.LANCZOS)
        image.save(out / f"{name}-{width}.jpg", "JPEG", **JPEG)
        image.save(out / f"{name}-{width}.webp", "WEBP", **WEBP)


def guide(file: Path, out: Path, template, bench) -> None:
    """One guide: its page, its bench and four small files."""
    import yaml
    from markdown_it import MarkdownIt

    _, front, text = file.read_text(encoding="utf-8").split("---\n", 2)
    given = yaml.load(front, getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    body = MarkdownIt().render(text)
    folder = out / "guides" / file.parent.name
    folder.mkdir(parents=True)
    for name, made in (("index.html", template), ("bench.html", bench)):
        (folder / name).write_text(made.render(guide=given, body=body), encoding="utf-8")
    for name in ("guide.json", "materials.csv", "palette.gpl", "paints.txt", "chapters.vtt"):
        (folder / name).write_text(repr(given), encoding="utf-8")


# A list of steps with half a dozen parts each, and a loop over paints: what pages of guides are made of.
PAGE = """<!doctype html><html lang=en><head><title>{{ guide.title }}</title></head><body><h1>{{ guide.title }}</h1>
{% for step in guide.steps %}<section><h2>{{ step.step }}</h2><dl>{% for key, value in step.items() %}
<dt>{{ key }}</dt><dd>{{ value }}</dd>{% endfor %}</dl>{% for area in guide.steps %}<i>{{ area.area }}</i>{% endfor %}
</section>{% endfor %}{{ body|safe }}</body></html>
"""


def main() -> None:
    from jinja2 import Environment

    content, out = map(Path, sys.argv[1:3])
    start = time.perf_counter()
    photos = out / "assets" / "photos"
    photos.mkdir(parents=True)
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    with ThreadPoolExecutor(cores) as pool:
        list(pool.map(lambda file: photo(file, photos), sorted(content.rglob("*.jpg"))))
    done = time.perf_counter()
    template = Environment(autoescape=True).from_string(PAGE)
    for file in sorted(content.glob("guides/*/guide.md")):
        guide(file, out, template, template)
    end = time.perf_counter()
    print(f"{done - start:.3f} {end - done:.3f}")


if __name__ == "__main__":
    main()
