"""A whole web address, taken apart once when it is read: whoever holds one can ask it anything and nothing raises."""

from __future__ import annotations

import re
from dataclasses import dataclass
from ipaddress import AddressValueError, IPv6Address
from urllib.parse import quote

# Longer ones are cut off on the way by servers and proxies (RFC 9110, section 4.1, asks for 8,000 octets at least).
LONGEST = 8_000
_LONGEST_HOST = 253  # RFC 1035, section 2.3.4, as text
_HIGHEST_PORT = 65_535

_WHOLE = re.compile(
    r"(?P<scheme>https?)://(?:(?P<user>[^\s/?#@\"<>\\]*)@)?"
    r"(?:\[(?P<literal>[0-9A-Fa-f:.]+)\]|(?P<name>[^\s/?#@:\[\]\"'<>\\]+))(?::(?P<port>[0-9]{0,5}))?"
    r"(?P<path>(?:/[^\s?#\"<>\\]*)?)(?P<rest>(?:[?#][^\s\"<>\\]*)?)",
    re.IGNORECASE,
)
# RFC 3986, section 3.2.2: a registered name. One without a letter or a digit is nobody's.
_NAME = re.compile(r"(?=.*[a-z0-9])(?:[a-z0-9._~!$&()*+,;=-]|%[0-9a-f]{2})+")
# What a name in another script may come to in ASCII (RFC 5890, section 2.3.1). Some signs fall apart into those that
# part an address, as ℀ into a/c: such a name is none.
_LETTERS_DIGITS_HYPHENS = re.compile(r"[a-z0-9_-]+(?:\.[a-z0-9_-]+)*\.?")
# RFC 3986, section 3.3: what may stand in a path as it is; a percent sign only before two digits.
_STANDS = "/%:@!$&'()*+,;=-._~"
_IDLE_PERCENT = re.compile("%(?![0-9A-Fa-f]{2})")
_USUAL_PORTS = {"http": 80, "https": 443}


@dataclass(frozen=True, slots=True, kw_only=True)
class WebAddress:
    """An address by http or https (RFC 3986).

    `text` is as it was typed. `origin` is scheme, host in ASCII, and port where it is not the usual one, as in
    `https://xn--bcher-kva.example:8080`. `path` is percent-encoded, empty or from its first slash on, `rest` the
    question and the fragment as typed, `user` what stands before an @.
    """

    text: str
    origin: str
    path: str = ""
    rest: str = ""
    user: str = ""

    @classmethod
    def parse(cls, text: str) -> WebAddress | None:
        """The address that a text is, None where it is none."""
        found = _WHOLE.fullmatch(text) if len(text) <= LONGEST else None
        if found is None or any("\ud800" <= sign <= "\udfff" for sign in text):
            return None
        host = _literal(found["literal"]) if found["literal"] else _ascii(found["name"])
        port = int(found["port"] or 0)
        if host is None or port > _HIGHEST_PORT:
            return None
        scheme = found["scheme"].lower()
        ending = f":{port}" if found["port"] and port != _USUAL_PORTS[scheme] else ""
        return cls(
            text=text,
            origin=f"{scheme}://{host}{ending}",
            path=quote(_IDLE_PERCENT.sub("%25", found["path"]), safe=_STANDS),
            rest=found["rest"],
            user=found["user"] or "",
        )

    @property
    def folder(self) -> str:
        """The path of the folder that a site at this address lies in, with a slash at its end."""
        # Who copies the address of the home page means the folder that it lies in.
        return self.path.removesuffix("index.html").rstrip("/") + "/"

    def file(self, path: str) -> str:
        """The whole address of a file of the site that lies here, by its path in it; `path` may carry a #place."""
        return f"{self.origin}{self.folder}{path}"


def _literal(text: str) -> str | None:
    try:
        IPv6Address(text)
    except AddressValueError:
        return None
    return f"[{text.lower()}]"


def _ascii(name: str) -> str | None:
    """A host's name in lower case and ASCII (RFC 3490), None where there is no such host."""
    if len(name) > _LONGEST_HOST:
        return None
    if name.isascii():
        name = name.lower()
        return name if _NAME.fullmatch(name) else None
    try:
        found = name.encode("idna").decode("ascii").lower()
    except UnicodeError:
        return None
    return found if _LETTERS_DIGITS_HYPHENS.fullmatch(found) else None
