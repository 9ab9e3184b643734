"""The file of a guide out of a draft: front matter that builds at once, the text, and comments where there is doubt."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain, count

from guidegen.base.suggest import folded
from guidegen.base.units import SECOND, print_clock
from guidegen.reading.drafts.amounts import written_time
from guidegen.reading.drafts.areas import ALL
from guidegen.reading.drafts.records import Draft, DraftStep, DraftStop
from guidegen.reading.drafts.step_places import same_noun
from guidegen.reading.paint_lists.rows import tidy
from guidegen.reading.types.amounts import measure_of
from guidegen.reading.yaml.quoting import typed
from guidegen.words.language import language_of

# Sentences of a step's text; what else was said becomes a comment of so many letters at most.
MOST_SENTENCES = 3
_LONGEST_REMARK = 160
_LONGEST_REST = 480


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What stands above the steps. `language` is '' where the site's is meant, `figure` a chart that comes along."""

    title: str
    date: str
    language: str = ""
    figure: str = ""
    remarks: tuple[str, ...] = ()


def guide_text(draft: Draft, heading: Heading, alts: Mapping[str, str] | None = None) -> str:
    """The text of guide.md; `alts` are drafted descriptions of photos by file."""
    give_titles(draft)
    lines = [
        "---",
        f"title: {_text(heading.title)}",
        "draft: yes  # take this line out once you have read it through",
        f"date: {heading.date}",
    ]
    if heading.language:
        lines.append(f"language: {heading.language}")
    if heading.figure:
        lines.append(f"figure: {heading.figure}")
    who, others = ("Figur", "übrige") if draft.language == "de" else ("figure", "others")
    some = list(dict.fromkeys(step.only for step in draft.steps if step.only))
    if some:  # the first is what the page shows: whoever gets all of it
        lines.append(f"choose: {{{who}: {_flow([*some, others])}}}")
    lines += [_remark(line) for line in (*heading.remarks, *draft.remarks)]
    lines.append("steps:" if draft.entries else "steps: []")
    for entry in draft.entries:
        lines += _stop(entry) if isinstance(entry, DraftStop) else _step(entry, alts or {}, who)
    lines += ["---", *_body(draft)]
    return "\n".join(lines) + "\n"


def give_titles(draft: Draft) -> None:
    """Titles for steps that have none, each another: the area, with the technique unless it is a base coat."""
    _tidy_areas(draft)
    language = language_of(draft.language)
    titles = Counter(folded(step.title) for step in draft.steps)
    for step in draft.steps:  # a table's “base coat” in row after row
        if step.title and titles[folded(step.title)] > 1 and set(step.areas) - {ALL}:
            step.title = f"{step.title}: {', '.join(step.areas[:3])}"
    used = {folded(step.title) for step in draft.steps if step.title}
    for step in draft.steps:
        if step.title:
            continue
        areas = ", ".join(area for area in step.areas[:3] if area != "all")
        key = "base coat" if step.technique == "tidy up" else step.technique
        name = language.phrases.get(f"technique.name.{key}", key)
        if step.technique == "tidy up":
            name = "Ausbessern" if draft.language == "de" else "Tidy up"
        name = name if isinstance(name, str) else key
        plain = areas if step.technique == "base coat" else f"{name}: {areas}"
        paints = " + ".join(step.paints)
        choices = (
            plain if areas else "" if step.technique == "base coat" else name,
            f"{areas or name}: {paints}",
            paints,
        )
        numbered = (f"{areas or name} ({n})" for n in count(2))
        step.title = next(
            title
            for one in chain(choices, numbered)
            if (title := _capital(one)) and folded(title) not in used and title.strip(": ")
        )
        used.add(folded(step.title))


def _tidy_areas(draft: Draft) -> None:
    """One word for each area, that of the step which first named it: coats, and later the coat; German ones as nouns."""
    known: list[str] = []
    german = draft.language == "de"
    for step in draft.steps:
        named = [area if area == ALL or not german else _capital(area) for area in step.areas]
        forms = (next((one for one in known if _same_area(one, area, german=german)), area) for area in named)
        step.areas = list(dict.fromkeys(forms))
        known += [area for area in step.areas if area not in known]


def _same_area(one: str, other: str, *, german: bool) -> bool:
    short, long = sorted((one, other), key=len)
    return same_noun(one, other) if german else long in {short, f"{short}s", f"{short}es"}


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _stop(stop: DraftStop) -> Iterator[str]:
    yield f"  - stop: {_text(stop.name)}"
    if stop.said and stop.said != stop.name:
        yield f"    {_remark(f'said: {stop.said}')}"


