"""Rules on what a guide says as a whole: variants, times, stops, links to other guides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import PurePosixPath

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.paths import slug
from guidegen.base.slips import only_meant
from guidegen.base.source import Span
from guidegen.base.suggest import MOST_SLIPS, folded, nearest
from guidegen.base.units import MINUTE, print_duration
from guidegen.checking.case import GuideCase, called, called_in_full, did_you_mean, quoted_name, span_of
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.guide import Guide, PaintedBatch, Step, Stop
from guidegen.model.names import Name
from guidegen.model.paint import Kind, Paint
from guidegen.model.plan import Unit
from guidegen.model.site import TextPage
from guidegen.model.technique import Role
from guidegen.reading.yaml.quoting import fix_of

# A wash over everything that is painted over sooner may lift (common practice, no source).
WASH_DRIES = 30 * MINUTE


def known_choices(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-choice: `only` names what `choose` offers, and every variant has a step."""
    for step in case.guide.steps:
        for name, option in step.only.items():
            for diagnostic in wrong_choice(case.guide, name, option, called(case, step)):
                # Another guide that inserts the step may offer just this.
                yield replace(diagnostic, fix=None) if step.shared is not None else diagnostic
    if not case.guide.steps:
        return
    for scheme in case.schemes:
        if not scheme.steps:
            words = ", ".join(f"{name}: {option}" for name, option in scheme.choice.items())
            yield Diagnostic(
                code="unknown-choice",
                message=f"With {words} no step is left to paint.",
                span=span_of(case.guide, "choose"),
                help="Take this option out, or let some steps stand without only.",
            )


def wrong_choice(guide: Guide, name: str, option: Name, who: str) -> Iterator[Diagnostic]:
    """What is wrong with naming an option of a choice, if anything is."""
    offered = {folded(key): options for key, options in guide.choose.items()}
    options = offered.get(folded(name))
    if options is None:
        near = nearest(name, guide.choose)
        yield Diagnostic(
            code="unknown-choice",
            message=f"{who} asks for {name}: {option.text}, but the guide offers no choice of “{name}”.",
            span=option.key or option.span,
            help=(f"Write {near}." if option.key else f"Write {near}: {option.text}.")
            if near
            else f"Add choose: {{{name}: [{option.text}, …]}} to the guide, or take this out.",
            fix=fix_of(Name(text=name, span=option.key), only_meant(name, guide.choose))
            if option.key
            else None,
        )
    elif folded(option.text) not in map(folded, options):
        yield Diagnostic(
            code="unknown-choice",
            message=f"{who} asks for {name}: {option.text}, which the guide's choose does not offer.",
            span=option.span,
            help=did_you_mean(option.text, options),
            fix=fix_of(option, only_meant(option.text, options)),
        )


def wrong_mixture(
    guide: Guide, batch: Unit | PaintedBatch, span: Span, who: str, noun: str
) -> Iterator[Diagnostic]:
    """What is wrong with the mixed options of a batch: unknown ones, several choices, another number of figures."""
    if len(batch.mixed) > 1:
        yield Diagnostic(
            code="bad-value",
            message=f"{who} mixes the options of {len(batch.mixed)} choices; one can be mixed.",
            span=span,
            help=f"Mix one, and make a {noun} for each option of the others.",
        )
    for name, options in batch.mixed.items():
        for option in options:
            # The place is that of all options together, so nothing can be put there.
            for diagnostic in wrong_choice(guide, name, Name(text=option, span=span), who):
                yield replace(diagnostic, fix=None)
        count = sum(options.values())
        if count != batch.figures and "figures" in batch.places:
            yield Diagnostic(
                code="bad-value",
                message=f"The options under mixed come to {count} figures, the {noun} has {batch.figures}.",
                span=span,
                help=f"Let them come to {batch.figures}, or write figures: {count}.",
            )


