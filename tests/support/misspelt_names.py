"""Content with one name that may be misspelt."""

from __future__ import annotations

from pathlib import Path

from guidegen.reading.yaml.quoting import in_quotes


def laid_out(folder: Path, typed: str, *known: str) -> Path:
    """Content with a palette and a guide that paints with one name."""
    content = folder / "content"
    (content / "guides").mkdir(parents=True, exist_ok=True)
    paints = "".join(f"  - {{name: {in_quotes(name)}, colour: b8862f}}\n" for name in known)
    (content / "palette.yaml").write_text(f"paints:\n{paints}", encoding="utf-8")
    step = f"{{step: A, area: a, paint: {in_quotes(typed)}, each: 1}}"
    (content / "guides" / "a.md").write_text(f"---\ntitle: A\nsteps: [{step}]\n---\n", encoding="utf-8")
    return content
