"""Types of values that other standards lay down: web addresses, languages, time zones, currencies, design tokens."""

from __future__ import annotations

import re
from dataclasses import dataclass

from guidegen.model.web_address import WebAddress
from guidegen.reading.types.base import Complaint, Words
from guidegen.reading.types.parse_context import near

_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(?:-[A-Za-z0-9]{1,8})*")
# What lies among a machine's zones and is none: its own, and all of them by another count of seconds.
_NO_ZONE = re.compile(r"(?:localtime|posixrules)\Z|(?:posix|right)/")
# As people call them, for what to write instead.
_LANGUAGES = {"english": "en", "englisch": "en", "german": "de", "deutsch": "de"}
_CURRENCIES = {
    "€": "EUR",
    "euro": "EUR",
    "euros": "EUR",
    "£": "GBP",
    "pound": "GBP",
    "pounds": "GBP",
    "$": "USD",
}
_ZONE = re.compile(r"[A-Za-z][A-Za-z0-9_+-]*(?:/[A-Za-z0-9_+-]+){0,2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Url(Words[WebAddress]):
    """A whole web address. With `home` one that other addresses can begin with: no question, no fragment."""

    expected: str = "a whole web address such as https://example.org/film"
    example: str = "https://example.org/film"
    home: bool = False

    def of(self, text: str) -> WebAddress | Complaint:
        address = WebAddress.parse(text)
        if address is None or address.user:
            begins = (
                "" if re.match("https?://", text, re.IGNORECASE) else " It begins with https:// or http://."
            )
            return Complaint(f"Copy it from the browser's address line.{begins}")
        if self.home and address.rest:
            return Complaint("Leave out what follows from the ? or # on.")
        return address


# RFC 4151, §2.1: a host or an address of mail, and a day, month or year on which it was one's own; then anything.
_TAG = re.compile(
    r"tag:(?:[A-Za-z0-9._-]+@)?[A-Za-z0-9](?:[A-Za-z0-9.-]*[A-Za-z0-9])?,[0-9]{4}(?:-[0-9]{2}){0,2}:"
    r"[A-Za-z0-9._~!$&'()*+,;=:@/?%-]*"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TagAddress(Words[str]):
    """A name for the feed that no change of address touches."""

    expected: str = "a tag such as tag:club.example,2026:guides"
    example: str = "tag:club.example,2026:guides"

    def of(self, text: str) -> str | Complaint:
        if len(text) <= 200 and _TAG.fullmatch(text):
            return text
        return Complaint("Write tag:, a host that is yours, a comma, the year, a colon and a word.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Language(Words[str]):
    """A language by its tag (BCP 47)."""

    expected: str = "a language such as en or de-CH"
    example: str = "en"

    def of(self, text: str) -> str | Complaint:
        if len(text) <= 35 and _LANGUAGE.fullmatch(text):  # RFC 5646, section 4.4.1
            return text
        meant = _LANGUAGES.get(text.casefold())
        return Complaint(
            f"Write {meant}." if meant else "Write its two or three letters, as in en, nl or pt-BR."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Timezone(Words[str]):
    """A time zone of the IANA database. Where the machine has no such database, any name of that form will do."""

    expected: str = "a time zone such as Europe/Amsterdam"
    example: str = "Europe/Amsterdam"

    def of(self, text: str) -> str | Complaint:
        import zoneinfo

        if text == "UTC":
            return text
        well_formed = _ZONE.fullmatch(text) is not None and not _NO_ZONE.match(text)
        if well_formed:
            try:
                zoneinfo.ZoneInfo(text)
            except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
                pass
            else:
                return text
        known = {zone for zone in zoneinfo.available_timezones() if not _NO_ZONE.match(zone)}
        if not known and well_formed:
            return text
        cities = [
            zone for zone in known if zone.rpartition("/")[2].casefold() == text.casefold().replace(" ", "_")
        ]
        best = cities[0] if len(cities) == 1 else near(text, sorted(known))
        return Complaint(
            f"Write {best}." if best else "Write a continent and a city, as in Europe/Amsterdam, or UTC."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Currency(Words[str]):
    """A currency by its three letters (ISO 4217)."""

    expected: str = "a currency of three letters such as EUR"
    example: str = "EUR"

    def of(self, text: str) -> str | Complaint:
        if re.fullmatch("[A-Za-z]{3}", text):
            return text.upper()
        meant = _CURRENCIES.get(text.casefold())
        return Complaint(f"Write {meant}." if meant else "Write its three letters, as in EUR, GBP or USD.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Token(Words[str]):
    """A value for the site's style: a colour, a length or a font's name, and nothing that reaches further."""

    expected: str = 'a colour, a length or the like, such as "#1f2a40"'
    example: str = '"#1f2a40"'

    def of(self, text: str) -> str | Complaint:
        plain = re.fullmatch(r"[\w#%.,()'\" +*/-]{1,200}", text) is not None
        if plain and not re.search(r"url|image|expression|attr|/\*", text, re.IGNORECASE):
            return text
        return Complaint("Write one plain value; addresses, braces and semicolons cannot stand here.")
