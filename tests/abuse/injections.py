"""What a hostile author writes: text, Markdown, drawings, addresses and file names that try to become code.

Each of TEXTS stands in every field of text that there is, once: in a guide of its own, a plan, a shared list, a range, a
paint and a mixture. The rest stands where it belongs. `lay_out` writes all of it as one content folder, and
`python tests/abuse/injections.py` counts it. Whatever gets through calls `tripped()` or asks something of OUTSIDE.
"""

from __future__ import annotations

import io
import json
import shutil
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from abuse.injected_texts import MARKDOWN, OUTSIDE, REFUSED, RUNS, TEXTS
from abuse.injected_values import ADDRESSES, CHARTS, FILES, STYLES, TYPED, TYPED_IN_STEPS

# Every so many guides have a chart, and variants whose names are the text as well.
VARIED = 6


def guide_of(text: str, paint: str, mix: str, shared: str) -> dict[str, Any]:
    """A guide that says `text` wherever it may."""
    return {
        "title": text,
        "summary": text,
        "author": text,
        "credit": text,
        "licence": text,
        "video": f"{OUTSIDE}/film",
        "date": "2026-03-14",
        "tags": [text, "x"],
        "figures": 5,
        "cover": {"file": "photo.jpg", "alt": text, "caption": text},
        "figure": "watchman",
        "materials": [text, {"name": f"{text} 2", "for": text, "amount": text, "cautions": [text]}],
        "tools": [text, {"name": f"{text} 2", "for": text, "cautions": [text]}],
        "reference": [
            {"file": "photo.jpg", "alt": text, "source": text, "swatches": [{"name": text, "colour": "b86"}]}
        ],
        "made": [{"date": "2025-11-08", "figures": 6, "note": text}],
        "leave": [f"{text} left"],
        "choose": {text: ["plain", text]},
        "steps": [
            {
                "step": text,
                "technique": text,
                "area": [text, "coat"],
                "paint": {paint: 2, mix: 1},
                "once": "1 min",
                "each": "2 min",
                "dry": "5 min",
                "brush": text,
                "thin": text,
                "instead": [{"paint": mix, "note": text}],
                "photo": [{"file": "photo.jpg", "alt": text, "caption": text}],
                "at": "0:10",
                "mind": text,
                "look_for": text,
                "if_wrong": text,
                "spots": text,
                "stray": [text],
                "materials": [{"name": text, "for": text, "amount": text, "cautions": [text]}],
                "tools": [text],
            },
            {"stop": text},
            {"step": f"{text} only", "paint": paint, "area": "coat", "each": "1 min", "only": {text: text}},
            {"insert": shared},
        ],
    }


def lay_out(content: Path) -> Path:
    """Write the whole corpus as a content folder."""
    photo = _photo()
    _write(content / "site.yaml", site_of("".join(RUNS[1:6]), f"{OUTSIDE}/club"))
    ranges, paints, mixes = _palette()
    _write(content / "palette.yaml", {"ranges": ranges, "paints": paints, "mixes": mixes})
    for number, text in enumerate(TEXTS):
        name = f"text-{number:02}"
        guide = guide_of(text, str(paints[number]["name"]), str(mixes[number]["name"]), name)
        if number % VARIED:
            _made_short(guide)
        _guide(content, name, guide, f"{text}\n\n## {_line(text)}\n\n{text}\n\n## Other\n\n{text}\n", photo)
        step = {"step": f"{text} shared", "paint": "none", "mind": text, "spots": text, "materials": [text]}
        _write(content / "shared" / f"{name}.yaml", {"steps": [step]})
        unit = {"guide": name, "figures": 3, "to": text} | (
            {} if number % VARIED else {"choose": {text: text}}
        )
        sittings = {"mon-fri": "20:00-22:00"}
        plan = {"title": text, "start": "2026-06-01", "sittings": sittings, "units": [unit]}
        _write(content / "plans" / f"{name}.yaml", plan)
    for number, text in enumerate(MARKDOWN):
        _guide(
            content,
            f"markdown-{number:02}",
            _plain(f"Markdown {number}"),
            f"{text}\n\n## One\n\n{text}\n",
            photo,
        )
    for number, text in enumerate(CHARTS):
        _guide(content, f"chart-{number:02}", _plain(f"Chart {number}"), "", photo)
        (content / "guides" / f"chart-{number:02}" / "figure.svg").write_text(text, encoding="utf-8")
    for number, text in enumerate(ADDRESSES):
        _guide(content, f"address-{number:02}", _plain(f"Address {number}") | {"video": text}, "", photo)
    for number, text in enumerate(FILES):
        shown = {"cover": {"file": text, "alt": text}}
        name = f"file-{number:02}"
        _guide(content, name, _plain(f"File {number}") | shown, f"![x](<{text}>)\n", photo)
        if "/" not in text:
            shutil.copy(content / "guides" / name / "photo.jpg", content / "guides" / name / text)
    return content


