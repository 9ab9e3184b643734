"""What editors are told: valid by the published meta-schema, true to our own reading, and quick to see a slip.

Judged by jsonschema, which holds the meta-schema of draft 2020-12 (json-schema.org).
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from support.content_folders import files_of
from support.every_key import CASE
from support.golden_cases import DIAGNOSTICS, cases_of, slug_of
from support.paths import CASES, CONTENT
from support.yaml_core_schema import as_an_editor_reads

from guidegen.base.codes import CODES
from guidegen.computing.guide.hazards import HAZARDS
from guidegen.model.technique import KNOWN_WORDS
from guidegen.reading.editing.editor_help import FOLDER, editor_files, line_for

SCHEMAS: dict[str, Any] = {
    Path(path).stem: json.loads(text)
    for path, text in editor_files(techniques=KNOWN_WORDS, hazards=HAZARDS).items()
}
JUDGES = {name: Draft202012Validator(schema) for name, schema in SCHEMAS.items()}
MESSAGES = CASES / "messages"

# Kinds of mistakes that can be seen in one file by the shape of its values; all others need more than that.
SEEN = {
    "bad-colour",
    "bad-duration",
    "merge-marker",
    "bad-value",
    "bad-yaml",
    "duplicate-key",
    "empty-value",
    "missing-key",
    "no-paint",
    "text-after-hash",  # in brackets, which are not closed then
    "unknown-key",
}


def kind_of(path: str) -> str | None:
    """Which schema is for a file of the content folder."""
    first = path.split("/", maxsplit=1)[0]
    if path.endswith((".yaml", ".yml")):
        return {"plans": "plan", "shared": "shared"}.get(first, first.partition(".")[0])
    return "guide" if first == "guides" and path.endswith(".md") else None


def refused(path: str, text: str) -> list[str]:
    """What an editor marks in a file."""
    kind = kind_of(path)
    if kind not in JUDGES:
        return []
    values = as_an_editor_reads(text)
    return [] if values is None else [error.message for error in JUDGES[kind].iter_errors(values)]


@pytest.mark.parametrize("name", SCHEMAS)
def test_each_is_valid_and_teaches(name: str):
    Draft202012Validator.check_schema(SCHEMAS[name])
    tables = [SCHEMAS[name], *SCHEMAS[name].get("$defs", {}).values()]
    for table in tables:
        assert table["additionalProperties"] is False
        assert table["description"].endswith(".")
        for key, value in table["properties"].items():
            said = value["description"]
            assert re.search(r"[.!] For example \w+: \S", said) or "For example" in said, (key, said)
            assert not re.search(r"\b(schema|parse|null|mapping|invalid)\b", said), (key, said)


def test_every_reference_leads_somewhere():
    for schema in SCHEMAS.values():
        for name in re.findall(r'"#/\$defs/([^"]+)"', json.dumps(schema)):
            assert name in schema["$defs"]


def test_the_demo_is_accepted():
    files = [path for path in (CONTENT).rglob("*") if path.suffix in {".yaml", ".md"}]
    judged = 0
    for file in files:
        path = file.relative_to(CONTENT).as_posix()
        judged += kind_of(path) is not None
        assert refused(path, file.read_text(encoding="utf-8")) == [], path
    assert judged > 10


def test_every_key_is_accepted():
    for path, data in files_of(CASE).items():
        if not path.endswith(".jpg"):
            assert refused(path, data.decode()) == [], path


def sections(slug: str) -> list[str]:
    """The faulty content of a message's case, and the sound."""
    case = (MESSAGES / f"{slug}.txt").read_text(encoding="utf-8")
    return re.findall(r"^=== content\n(.*?)^=== says\n", case, re.MULTILINE | re.DOTALL)


def marked(path: str, text: str) -> bool:
    """Whether an editor marks anything, be it that it cannot read the file at all."""
    import yaml

    try:
        return bool(refused(path, text))
    except yaml.YAMLError:
        return True


@pytest.mark.parametrize("slug", CODES)
def test_mistakes_that_can_be_seen_are_refused(slug: str):
    faulty, sound = (files_of(text) for text in sections(slug))
    texts = {path: data.decode() for path, data in faulty.items() if kind_of(path)}
    seen = any(marked(path, text) for path, text in texts.items())
    assert seen == (slug in SEEN)
    for path, data in sound.items():
        if kind_of(path):
            assert refused(path, data.decode()) == [], path


