"""Where the site's files are found in the world, once its own address is set: whole addresses, as RFC 3986 has them."""

from __future__ import annotations

import re
from functools import lru_cache
from urllib.parse import quote, urlsplit

_USUAL_PORTS = {"http": "80", "https": "443"}
# RFC 3986, section 3.3: what may stand in a path as it is; a percent sign only before two digits.
_STANDS = "/%:@!$&'()*+,;=-._~"
_IDLE_PERCENT = re.compile("%(?![0-9A-Fa-f]{2})")


def web_address(site: str, path: str) -> str:
    """The whole address of a file of the site, by its path in it; `path` may carry a #place."""
    return _top(site) + path


@lru_cache(maxsize=16)
def _top(site: str) -> str:
    """The site's own address in normal form (RFC 3986, section 6.2.2 and 6.2.3), a slash at its end."""
    parts = urlsplit(site)
    host, colon, port = parts.netloc.rpartition(":")
    if not colon or not port.isdecimal():
        host, port = parts.netloc, ""
    scheme = parts.scheme.lower()
    ending = f":{port}" if port and port != _USUAL_PORTS.get(scheme) else ""
    # Who copies the address of the home page means the folder that it lies in.
    path = _IDLE_PERCENT.sub("%25", parts.path).removesuffix("index.html").rstrip("/")
    return f"{scheme}://{_ascii(host.lower())}{ending}{quote(path, safe=_STANDS)}/"


def _ascii(host: str) -> str:
    if host.isascii():
        return host
    try:
        return host.encode("idna").decode("ascii")
    except UnicodeError:
        return quote(host)