def _step(step: DraftStep, alts: Mapping[str, str], who: str) -> Iterator[str]:
    yield f"  - step: {_text(step.title)}"
    yield f"    technique: {_text(step.technique or 'base coat')}"
    areas = step.areas or ["all"]
    if areas != ["all"]:
        yield f"    area: {_text(areas[0]) if len(areas) == 1 else _flow(areas)}"
    for name, amount in step.parts.items():
        if measure_of(amount) is None:
            step.parts[name] = "1"
            step.doubts.append(f"parts as told: {amount} of {name}")
    yield f"    paint: {_paint(step)}"
    for remark in dict.fromkeys(step.doubts):
        yield f"    {_remark(remark)}"
    if step.instead:
        yield f"    instead: [{', '.join(map(_instead, step.instead))}]"
    yield from _details(step, who)
    yield from _photos(step, alts)
    _, rest = _sentences(step)
    if rest:
        yield f"    {_remark('also said: ' + ' '.join(rest), _LONGEST_REST)}"


def _details(step: DraftStep, who: str) -> Iterator[str]:
    for key, value in (("brush", step.brush), ("thin", step.thin)):
        if value:
            yield f"    {key}: {_text(value)}"
    if step.each:
        yield f"    each: {written_time(step.each)}"
    if step.coats > 1:
        yield f"    coats: {step.coats}"
    if step.dry and step.warm:
        yield f"    dry: {{air: {written_time(step.dry)}, warm: {written_time(step.warm)}}}"
    elif step.dry:
        yield f"    dry: {written_time(step.dry)}"
    elif step.warm:
        yield f"    # {written_time(step.warm)} with a hair dryer; how long in the air was not said"
    if step.at is not None:
        yield f'    at: "{print_clock(step.at // SECOND * SECOND)}"'
    for key, sentences in (("mind", step.mind), ("look_for", step.look_for), ("if_wrong", step.if_wrong)):
        if sentences:
            yield f"    {key}: {_text(' '.join(sentences))}"
    if step.spots:
        yield f"    spots: {_text(', '.join(step.spots))}"
    if step.stray:
        yield f"    stray: {_flow(step.stray)}"
    if step.optional:
        yield "    optional: yes"
    if step.only:
        yield f"    only: {{{who}: {_text(step.only)}}}"


def _photos(step: DraftStep, alts: Mapping[str, str]) -> Iterator[str]:
    for file in step.photos[:1]:
        yield f"    photo: {{file: {_text(file)}, alt: {_text(alts.get(file) or step.title)}}}"
        yield "    # the picture's description (alt) is a draft: say what is to be seen"
    if step.other_photos:
        yield f"    {_remark('more of it: ' + ', '.join(step.other_photos), _LONGEST_REST)}"


def _paint(step: DraftStep) -> str:
    if step.as_before:
        return "as before"
    if not step.paints:
        return "none"
    if len(step.paints) == 1:
        return _text(step.paints[0])
    if step.parts:
        return "{" + ", ".join(f"{_text(name)}: {step.parts.get(name, '1')}" for name in step.paints) + "}"
    return _flow(step.paints)


def _instead(one: tuple[str, str]) -> str:
    name, note = one
    return f"{{paint: {_text(name)}, note: {_text(note)}}}" if note else _text(name)


def _body(draft: Draft) -> Iterator[str]:
    opening = [sentence for sentence in draft.intro if len(sentence.split()) > 3][:2]
    if opening:
        yield escaped(" ".join(opening))
    for step in draft.steps:
        kept, _ = _sentences(step)
        if kept:
            yield from ("", f"## {escaped(step.title)}", "", escaped(" ".join(kept)))


def _sentences(step: DraftStep) -> tuple[list[str], list[str]]:
    """Up to three sentences that tell most of the step, in order, and the others."""
    said = list(dict.fromkeys(sentence for sentence in step.said if len(sentence.split()) > 2))
    names = [folded(word) for paint in step.paints for word in paint.split()] + [
        folded(area) for area in step.areas
    ]

    def tells(sentence: str) -> tuple[int, int]:
        bare = folded(sentence)
        return -sum(name in bare for name in names), said.index(sentence)

    best = sorted(said, key=tells)[:MOST_SENTENCES]
    return [one for one in said if one in best], [one for one in said if one not in best] + step.beside


def escaped(text: str) -> str:
    """Words as Markdown that shows them as they are."""
    line = re.sub(r"([\\`*_\[\]<>#|~])", r"\\\1", tidy(text))
    line = re.sub(r"^([-+=])", r"\\\1", line)
    return re.sub(r"^(\d+)([.)])", r"\1\\\2", line)


def _text(text: str) -> str:
    """A value as it may stand anywhere in YAML; never a line that would end the front matter."""
    line = tidy(text)[:2_000].replace("---", "–")
    return typed(line) if line else '""'


def _flow(texts: Iterable[str]) -> str:
    return "[" + ", ".join(map(_text, texts)) + "]"


def _remark(text: str, longest: int = _LONGEST_REMARK) -> str:
    line = tidy(text).replace("---", "–")
    return "# " + (line if len(line) <= longest else line[: longest - 1].rstrip() + "…")
