"""The preview's server against visitors that are hostile, slow, many, or talk no HTTP at all."""

from __future__ import annotations

import pytest
from support.preview_site import SECRET, Served, status

from guidegen.preview.reload import News

pytestmark = pytest.mark.usefixtures("quiet")


def test_it_listens_on_the_loopback_address_alone(served: Served):
    assert served.server.server_address[0] == "127.0.0.1"
    assert served.server.socket.getsockname()[0] == "127.0.0.1"


@pytest.mark.parametrize(
    "name", ["127.0.0.1:{port}", "localhost:{port}", "LocalHost:{port}", " localhost:{port} "]
)
def test_its_own_names_are_answered(served: Served, name: str):
    assert status(served.ask(host=name.format(port=served.port))) == 200


@pytest.mark.parametrize(
    "name",
    [
        "",
        "127.0.0.1",
        "localhost",
        "127.0.0.1:80",
        "127.0.0.1:{port}.example",
        "127.0.0.1.example:{port}",
        "127.0.0.1.nip.example:{port}",
        "localhost.:{port}",
        "localhost.example:{port}",
        "guides.example",
        "guides.example:{port}",
        "user@127.0.0.1:{port}",
        "127.0.0.1:{port}@guides.example",
        "0.0.0.0:{port}",
        "127.1:{port}",
        "2130706433:{port}",
        "[::1]:{port}",
        "[::ffff:127.0.0.1]:{port}",
        "127.0.0.1:0{port}",
        "127.0.0.1:{port}, guides.example",
        "127.0.0.1:{port}/",
        "127.0.0.1:{port}\x00",
        "ｌocalhost:{port}",
    ],
)
def test_a_foreign_name_is_not_answered(served: Served, name: str):
    answer = served.ask(host=name.format(port=served.port))
    assert status(answer) == 421
    assert b"home" not in answer


@pytest.mark.parametrize(
    "head",
    [
        "GET / HTTP/1.1\r\n\r\n",
        "GET / HTTP/1.0\r\n\r\n",
        "GET / HTTP/1.1\r\nHost: {own}\r\nHost: {own}\r\n\r\n",
        "GET / HTTP/1.1\r\nHost: {own}\r\nHost: guides.example\r\n\r\n",
        "GET / HTTP/1.1\r\nHost: guides.example\r\nhOST: {own}\r\n\r\n",
        "GET / HTTP/1.1\r\nHost : {own}\r\n\r\n",
        "GET index.html HTTP/1.1\r\nHost: {own}\r\n\r\n",
        "GET ..\\index.html HTTP/1.1\r\nHost: {own}\r\n\r\n",
        "GET ftp://{own}/ HTTP/1.1\r\nHost: {own}\r\n\r\n",
        "GET / HTTP/1.1 more\r\nHost: {own}\r\n\r\n",
        "GET /\r\nHost: {own}\r\n HTTP/1.1\r\n\r\n",
        "GET / HTTP/1.\r\nHost: {own}\r\n\r\n",
        "GET / HTTP/²\r\nHost: {own}\r\n\r\n",
        "GET / HTTP/-1.1\r\nHost: {own}\r\n\r\n",
        "GET / HTTP/2.0\r\nHost: {own}\r\n\r\n",
        "GET /\r\n\r\n",
        "GET\r\n\r\n",
        "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
        "\x00\x00\x00\r\n\r\n",
    ],
)
def test_what_is_no_request_is_refused(served: Served, head: str):
    answer = served.say(head.format(own=f"127.0.0.1:{served.port}").encode("latin-1"))
    assert b"home" not in answer
    assert status(answer) in {400, 421, 505}


def test_a_whole_address_in_the_first_line_is_ours_or_refused(served: Served):
    """RFC 9112, section 3.2.2."""
    own = f"127.0.0.1:{served.port}"
    assert b"lamp boys" in served.ask(f"http://{own}/guides/lamp-boys/index.html")
    assert b"home" in served.ask(f"HTTP://{own}")
    for target in (
        "http://guides.example/",
        f"http://{own}@guides.example/",
        f"http://user@{own}/",
        "http://[x/",
        "http://[::1/",
        "http:///",
    ):
        assert status(served.ask(target)) == 421, target
    assert status(served.ask(f"http://{own}/", host="guides.example")) == 421


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "CONNECT", "OPTIONS", "TRACE", "PATCH"])
def test_other_methods_are_not_allowed(served: Served, method: str):
    """RFC 9110, section 15.5.6: the answer says which are."""
    for target in ("/", "*", f"127.0.0.1:{served.port}", "/.preview/news.js"):
        answer = served.ask(target, method)
        assert status(answer) == 405, target
        assert b"\r\nAllow: GET, HEAD\r\n" in answer


@pytest.mark.parametrize("method", ["FERRY", "get", "GET_", "PROPFIND", "__class__", "É"])
def test_methods_that_http_does_not_know(served: Served, method: str):
    """RFC 9110, section 9.1."""
    assert status(served.ask("/", method)) == 501


def test_head_is_get_without_the_body(served: Served):
    for target in ("/", "/large.bin", "/nowhere.html", "/.preview/wait.js"):
        get, head = served.ask(target), served.ask(target, "HEAD")
        assert head.endswith(b"\r\n\r\n")
        fields = [
            [line for line in answer.partition(b"\r\n\r\n")[0].split(b"\r\n") if b"Date" not in line]
            for answer in (get, head)
        ]
        assert fields[0] == fields[1]


