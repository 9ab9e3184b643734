"""What travels with a guide besides its page: materials, a palette, a list for under a video, chapters."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidegen.base.units import HOUR, MINUTE, SECOND, print_clock
from guidegen.computing.guide.computed_guide import BlendUse, ComputedGuide
from guidegen.computing.guide.shopping import materials_csv
from guidegen.model.paint import Palette
from guidegen.reading.paint_lists.csv_list import write_csv
from guidegen.reading.paint_lists.gimp_palette import write_gpl
from guidegen.reading.paint_lists.rows import row_of
from guidegen.rendering.exports.guide_json import guide_json
from guidegen.rendering.guide.figures import FILE, finished_file
from guidegen.rendering.page.amounts import amount_text
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PALETTE_CSV, PALETTE_GPL

# The length of a film is not known here; the last chapter is given this much, and players cut it at the film's end.
LAST_CHAPTER = HOUR


# What a guide's page offers to take along, by the key of each file's label.
LABELS = {
    "export.csv": "materials.csv",
    "export.gpl": "palette.gpl",
    "export.txt": "paints.txt",
    "export.vtt": "chapters.vtt",
    "export.figure": FILE,
    "export.json": "guide.json",
}


def offered(files: Mapping[str, bytes]) -> dict[str, str]:
    """The files that a guide offers to take along, by the key of each label."""
    return {key: name for key, name in LABELS.items() if name in files}


def exports_of(computed: ComputedGuide, context: SiteContext) -> dict[str, bytes]:
    """Each file by its name in the guide's folder; chapters only where a step says when it is in the film.

    A page of a handbook is no painting: it has its data alone.
    """
    data = guide_json(computed, context)
    if computed.guide.handbook:
        return {"guide.json": data}
    texts = {
        "guide.json": data.decode(),
        "materials.csv": materials_csv(
            computed.needs, computed.materials, computed.tools, context.site.currency
        ),
        "palette.gpl": write_gpl(computed.guide.title, _colours(computed, context)),
        "paints.txt": paints_text(computed, context),
    }
    chapters = chapters_vtt(computed)
    if chapters:
        texts["chapters.vtt"] = chapters
    files = {name: text.encode() for name, text in texts.items()}
    drawn = finished_file(computed, context)
    return files if drawn is None else {**files, FILE: drawn}


def palette_exports(palette: Palette, title: str) -> dict[str, bytes]:
    """The whole palette by each file's path in the site: as CSV, which `start --palette-from` reads back, and as colours."""
    coloured = ((paint.full_name, paint.colour) for paint in palette.paints if paint.colour)
    return {
        PALETTE_CSV: write_csv(map(row_of, palette.paints)).encode(),
        PALETTE_GPL: write_gpl(title, coloured).encode(),
    }


def _colours(computed: ComputedGuide, context: SiteContext) -> Iterator[tuple[str, str]]:
    """Every paint that has a colour, by its full name, then the mixtures."""
    for need in computed.needs:
        if need.paint.colour:
            yield need.paint.full_name, need.paint.colour
    for use in computed.blends:
        colour = context.chips.of(use.blend).fill
        if colour:
            yield use.mix.name if use.mix else _first_step(use, computed), colour


def _first_step(use: BlendUse, computed: ComputedGuide) -> str:
    return computed.scheme.steps[use.steps[0] - 1].step.title


def paints_text(computed: ComputedGuide, context: SiteContext) -> str:
    """A plain list of paints, then chapters, as it can stand under a film."""
    t = context.language.t
    lines = [computed.guide.title, "", t("paints.title")]
    lines += [f"- {need.paint.full_name} ({amount_text(need, context.language)})" for need in computed.needs]
    for use in computed.blends:
        if use.mix is None:
            parts = (f"{part.pot.name} {context.language.number(part.amount)}" for part in use.blend.parts)
            lines.append(f"- {_first_step(use, computed)}: {', '.join(parts)}")
    chapters = chapters_of(computed)
    if chapters:
        lines += ["", t("export.chapters")]
        # Film sites take a list for chapters only where it begins at nought (common practice, no source).
        if min(chapters) > 0:
            lines.append(f"{print_clock(0)} {t('export.opening')}")
        lines += [f"{print_clock(at)} {title}" for at, title in chapters.items()]
    return "\n".join(lines) + "\n"


def chapters_of(computed: ComputedGuide) -> Mapping[int, str]:
    """The steps that say when they are in the film, by that time in ms, in its order; the first of a moment counts."""
    found: dict[int, str] = {}
    for row in computed.scheme.steps:
        if row.step.at is not None:
            found.setdefault(row.step.at, row.step.title)
    return dict(sorted(found.items()))


def chapters_vtt(computed: ComputedGuide) -> str:
    """WebVTT chapters (W3C, WebVTT: The Web Video Text Tracks Format), empty where no step is in the film."""
    chapters = list(chapters_of(computed).items())
    if not chapters:
        return ""
    ends = [at for at, _ in chapters[1:]] + [chapters[-1][0] + LAST_CHAPTER]
    cues = [
        f"{number}\n{_cue_time(at)} --> {_cue_time(end)}\n{_cue_text(title)}\n"
        for number, ((at, title), end) in enumerate(zip(chapters, ends, strict=True), 1)
    ]
    return "WEBVTT\n\n" + "\n".join(cues)


def _cue_time(milliseconds: int) -> str:
    hours, rest = divmod(milliseconds, HOUR)
    minutes, rest = divmod(rest, MINUTE)
    seconds, rest = divmod(rest, SECOND)
    return f"{hours:02d}:{minutes:02d}:{seconds:02d}.{rest:03d}"


def _cue_text(title: str) -> str:
    """A title as cue text: `&`, `<` and `>` escaped, which also keeps `-->` out of it."""
    words = " ".join(title.split())
    return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