def made_is_known(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-step, unknown-choice and bad-value: what batches under `made` name is there, and comes to their figures."""
    guide = case.guide
    titles = tuple(step.title for step in guide.steps)
    known = set(map(folded, titles))
    for batch in guide.made:
        for title in batch.minutes:
            if folded(title) not in known:
                yield Diagnostic(
                    code="unknown-step",
                    message=f"The guide has no step “{title}”.",
                    span=batch.places.get("minutes", guide.span),
                    help=did_you_mean(title, titles) or "Write the title of a step.",
                )
        who = f"The batch of {batch.date.isoformat()}"
        for name, option in batch.choose.items():
            yield from wrong_choice(guide, name, option, who)
        yield from wrong_mixture(guide, batch, batch.places.get("mixed", guide.span), who, "batch")


def known_guides(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-guide: what `see` names, and what the text links to, has to be there; guide-gone where it once was."""
    slips = 0
    linked = [link for passage in case.guide.body.passages for link in passage.links]
    for number, name in enumerate((*case.guide.see, *linked)):
        # An address is in its folded form already.
        if folded(name.text) in case.addresses:
            continue
        if slug(name.text) in case.gone:
            yield guide_gone(name)
        else:
            slips += 1
            fixable = number < len(case.guide.see)
            yield unknown_guide(name, case.addresses, fixable=fixable, guess=slips <= MOST_SLIPS)


def links_of_a_page(page: TextPage, addresses: frozenset[str], gone: frozenset[str]) -> Iterator[Diagnostic]:
    """The same of what a page of words links to."""
    for name in page.text.links:
        if slug(name.text) in gone:
            yield guide_gone(name)
        elif folded(name.text) not in addresses:
            yield unknown_guide(name, addresses, fixable=False)


def guide_gone(name: Name) -> Diagnostic:
    """A guide of which site.yaml says that it was taken away; whoever follows the link is told so."""
    return Diagnostic(
        code="guide-gone",
        message=f"The guide {quoted_name(name)} is gone, as site.yaml says.",
        span=name.span,
        help="Take it out, or leave it: the link leads to the page that says so.",
    )


def unknown_guide(
    name: Name, addresses: frozenset[str], *, fixable: bool = True, guess: bool = True
) -> Diagnostic:
    """A guide that is not there, with the nearest that is if one is to `guess`, or the one whose file was named.

    It can be `fixable` where it stands as a value; in the guide's text it is part of a link.
    """
    last = slug(name.text.rstrip("/").removesuffix(".md").removesuffix("/guide").rpartition("/")[2])
    if not guess and last not in addresses:
        addresses = frozenset()
    return Diagnostic(
        code="unknown-guide",
        message=f"There is no guide {quoted_name(name)}.",
        span=name.span,
        help=f"Write {last}."
        if last in addresses
        else did_you_mean(name.text, addresses) or "Write the name of the guide's folder.",
        fix=fix_of(name, _surely(name.text, last, addresses)) if fixable else None,
    )


def _surely(typed: str, last: str, addresses: frozenset[str]) -> str | None:
    """The address to write for a guide: that of the file that was named, from no folder that would be lost."""
    folders = set(PurePosixPath(typed.rstrip("/").removesuffix("/guide.md")).parts[:-1])
    if last in addresses and folders <= {"..", "content", "guides"}:
        return last
    return only_meant(typed, addresses)


def times_are_said(case: GuideCase) -> Iterator[Diagnostic]:
    """step-without-time: neither `once` nor `each` is given, misspelt or otherwise unreadable."""
    for step in case.guide.steps:
        if not step.once and not step.each and not {"once", "each"} & (step.places.keys() | step.unread):
            yield Diagnostic(
                code="step-without-time",
                message=f"{called_in_full(case, step)} has no hands-on time.",
                span=step.span,
                help="Add each: with the time for one figure, or once: for the whole batch; "
                "write each: 0 if it takes none.",
            )


def stops_come_later(case: GuideCase) -> Iterator[Diagnostic]:
    """stop-before-any-step: a stop has to follow a step."""
    for entry in case.guide.entries:
        if isinstance(entry, Step):
            return
        if isinstance(entry, Stop):
            yield Diagnostic(
                code="stop-before-any-step",
                message=f"The stop “{entry.name}” comes before any step.",
                span=entry.span,
                help="Move it below the step after which the figures are fit for it.",
            )


def washes_dry(case: GuideCase) -> Iterator[Diagnostic]:
    """wash-dried-short: a wash over everything with under half an hour to dry."""
    for _, painted in case.painted():
        step = painted.step
        if "dry" in step.unread:
            continue
        if painted.technique.name in {"wash", "oil wash"} and painted.whole and step.dry.air < WASH_DRIES:
            yield Diagnostic(
                code="wash-dried-short",
                message=f"{called(case, step)} is a wash over everything and has "
                f"{print_duration(step.dry.air)} to dry.",
                span=span_of(step, "dry"),
                help=f"Give it dry: 30 min or more; {painted.technique.dry:g} min is usual.",
            )


def sealed(case: GuideCase) -> Iterator[Diagnostic]:
    """unsealed: a covering paint, metals apart, after the last varnish that seals.

    A gloss coat that a pin wash follows is laid for the wash to run on, so it is no seal.
    """
    diagnosed: set[int] = set()
    for scheme in case.schemes:
        steps = scheme.steps
        seals = [
            i
            for i, step in enumerate(steps)
            if step.kinds == {Kind.VARNISH}
            and not (_is_gloss(step) and i + 1 < len(steps) and steps[i + 1].technique.name == "pin wash")
        ]
        if not seals:
            continue
        for late in steps[seals[-1] + 1 :]:
            bare = late.kinds - {Kind.METALLIC, Kind.VARNISH, Kind.MEDIUM, Kind.THINNER}
            if late.technique.role is Role.COVER and bare and id(late.step) not in diagnosed:
                diagnosed.add(id(late.step))
                yield Diagnostic(
                    code="unsealed",
                    message=f"{called_in_full(case, late.step)} paints over the last varnish "
                    f"(“{steps[seals[-1]].step.title}”) and stays unprotected.",
                    span=late.step.span,
                    help="Move the varnish below it, or add another coat after it.",
                )


def _is_gloss(step: SchemeStep) -> bool:
    return any(isinstance(pot, Paint) and pot.finish == "gloss" for pot in step.pots)
