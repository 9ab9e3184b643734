"""What has become of the pots that a batch was painted with."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.computing.colour.directions import directions
from guidegen.computing.colour.spaces import delta_e_2000, lab_of
from guidegen.model.guide import PaintedBatch, UsedPaint
from guidegen.model.paint import Ambiguous, Paint, Palette
from guidegen.words.language import Language

# Two measurements of one pot by one person differ by so much: common practice, no source.
_SAME = 0.5


def changed_since(batch: PaintedBatch, palette: Palette, language: Language) -> tuple[str, ...]:
    """A clause for each pot that is another today, or no more there."""
    return tuple(clause for used in batch.used for clause in _changed(used, palette, language))


def _changed(used: UsedPaint, palette: Palette, language: Language) -> Iterator[str]:
    found = palette.find(used.paint)
    if isinstance(found, Ambiguous):
        found = palette.find(f"{used.paint} ({used.edition})") if used.edition else found.found[0]
    if not isinstance(found, Paint):
        yield language.t("made.gone", paint=used.paint)
        return
    how, apart = _how(used.colour, found.colour, language)
    if found.edition != used.edition:
        yield language.t("made.edition", paint=used.paint) + (f", {how}" if how else "")
    elif apart >= _SAME:
        yield language.t("made.colour", paint=used.paint) + f", {how}"


def _how(then: str | None, now: str | None, language: Language) -> tuple[str, float]:
    """How far and in which way today's colour is off, with the CIEDE2000 difference; nothing where one is not known."""
    if then is None or now is None:
        return "", 0.0
    first, second = lab_of((then, now))
    apart = round(float(delta_e_2000(first, second)), 1)
    if apart < _SAME:
        return "", apart
    ways = [language.t(f"way.{way}") for way in directions(now, then)] or [language.t("way.other")]
    return f"{language.number(apart, 1)} {', '.join(ways)}", apart
