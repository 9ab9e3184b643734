"""Every kind of diagnostic: its slug, how much it weighs, and what it means in a painter's words.

`guidegen check --why SLUG` prints the explanation. Each has a case under tests/cases/messages that
triggers it and one that does not.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """Errors stop a build; warnings and advice are said and nothing more."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


@dataclass(frozen=True, slots=True)
class Code:
    """What a kind of diagnostic weighs and means."""

    severity: Severity
    explanation: str


def _error(explanation: str) -> Code:
    return Code(Severity.ERROR, explanation)


def _warning(explanation: str) -> Code:
    return Code(Severity.WARNING, explanation)


def _advice(explanation: str) -> Code:
    return Code(Severity.ADVICE, explanation)


CODES: dict[str, Code] = {
    # Names of paints
    "unknown-paint": _error(
        "A step, a mix or a substitute names a paint that no palette file lists. A reader could not buy it, "
        "and no colour, amount or substitute can be worked out. Names are compared without case, accents and "
        "spaces. Correct the name, or add the paint to the palette."
    ),
    "ambiguous-paint": _error(
        "Two paints answer to this name, for instance the same name in two ranges. Write the range before it, "
        "as in Range / Name, so that the reader opens the right pot."
    ),
    "no-paint": _error(
        "Every step says what it paints with. Where no paint is used on purpose, as for puddles of gel or a bit "
        "of knife work, write paint: none. To tidy up with the paints already there, write paint: as before."
    ),
    "duplicate-paint": _error(
        "The palette has the same range and name twice. Remove one; if the maker changed the paint, give each "
        "its edition."
    ),
    "mix-circle": _error(
        "A house mix is made of itself, by way of the mixes in it. Take it out of one of them."
    ),
    # What is written in a file
    "unknown-key": _error(
        "guidegen does not know this word here, most often a slip of the pen. It would be ignored."
    ),
    "missing-key": _error("Something that has to be said here is left out."),
    "duplicate-key": _error(
        "The same word is given twice in one place; only one can count. The second is marked."
    ),
    "bad-value": _error("What stands after the colon is not of the kind expected there."),
    "bad-duration": _error(
        "A time is written as 10 min, 90 s, 1 h 30 min, 1.5 h, 2 d, a plain number of minutes, or PT1H30M; half an "
        "hour, 1h30, overnight, a range such as 10-15 min and the same in German will do as well. "
        "A form such as 1:30 is refused because it is read both as minutes and as hours."
    ),
    "bad-colour": _error(
        "A colour is written as #rrggbb or #rgb. After a space the # begins a remark, so put it in quotes or "
        "leave the # out."
    ),
    "bad-date": _error("A date is written as year-month-day, as in 2026-03-14, and has to be a real day."),
    "text-after-hash": _error(
        "A # after a space begins a remark, so the rest of this value would be lost. Put the value in quotes."
    ),
    "merge-marker": _error(
        "Two people changed the same lines, and the program that keeps the versions put both into the file, between "
        "lines of <<<<<<<, ======= and >>>>>>>. Nothing of such a file is read. Decide which lines hold, and take "
        "the others and the three marks out."
    ),
    "bad-yaml": _error(
        "The file cannot be read from here on: a quote or a bracket is not closed, a line is set in wrongly, "
        "or it uses a feature that guidegen leaves out (anchors, tags, merges)."
    ),
    "colour-not-known": _warning(
        "The paint has no colour: its chip is empty, and mixtures, films, contrasts and close paints of it are not known. "
        "Add colour: and what the maker says, or what `guidegen sample` reads off a photo. Mediums, thinners and "
        "varnishes need none."
    ),
    "empty-value": _warning(
        "Nothing stands after the colon. It counts as left out; remove the line or fill it in."
    ),
    # Between files
    "file-not-read": _warning(
        "The file looks as if it were meant for guidegen, but lies where nobody reads it, or has another ending: "
        "guides are guides/NAME.md or guides/NAME/guide.md, paints are in palette.yaml or palette/NAME.yaml."
    ),
    "no-palette": _error(
        "Guides name paints, and there is no file palette.yaml or palette/NAME.yaml that lists them."
    ),
    "insert-circle": _error(
        "A shared list inserts itself, by way of the lists in it. Take one of the inserts out."
    ),
    "unknown-insert": _error("No file of that name lies in the shared folder."),
    "unknown-choice": _error(
        "The guide's choose does not offer this. Steps and plans can only name what it offers."
    ),
    "unknown-guide": _error(
        "No guide has this address. The address is the name of the guide's folder or file."
    ),
    "unknown-step": _error("The guide has no step of that title."),
    "unknown-stop": _error("The guide has no stop of that name."),
    "two-guides-one-address": _error(
        "Two guides, or a guide and an old address in another's was, would land on the same page. Rename one."
    ),
    # Plans
    "no-sittings": _error(
        "The plan leaves no time to paint: give it sittings in which something can be done."
    ),
    "step-longer-than-any-sitting": _error(
        "One figure's share of this step takes longer than the longest sitting, so it can never be painted. "
        "Make a sitting longer, or split the step."
    ),
    # Photos, charts, templates
    "missing-photo": _error("The photo is not there, or lies outside the content folder."),
    "bad-photo": _error("The photo cannot be opened: it is broken, of an unknown kind, or far too large."),
    "bad-chart": _error(
        "The figure chart cannot be used: it is no drawing that can be read, or no starter chart has that name."
    ),
    "bad-template": _error("A template of your own cannot be used; the place that stops it is shown."),
    "photo-without-alt": _warning(
        "A photo without a line of text says nothing to somebody who cannot see it. Add alt: and what it shows."
    ),
    "animated-photo": _warning("The picture moves; only its first frame is shown."),
    "small-photo": _warning("The photo is less than 480 pixels wide and will look coarse on a large screen."),
    "same-guide": _advice(
        "A guide is there twice, with the same title, steps and words, as when it was taken in under two addresses. Readers "
        "find both and wonder what is different."
    ),
    "guide-gone": _advice(
        "The guide was taken away, and site.yaml says so under gone. The link leads to the page that says it; take it "
        "out, or leave it."
    ),
    "tag-near-another": _advice(
        "A tag differs from one that more guides have by case, accents, blanks or an s at its end. The home page "
        "then offers both, and each finds a part of the guides."
    ),
    "photo-names-somebody": _advice(
        "The photo's file says who made it or whose it is. All that such a file says is left out when it is published, "
        "so write it down where the photo is named: by: for the name, licence: for the terms."
    ),
    "times-differ": _advice(
        "Two sessions or more took a step three tenths longer or shorter than its written times say."
    ),
    "card-would-help": _advice(
        "Steps mix paints whose colours are by eye, or of which nobody says where they are from, so what is worked out of "
        "them is a guess of guesses. A card (guidegen card), painted and photographed once, measures them; where the "
        "maker gives the colour, say colour_from: maker."
    ),
    "unused-photo": _advice(
        "These photos lie beside the guides and no guide shows them. A phone's live videos (.MOV) are no matter."
    ),
    "unknown-area": _warning("The figure chart has no shape for this area, so the chart cannot show it."),
    "chart-without-areas": _warning(
        "No shape of the chart says which area it is, so nothing in it can be coloured."
    ),
    # A guide's sense
    "heading-near-a-step": _warning(
        "This heading is almost a step's title, but not quite, so its text stands apart from the step."
    ),
    "bad-link": _warning(
        "The link begins like a web address and is none, so its words stand there without a link. Copy the "
        "address from the browser's address line."
    ),
    "step-without-time": _warning(
        "The step has no hands-on time, so the times of the guide come out too short."
    ),
    "stop-before-any-step": _warning("A stop before the first step: there is nothing yet to call done."),
    "area-near-another": _warning(
        "An area's name is nearly another's, or puts several into one, so its steps stand apart from those of the "
        "area that was meant. Several areas are written as a list, [coat, hat]; the whole figure is all."
    ),
    "area-never-covered": _warning(
        "The area gets a wash, a dry brush or a highlight and never a coat of paint beneath it. Most often its name "
        "is a slip of the pen. A stain over the undercoat needs no coat."
    ),
    "unpainted-area": _warning(
        "No step paints this area. Paint it, or list it under leave: if it stays as undercoat on purpose."
    ),
    # Cautions
    "unknown-hazard": _error(
        "This is no hazard code that a label carries. They look like H222 or EUH208; copy them from the pot or can."
    ),
    # Advice
    "highlight-too-close": _advice(
        "The highlight is less than 3 L* lighter than what it is painted on, so it will hardly be seen."
    ),
    "highlight-darker": _advice(
        "The highlight is darker than what it is painted on, as that looks after any wash."
    ),
    "shade-lighter": _advice("The wash is lighter than what lies under it, so it will not shade."),
    "dark-ground": _advice(
        "Yellow, red, orange or white goes straight over a dark undercoat, which shows through: take a light undercoat, or "
        "lay ochre or pink first, and give it two coats more. That is common practice, no source; three coats are not told."
    ),
    "wash-dried-short": _advice(
        "A wash over everything has less than 30 minutes to dry; paint over it may lift it."
    ),
    "steps-out-of-order": _advice(
        "A step spoils what an earlier one did, or will be spoilt: an undercoat after a coat, a base coat over a "
        "highlight, matt varnish over metal, varnish before a wash. That is common practice; if it is meant, say so."
    ),
    "unsealed": _advice("A covering paint comes after the last varnish and stays unprotected."),
    "unknown-technique": _advice(
        "guidegen does not know this technique, so it takes the figures of a base coat for amounts and colours."
    ),
    "range-near-another": _advice(
        "The paint names a range that is not listed, but nearly one that is. It stands in a range of its own then, "
        "without what the listed one says of size, price and thinner."
    ),
    "discontinued-paint": _advice(
        "This paint is no longer sold. The closest one that is can be named as instead."
    ),
}