def test_a_body_is_never_taken_for_a_second_request(served: Served):
    own = f"127.0.0.1:{served.port}"
    hidden = f"GET /guides/lamp-boys/index.html HTTP/1.1\r\nHost: {own}\r\n\r\n"
    for method in ("GET", "POST"):
        for field in (f"Content-Length: {len(hidden)}", "Transfer-Encoding: chunked", "Content-Length: -1"):
            answer = served.say(f"{method} / HTTP/1.1\r\nHost: {own}\r\n{field}\r\n\r\n{hidden}".encode())
            assert answer.count(b"HTTP/1.1 ") == 1
            assert b"lamp boys" not in answer
            assert b"\r\nConnection: close\r\n" in answer


@pytest.mark.parametrize(
    "field",
    [
        "Content-Length : {size}",
        "Content-Length\t: {size}",
        "Transfer-Encoding : chunked",
        "X-Before: 1\r\n Content-Length: {size}",
        " Content-Length: {size}",
        "Content-Length",
        ": {size}",
        "Content(Length: {size}",
        "Content-Length\x0b: {size}",
        "X-Before: 1\rContent-Length : {size}",
        "X-Before: 1\n\x00Content-Length: {size}",
        "From here Content-Length: {size}",
        "Expect: 100-continue\r\nContent-Length : {size}",
    ],
)
def test_a_header_line_that_is_none_is_refused_with_all_that_follows(served: Served, field: str):
    """RFC 9112, sections 2.2, 5.1 and 5.2: white space before the colon or at the line's start is answered by 400."""
    own = f"127.0.0.1:{served.port}"
    hidden = f"GET /guides/lamp-boys/index.html HTTP/1.1\r\nHost: {own}\r\n\r\n"
    line = field.format(size=len(hidden))
    for first, second in ((f"Host: {own}", line), (line, f"Host: {own}")):
        answer = served.say(f"GET / HTTP/1.1\r\n{first}\r\n{second}\r\n\r\n{hidden}".encode())
        assert answer.count(b"HTTP/1.1 ") == 1
        assert status(answer) == 400
        assert b"\r\nConnection: close\r\n" in answer


def test_who_asks_before_sending_a_body_is_answered_once(served: Served):
    """RFC 9110, section 10.1.1: a final answer at once, where none of the body is wanted."""
    answer = served.ask(more="Expect: 100-continue\r\nContent-Length: 40\r\n")
    assert answer.count(b"HTTP/1.1 ") == 1
    assert status(answer) == 200


@pytest.mark.parametrize(
    "target",
    [
        "/../palette.yaml",
        "/%2e%2e/palette.yaml",
        "/..%2fpalette.yaml",
        "/%2e%2e%2fpalette.yaml",
        "/%252e%252e/palette.yaml",
        "/%252e%252e%252fpalette.yaml",
        "/guides/../../palette.yaml",
        "/guides/lamp-boys/..%2f..%2f..%2fpalette.yaml",
        "/..\\palette.yaml",
        "/..%5cpalette.yaml",
        "/%c0%ae%c0%ae/palette.yaml",
        "/．．/palette.yaml",
        "/%uff0e%uff0e/palette.yaml",
        "/{top}/palette.yaml",
        "//{top}/palette.yaml",
        "/%2f{top}/palette.yaml",
        "/file:///{top}/palette.yaml",
        "/.guidegen-manifest.json",
        "/%2eguidegen-manifest.json",
        "/./.guidegen-manifest.json",
        "/guides/%2e./.guidegen-manifest.json",
        "/index.html%00.jpg",
        "/%00",
        "/index.html/../../palette.yaml",
        "/out.yaml",
        "/out/palette.yaml",
        "/round/index.html",
        "/manifest.json",
        "/dev",
        "/pipe",
        "/{long}",
        "/{deep}index.html",
        "/~/palette.yaml",
        "/$HOME/palette.yaml",
        "/index.html::$DATA",
        "/*",
        "/guides",
        "/%",
        "/%zz",
    ],
)
def test_no_address_leads_out_of_the_site(served: Served, target: str):
    answer = served.ask(target.format(top=str(served.site.parent), long="n" * 5000, deep="d/" * 3000))
    assert status(answer) == 404, target
    assert SECRET not in answer


def test_an_address_says_what_it_may(served: Served):
    """What is only unusual finds its page all the same, and what stands after ? is no part of the path."""
    for target in (
        "/guides/lamp-boys/",
        "//guides//lamp-boys",
        "/%67uides/lamp-boys?/../../x#[",
        "/guides/lamp-boys?a=%",
    ):
        assert b"lamp boys" in served.ask(target), target


@pytest.mark.parametrize(
    "query",
    [
        "turn=9",
        "turn=" + "9" * 4000,
        "turn=-1",
        "turn=٣",
        "turn=1&turn=2",
        "page=%00",
        "&" * 3000,
        "page=" + "/.." * 900,
    ],
)
def test_the_question_for_news_takes_anything(served: Served, query: str, monkeypatch: pytest.MonkeyPatch):
    served.server.news.tell("<h2></script>\u2028</h2>")
    monkeypatch.setattr(News, "wait", lambda self, _known, _page: (self.turn, self.panel))
    body = served.ask(f"/.preview/news.js?{query}").partition(b"\r\n\r\n")[2]
    assert (
        body
        == b'guidegenPreview(%d, "\\u003ch2>\\u003c/script>\\u2028\\u003c/h2>");\n' % served.server.news.turn
    )


def test_no_answer_is_for_pages_from_elsewhere(served: Served):
    for target in ("/", "/nowhere", "/.preview/news.js?turn=9", "/.preview/wait.js", "/large.bin"):
        head = served.ask(target, "HEAD", more="Origin: http://guides.example\r\n")
        assert b"\r\nCross-Origin-Resource-Policy: same-origin\r\n" in head
        assert b"\r\nX-Content-Type-Options: nosniff\r\n" in head
        assert b"Access-Control" not in head