@pytest.mark.parametrize("path", sorted(DIAGNOSTICS.glob("*.txt")), ids=lambda path: path.stem)
def test_whatever_passes_is_accepted(path: Path):
    for case in cases_of(path):
        if case.title.startswith("passes") and not case.expected:
            for name, text in case.files.items():
                # Cases of reading alone leave out what the rules ask for.
                left = [said for said in refused(name, text) if said != "'paint' is a required property"]
                assert left == [], (slug_of(path), name)


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("palette.yaml", "paints: [{name: Oilskin Ochre, colur: b8862f}]"),
        ("palette.yaml", "paints: [{colour: b8862f}]"),
        ("palette.yaml", "paints: [{name: Oilskin Ochre, colour: b8862f, color: b8862f}]"),
        ("palette.yaml", "paints: [{name: Oilskin Ochre, colour: b8862f, kind: pant}]"),
        ("site.yaml", "format: 2"),
        ("plans/x.yaml", "title: X\nstart: 2026-06-01\nsittings: {sat: none}\nunits: []"),
        ("shared/x.yaml", "steps: [{stop: Here, paint: none}]"),
        ("guides/x.md", "---\ntitle: X\nsteps: [{step: Boards, paint: none, dry: {air: -1}}]\n---\n"),
    ],
)
def test_a_slip_is_refused(path: str, text: str):
    assert refused(path, text)


@pytest.mark.parametrize(
    ("path", "text"),
    [
        (
            "palette.yaml",
            "paints: [{name: 17, colour: 003366}, {name: Bare, colour: 1e5, kind: Shade, owned: yes}]",
        ),
        ("palette.yaml", "paints: [{name: Clear, kind: Medium}, {name: X, color: '#FFF', size: 400 ML}]"),
        ("palette.yaml", "mixes: [{name: Mud, parts: {Bare: 2, Clear: A touch}}]"),
        ("site.yaml", "title: 2026\nlanguage: no\ntokens: {t0: 1rem}\nformat: '1'"),
        (
            "shared/x.yaml",
            "steps: [{step: 1, paint: [a, 2], each: 30, dry: PT1H, once: 1.5 H, rest: On, photo: [a.jpg]}]",
        ),
        (
            "shared/x.yaml",
            "steps: [{step: a, paint: {a: 1}, instead: [{a: 1, b: 2}, {paint: a}], materials: cork}]",
        ),
        ("shared/x.yaml", "steps: [{step: a, paint: [a: 2, b: 1], each: half an hour, dry: none}]"),
        (
            "shared/x.yaml",
            "steps: [{step: a, paint: {a:2, b: 70%}, instead: [a + b, {paint: [a: 2, b: 1]}]}]",
        ),
        ("palette.yaml", "mixes: [{name: Mud, parts: a 2:1 b}, {name: Silt, parts: [a: 2, b: 1]}]"),
        (
            "site.yaml",
            "defaults: {technique: wash, dry: {air: 10-15 min}, holds: Area, brush: none, thin: 2:1 water}",
        ),
        (
            "guides/x.md",
            "---\ntitle: X\ndefaults: {dry: overnight, figures: 5}\nsteps: [{step: a, paint: a}]\n---\n",
        ),
    ],
)
def test_other_ways_to_type_it_are_accepted(path: str, text: str):
    assert refused(path, text) == []


def test_techniques_are_offered_and_others_accepted():
    step = SCHEMAS["shared"]["$defs"]["step"]["properties"]["technique"]
    assert "dry brush" in step["examples"]
    assert refused("shared/x.yaml", "steps: [{step: a, paint: none, technique: sponge}]") == []


def test_the_line_at_the_top():
    assert line_for("site", "site.yaml") == f"# yaml-language-server: $schema={FOLDER}/site.json\n"
    assert line_for("plan", "plans/x.yaml") == f"# yaml-language-server: $schema=../{FOLDER}/plan.json\n"
    assert f"=../../{FOLDER}/guide.json\n" in line_for("guide", "guides/x/guide.md")
