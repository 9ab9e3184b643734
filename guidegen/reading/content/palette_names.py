"""Diagnostics about names in the palette: pots given twice, mixes made of themselves, names that lead nowhere."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.listed import list_of_words
from guidegen.base.suggest import MOST_SLIPS, folded
from guidegen.model.names import Name
from guidegen.model.paint import DEEPEST_MIX, Ambiguous, Mix, Paint, Palette, Range
from guidegen.reading.content.circles import circles
from guidegen.reading.content.written_mixes import THINNERS
from guidegen.reading.types.mix_words import as_typed, read_mix
from guidegen.reading.types.parse_context import LONGEST_NAME
from guidegen.reading.yaml.quoting import fix_of

# Of many pots that share a name, so many are shown.
MOST_MEANT = 8
# What painters write between two paints: an or between one and its substitute; a comma, a plus, an and, parts.
_EITHER = re.compile(r"\s+(?:or|oder)\s+", re.IGNORECASE)
_SEVERAL = re.compile(r"\s*(?:[,+&/]|\b(?:and|und|then|dann)\b|[0-9.]+\s*:\s*[0-9.]+)\s*")


def range_again(second: Range, first: Range) -> Diagnostic:
    """duplicate-key for a range given twice, be it in two files."""
    return Diagnostic(
        code="duplicate-key",
        message=f"The range “{second.name}” is given twice; only the first counts.",
        span=second.span,
        help="Put all that holds for it in one place.",
        related=(Related(span=first.span, message="gives it first."),),
    )


def check_names(palette: Palette, *, whole: bool) -> Iterator[Diagnostic]:
    """What the names in mixes, twins and let-downs lead to; unknown names only in a `whole` palette."""
    resolved: dict[str, list[tuple[str, Name]]] = {}
    slips = 0
    for mix in palette.mixes:
        inside: list[tuple[str, Name]] = []
        for part in mix.parts:
            found = palette.find(part.name.text)
            slips += found is None
            begin = f"{mix.name} is mixed with"
            beside: list[Name | Paint | Mix] = [mix, *(other.name for other in mix.parts)]
            guess = slips <= MOST_SLIPS
            yield from astray(part.name, found, palette, begin, whole=whole, guess=guess, beside=beside)
            if isinstance(found, Mix):
                inside.append((folded(found.name), part.name))
        resolved.setdefault(folded(mix.name), inside)
    yield from _circles(palette, resolved)
    yield from _too_deep(palette, resolved)
    for paint in palette.paints:
        white = paint.let_down.white if paint.let_down is not None else None
        for name, relation in ((paint.twin_of, "is the twin of"), (white, "is let down with")):
            if name is not None:
                found = palette.find(name.text)
                slips += found is None
                begin = f"{paint.full_name} {relation}"
                guess = slips <= MOST_SLIPS
                yield from astray(name, found, palette, begin, whole=whole, guess=guess, beside=(paint,))


def doubles(paints: Iterable[Paint], mixes: Iterable[Mix]) -> Iterator[tuple[Paint | Mix, Diagnostic]]:
    """The pots that are given again, each with its duplicate-paint."""
    paint_by: dict[tuple[str, str, str], Paint] = {}
    for paint in paints:
        key = (folded(paint.range or ""), folded(paint.name), folded(paint.edition))
        first = paint_by.setdefault(key, paint)
        if first is not paint:
            help_line = "Take one of them out; if the maker changed the paint, give each its edition."
            yield paint, _again(paint, first, help_line)
    mix_by: dict[str, Mix] = {}
    for mix in mixes:
        other = mix_by.setdefault(folded(mix.name), mix)
        if other is not mix:
            yield mix, _again(mix, other, "Take one of them out, or call it something else.")


def _again(second: Paint | Mix, first: Paint | Mix, help_line: str) -> Diagnostic:
    return Diagnostic(
        code="duplicate-paint",
        message=f"“{second.full_name}” is in the palette already.",
        span=second.span,
        help=help_line,
        related=(Related(span=first.span, message=f"has “{first.full_name}” first."),),
    )


def astray(
    name: Name,
    found: Paint | Mix | Ambiguous | None,
    palette: Palette,
    begin: str,
    *,
    whole: bool,
    guess: bool = True,
    beside: Iterable[Name | Paint | Mix] = (),
) -> Iterator[Diagnostic]:
    """unknown-paint or ambiguous-paint for a name that does not lead to one pot; nothing for one that does.

    `found` is what `palette.find` gives for it, `begin` how the message begins. With `guess` the nearest name is
    proposed, and a fix if it is sure; it cannot mean the pots `beside` it, nor what other names there mean, or they would
    be there twice.
    """
    if found is None:
        if whole:
            yield _unknown(name, palette, begin, guess=guess, beside=beside)
    elif isinstance(found, Ambiguous):
        shown = found.found[:MOST_MEANT]
        labels = [_label(pot) for pot in shown]
        more = len(found.found) - len(shown)
        meant = list_of_words([*labels, f"{more:,} more"] if more else labels, "or")
        yield Diagnostic(
            code="ambiguous-paint",
            message=f"{begin} “{name.text}”, which could be {meant}.",
            span=name.span,
            help=_which(labels, name),
            related=tuple(Related(span=pot.span, message=f"has {_label(pot)}.") for pot in shown),
        )


def _label(pot: Paint | Mix) -> str:
    """What a sentence calls a pot that shares its name with others."""
    return f"the house mix {pot.name}" if isinstance(pot, Mix) else pot.full_name


def _which(labels: list[str], name: Name) -> str:
    """The help for a name that several pots have."""
    full = next((label for label in labels if "/" in label and folded(label) != folded(name.text)), None)
    return (
        f"Write the one you mean in full, for instance {full}." if full else "Give one of them another name."
    )


def _unknown(
    name: Name,
    palette: Palette,
    begin: str,
    *,
    guess: bool,
    beside: Iterable[Name | Paint | Mix],
) -> Diagnostic:
    message = f"{begin} “{name.text}”, which is not in the palette."
    best = palette.nearest(name.text) if guess and len(name.text) <= LONGEST_NAME else None
    help_line = _other_help(name.text, palette) or ("" if best else _lacking_help(name.text, palette))
    if best is None or help_line:
        return Diagnostic(code="unknown-paint", message=message, span=name.span, help=help_line)
    meant = palette.only_meant(name.text)
    others = (
        palette.leads_to(one.text) if isinstance(one, Name) else one
        for one in beside
        if not isinstance(one, Name) or folded(one.text) != folded(name.text)
    )
    sure = meant is not None and all(pot is not meant[1] for pot in others)
    return Diagnostic(
        code="unknown-paint",
        message=message,
        span=name.span,
        help=f"Write {best.full_name if '/' in name.text else best.name}, or add {name.text} to the palette.",
        fix=fix_of(name, meant[0] if meant and sure else None),
        related=(Related(span=best.span, message=f"has “{best.name}”."),),
    )


def _other_help(text: str, palette: Palette) -> str:
    """The help for what is no name of one pot: a mixture, a thinner, a full name, one pot or another; else ''."""
    mixed = _mixed_help(text, palette) if len(text) <= LONGEST_NAME else ""
    if mixed:
        return mixed
    if folded(text) in THINNERS:
        return f"Add it to the palette as {{name: {text}, kind: thinner}}."
    if in_full := _in_full(text, palette):
        return f"Write {in_full}."
    either = _EITHER.split(text)
    if len(either) > 1 and all(palette.find(piece) for piece in either):
        others = f"[{', '.join(either[1:])}]" if either[2:] else either[1]
        return f"Write {either[0]}, and what may stand in for it as instead: {others}"
    return ""


def _lacking_help(text: str, palette: Palette) -> str:
    """The help for a name that nothing is near to."""
    several = [piece.strip(" 0123456789.") for piece in _SEVERAL.split(text)]
    if len(several) > 1 and all(palette.find(piece) for piece in several):
        return (
            f"Write [{', '.join(several)}] if they are used side by side; for a mixture give each its parts, "
            f"{{{', '.join(f'{piece}: 1' for piece in several)}}}."
        )
    return f"Add {text} to the palette."


def _in_full(text: str, palette: Palette) -> str:
    """The full name of the pot whose range stands before or behind its name, '' where none does."""
    for line in dict.fromkeys(paint.range for paint in palette.paints if paint.range):
        found = re.fullmatch(
            rf"\s*{re.escape(line)}\W+(.+?)\s*|\s*(.+?)\W+{re.escape(line)}\W*", text, re.IGNORECASE
        )
        pot = palette.find(f"{line} / {found[1] or found[2]}") if found else None
        if pot is not None and not isinstance(pot, Ambiguous):
            return pot.full_name
    return ""


def _mixed_help(text: str, palette: Palette) -> str:
    """What to type for a mixture whose amounts do not go together, or that stands in a list; '' for anything else."""

    def knows(name: str) -> bool:
        return palette.find(name) is not None

    parts = read_mix(text, knows, odd=True)
    if parts is None or not all(knows(part.name) for part in parts):
        return ""
    if read_mix(text, knows) is None:
        return f"Write {as_typed(parts)}."
    return f"Write {as_typed(parts)} by itself, or give it a name under mixes: in the palette."


def _circles(palette: Palette, resolved: dict[str, list[tuple[str, Name]]]) -> Iterator[Diagnostic]:
    mixes = {folded(mix.name): mix for mix in reversed(palette.mixes)}
    for circle, name in circles(resolved):
        way = [mixes[key] for key in circle]
        between = f" by way of {list_of_words([mix.name for mix in way[1:-1]])}" if way[1:-1] else ""
        yield Diagnostic(
            code="mix-circle",
            message=f"{way[-1].name} has “{name.text}” in it, which is "
            + ("this mix itself." if len(way) == 1 else f"made with it in turn{between}."),
            span=name.span,
            help="Take it out of one of them.",
            related=tuple(
                Related(span=mix.span, message=f"is where “{mix.name}” is mixed.") for mix in way[:-1]
            ),
        )


def _too_deep(palette: Palette, resolved: dict[str, list[tuple[str, Name]]]) -> Iterator[Diagnostic]:
    """bad-value for the mixes that are one mix too deep; those on top of them are told once these are mended."""
    depths: dict[str, int] = {}
    for mix in palette.mixes:
        ahead = [folded(mix.name)]
        while ahead:
            here = ahead[-1]
            inside = [name for name, _ in resolved[here]]
            depths.setdefault(here, 0)  # what a circle leads back to
            open_ones = [name for name in inside if name not in depths]
            ahead += open_ones
            if not open_ones:
                ahead.pop()
                depths[here] = 1 + max((depths[name] for name in inside), default=0)
        if depths[folded(mix.name)] == DEEPEST_MIX + 1:
            yield Diagnostic(
                code="bad-value",
                message=f"“{mix.name}” is made of mixes that are made of mixes, more than {DEEPEST_MIX} deep.",
                span=mix.span,
                help="Say what is in it by the paints themselves.",
            )
