"""Laws of web addresses: whatever is typed is one that can be asked anything afterwards, or none."""

from __future__ import annotations

import re
from urllib.parse import urljoin, urlsplit

from hypothesis import example, given
from hypothesis import strategies as st

from guidegen.base.listing import Listing
from guidegen.base.source import Source
from guidegen.model.web_address import WebAddress
from guidegen.reading.markdown.body import read_body
from guidegen.reading.types.base import Complaint
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.standards import Url

# What has a meaning in an address, and signs that fall apart into such ones, turn around, or are no text at all.
_PIECES = (
    *":/?#[]@!$&'()*+,;=%.\\-_~ \t\n\"<>",
    "//", "::", "::1", "[::]", "[.]", "[a:b]", "[1:2:3]", "[v1.x]", "[fe80::1%25eth0]", ":99999", ":٣", ":0", ":", "%zz",
    "%", "%2F", "%00", "..", "a" * 64, "xn--", "xn--a", "hob@", "hob:word@", "delta.example", "Bücher", "127.0.0.1", "☕",
    "℀", "℆", "／", "．", "。", "＠", "：", "［", "ª", "ß", "İ", "\u200d", "\u202e", "\ud800", "\0", "club/index.html", "é",
)  # fmt: skip
TYPED = st.one_of(
    st.lists(st.sampled_from(_PIECES), max_size=8).map("".join),
    st.tuples(
        st.sampled_from(["https://", "HTTP://", "https:", "http:/", "https:///", "mailto:", "//"]),
        st.lists(st.one_of(st.sampled_from(_PIECES), st.characters()), max_size=6).map("".join),
        st.lists(st.sampled_from(_PIECES), max_size=6).map("".join),
    ).map("".join),
    # Most of these are addresses.
    st.tuples(
        st.sampled_from(["https://", "HTTP://", "http://hob@"]),
        st.sampled_from(
            ["delta.example", "Bücher.Example", "[2001:db8::1]", "127.0.0.1", "☕.example", "a_b.example."]
        ),
        st.sampled_from(["", ":", ":0", ":0443", ":80", ":65535", ":65536"]),
        st.lists(st.sampled_from(("/", "%", "é", "[", "..", "index.html", "#", "?", "a")), max_size=5).map(
            lambda parts: "/" * bool(parts) + "".join(parts)
        ),
    ).map("".join),
)


@given(TYPED)
@example("https://[a:b]/")
@example("https://[.]/x")
@example("https://℀.example/")
@example("https://delta.example:99999/")
@example("https://delta.example/club/index.html")
def test_an_address_is_whole_or_none(typed: str):
    address = WebAddress.parse(typed)
    if address is None:
        return
    found = address.file("guides/ferry-watch/index.html#coats")
    assert found.isascii()
    assert re.fullmatch(r"[^\s\"<>\\^`{|}]+", found), found
    assert found.startswith(f"{address.origin}/")
    # What is made of it is an address as well, in normal form already, and in the eyes of the standard library too.
    again = WebAddress.parse(found)
    assert again is not None
    assert (again.origin, again.path) == (address.origin, f"{address.folder}guides/ferry-watch/index.html")
    parts = urlsplit(found)
    assert parts.hostname
    assert parts.port is None or 0 <= parts.port <= 65_535
    assert urljoin(found, "?x").startswith(address.origin)


@given(TYPED)
def test_a_key_takes_an_address_or_says_what_to_do(typed: str):
    for key in (Url(), Url(home=True)):
        value = key.of(typed)
        assert isinstance(value, WebAddress) or (isinstance(value, Complaint) and value.help.endswith("."))


@given(
    TYPED,
    st.sampled_from(
        ["[here]({})", "[here](<{}>)", "<{}>", "[here][a]\n\n[a]: {}", "![here]({})", "| [a]({}) |\n|-|\n"]
    ),
)
def test_every_link_into_the_web_is_an_address(typed: str, written: str):
    context = ParseContext(
        Source(file="guides/ferry-watch/guide.md", text=written.format(typed)), Listing({})
    )
    body = read_body(context, 0, ())
    for href in re.findall(r'<a href="(https?:[^"]*)"', body.before.html, re.IGNORECASE):
        assert WebAddress.parse(href.replace("&amp;", "&")) is not None