def site_of(text: str, url: str, tokens: Mapping[str, str] | None = None) -> dict[str, Any]:
    """A site.yaml that says `text` wherever it may."""
    return {"title": text, "author": text, "url": url, "tokens": dict(tokens or {})}


def mistaken(content: Path) -> int:
    """Write a content folder where values of other kinds than text are texts; how many of them."""
    typed = [(key, text) for key in TYPED for text in TEXTS[:4]]
    in_steps = [(key, text) for key in TYPED_IN_STEPS for text in TEXTS[:4]]
    for number, (key, text) in enumerate(typed):
        _guide(content, f"typed-{number:02}", _plain("Typed") | {key: text, text: "x"}, "", None)
    for number, (key, text) in enumerate(in_steps):
        guide = _plain("Typed")
        guide["steps"][0] |= {key: text, "paint": text}
        _guide(content, f"step-{number:02}", guide, "", None)
    paint = {
        "name": "Ochre",
        "colour": TEXTS[0],
        "hazards": [TEXTS[1]],
        "size": TEXTS[2],
        "twin_of": TEXTS[3],
    }
    _write(content / "palette.yaml", {"paints": [paint]})
    return len(typed) + len(in_steps) + 4


def _palette() -> tuple[dict[str, Any], list[dict[str, Any]], list[dict[str, Any]]]:
    ranges, paints, mixes = {}, [], []
    for number, text in enumerate(TEXTS):
        # A range's name and a paint's are told apart by a slash between blanks; the texts have none.
        ranges[f"{_line(text)} {number}"] = {"size": "17 ml", "price": 2.8, "thinner": text, "note": text}
        paints.append(
            {
                "name": f"{_line(text)} {number}p",
                "range": f"{_line(text)} {number}",
                "code": f"{text}{number}c",
                "edition": text,
                "aliases": [f"{_line(text)} {number}a"],
                "kind": ("paint", "wash", "metallic")[number % 3],
                "colour": f"#{number:02x}80{255 - number:02x}",
                "note": text,
                "owned": number % 2,
                "discontinued": "yes" if number % 5 == 0 else "no",
            }
        )
        parts = {paints[number]["name"]: 2, paints[number - 1 if number else 0]["name"]: 1}
        mixes.append(
            {
                "name": f"{_line(text)} {number}m",
                "parts": parts,
                "note": text,
                "credit": text,
                "aliases": [f"{_line(text)} {number}n"],
            }
        )
    return ranges, paints, mixes


def _made_short(guide: dict[str, Any]) -> None:
    """Without variants, which make two pages more each, and without a chart."""
    del guide["choose"], guide["steps"][2]["only"], guide["figure"]


def _plain(title: str) -> dict[str, Any]:
    return {"title": title, "steps": [{"step": "One", "paint": "none", "area": "coat", "each": "1 min"}]}


def _line(text: str) -> str:
    return " ".join(text.split())


def _guide(content: Path, name: str, front: Mapping[str, Any], body: str, photo: bytes | None) -> None:
    folder = content / "guides" / name
    folder.mkdir(parents=True)
    (folder / "guide.md").write_text(f"---\n{_yaml(front)}\n---\n{body}", encoding="utf-8", newline="")
    if photo is not None:
        (folder / "photo.jpg").write_bytes(photo)


def _write(file: Path, data: Mapping[str, Any]) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(_yaml(data), encoding="utf-8")


def _yaml(data: Mapping[str, Any]) -> str:
    """JSON, which is YAML as well; on lines of its own, so that each value has a place."""
    return json.dumps(data, indent=1)


def _photo() -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (640, 480), (108, 115, 122)).save(out, "JPEG")
    return out.getvalue()


def cases() -> Iterator[tuple[str, int]]:
    """How much of each there is."""
    yield "texts, each in every field", len(TEXTS)
    yield "texts that are refused", len(REFUSED)
    yield "Markdown", len(MARKDOWN)
    yield "drawings", len(CHARTS)
    yield "addresses", len(ADDRESSES)
    yield "styles", len(STYLES)
    yield "file names", len(FILES)


if __name__ == "__main__":
    for what, many in cases():
        print(f"{many:4} {what}")
    print(f"{sum(many for _, many in cases()):4} in all")
