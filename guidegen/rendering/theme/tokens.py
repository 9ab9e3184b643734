"""The tokens of the site's style that site.yaml may change: which there are, and what is wrong with those named there."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.base.diagnostic import Diagnostic, Fix
from guidegen.base.slips import only_meant
from guidegen.base.suggest import nearest
from guidegen.model.site import Site
from guidegen.rendering.theme.templates import Templates

# Where the tokens stand, the author's own if there is one.
STYLE = "style/site.css"
# Before a colour's name where the one is meant that it has on a dark screen.
DARK = "dark-"

_RULE = re.compile(r"(@media[^{]*\bdark\b[^{]*\{\s*)?:root\s*\{([^}]*)\}")
_TOKEN = re.compile(r"--([a-z][a-z0-9-]{0,40})\s*:\s*([^;]+);")
_HEX = re.compile(r"#?((?:[0-9A-Fa-f]{3}){1,2})")
_COLOUR = re.compile(r"#(?:[0-9A-Fa-f]{3}){1,2}|[A-Za-z]+|(?:rgb|hsl|hwb|lab|lch|oklab|oklch)\([^()]*\)")
# Nothing that ends a rule or fetches anything.
_VALUE = re.compile(r"[\w#%.,()'\" +*/-]{1,200}")
_QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")
_REACHES = re.compile(r"url|image|expression|attr|/\*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Tokens:
    """The tokens of a style by name, each with its value: on paper and a light screen, and those of a dark one."""

    light: Mapping[str, str]
    dark: Mapping[str, str]

    @property
    def names(self) -> tuple[str, ...]:
        """All that site.yaml may name."""
        return (*self.light, *(DARK + name for name in self.dark))

    def is_colour(self, name: str) -> bool:
        """Whether a token is a colour, by the value that it has."""
        return self.light.get(name.removeprefix(DARK), "").startswith("#")

    def typed(self, name: str, value: str) -> str | None:
        """A value as CSS takes it; None where it cannot stand there."""
        value = value.strip()
        if self.is_colour(name):
            digits = _HEX.fullmatch(value)
            value = f"#{digits[1].lower()}" if digits else value
            return value if _COLOUR.fullmatch(value) else None
        good = _VALUE.fullmatch(value) and not _REACHES.search(value) and _closes_what_it_opens(value)
        return value if good else None


def _closes_what_it_opens(value: str) -> bool:
    bare = _QUOTED.sub("", value)
    depth = 0
    for sign in bare:
        depth += (sign == "(") - (sign == ")")
        if depth < 0 or sign in "\"'":
            return False
    return depth == 0


def tokens_of(templates: Templates) -> Tokens:
    """The tokens of the style that pages are made with."""
    light: dict[str, str] = {}
    dark: dict[str, str] = {}
    for rule in _RULE.finditer(templates.source(STYLE)):
        into = dark if rule[1] else light
        into.update((found[1], " ".join(found[2].split())) for found in _TOKEN.finditer(rule[2]))
    return Tokens(light, {name: value for name, value in dark.items() if name in light})


def tokens_rule(tokens: Mapping[str, str], known: Tokens) -> str:
    """CSS that changes the tokens. A colour that a dark screen has its own of is changed there by its own name only."""
    good = {
        name: css
        for name, value in sorted(tokens.items())
        if name in known.names and (css := known.typed(name, value)) is not None
    }
    both = {name: css for name, css in good.items() if name in known.light and name not in known.dark}
    light = {name: css for name, css in good.items() if name in known.light and name in known.dark}
    dark = {name.removeprefix(DARK): css for name, css in good.items() if name not in known.light}
    return (
        _root("", both)
        + _root("@media print, (prefers-color-scheme: light)", light)
        + _root("@media screen and (prefers-color-scheme: dark)", dark)
    )


def _root(media: str, tokens: Mapping[str, str]) -> str:
    if not tokens:
        return ""
    rule = ":root {\n" + "".join(f"  --{name}: {value};\n" for name, value in tokens.items()) + "}"
    return f"\n{media} {{\n{rule}\n}}\n" if media else f"\n{rule}\n"


def wrong_tokens(site: Site, known: Tokens) -> Iterator[Diagnostic]:
    """unknown-key for a token that the style has not, bad-value for a value that cannot stand there."""
    for name, value in site.tokens.items():
        if name not in known.names:
            span = site.places.get(f"tokens: {name}", site.span)
            best = nearest(name, known.names)
            meant = only_meant(name, {*known.names} - site.tokens.keys(), ours=True) if best else None
            yield Diagnostic(
                code="unknown-key",
                message=f"“{name}” is no name that the site's style knows.",
                span=span,
                help=f"Write {best}." if best else f"There is {', '.join(known.names)}.",
                fix=Fix(span=span, text=meant) if meant else None,
            )
        elif known.typed(name, value) is None:
            colour = known.is_colour(name)
            yield Diagnostic(
                code="bad-value",
                message=f"“{value}” stands where {name} needs "
                + ("a colour." if colour else f"a value such as {known.light[name]}."),
                span=site.places.get(f"tokens: {name} =", site.span),
                help='Write it with six digits in quotes, as in "#1f2a40".'
                if colour
                else "Write one plain value; close every bracket and quote in it.",
            )
