"""Links in a guide's Markdown lead where they should or nowhere, and nothing of an author's gets to be HTML."""

from __future__ import annotations

import re

import pytest
from support.markdown_body import html, read

from guidegen.reading.markdown.body import LINK_HOLDER


class TestLinks:
    """Links lead to pages of the site, to safe addresses, or nowhere."""

    @pytest.mark.parametrize(
        ("typed", "to"),
        [
            ("../widow/guide.md", "guide:widow"),
            ("../widow.md", "guide:widow"),
            ("../Widow Tansley/guide.md".replace(" ", "%20"), "guide:widow-tansley"),
            ("../widow/", "guide:widow"),
            ("../widow", "guide:widow"),
            ("/guides/widow/guide.md", "guide:widow"),
            ("../../plans/regatta.yaml", "plan:regatta"),
            ("../../shared/jetty-base.yaml", "shared:jetty-base"),
            ("../../as-is/sheet.pdf", "file:sheet.pdf"),
            ("/as-is/sheet.pdf", "file:sheet.pdf"),
            ("#boards", "step:2"),
            ("#darken-the-folds", "step:1"),
        ],
    )
    def test_within_the_site(self, typed: str, to: str):
        body, told = read(f"[here]({typed})\n")
        assert told == []
        assert LINK_HOLDER.findall(body.before.html) == [tuple(to.split(":"))]
        names = [(name.text, name.span.column) for name in body.before.links]
        assert names == ([(to.removeprefix("guide:"), 1)] if to.startswith("guide:") else [])

    @pytest.mark.parametrize(
        "address", ["https://ferry.example/a?b=1&c#d", "http://ferry.example", "mailto:hob@ferry.example"]
    )
    def test_out_of_it(self, address: str):
        assert f'<a href="{address.replace("&", "&amp;")}">here</a>' in html(f"[here]({address})\n")
        assert html(f"<{address}>\n").startswith("<p><a href=")

    @pytest.mark.parametrize(
        "address",
        [
            "javascript:alert(1)",
            "JavaScript:alert(1)",
            "java&#115;cript:alert(1)",
            "&#1;javascript:alert(1)",
            "jav&#9;ascript:alert(1)",
            "%6aavascript:alert(1)",
            "data:text/html;base64,AAAA",
            "vbscript:x",
            "file:///etc/passwd",
            "//eels.example/x",
            "/\\eels.example",
            "\\\\eels.example",
            "../../../../etc/passwd",
            "../../as-is/not-there.pdf",
            "#no-such-step",
        ],
    )
    def test_nowhere(self, address: str):
        body, told = read(f"Look [**here**](<{address}>) now\n")
        assert told == []
        assert body.before.html == "<p>Look <strong>here</strong> now</p>"
        assert body.before.links == ()


class TestSafety:
    """Nothing of an author's becomes an element or an attribute of its own."""

    @pytest.mark.parametrize(
        "text",
        [
            "<script>alert(1)</script>\n",
            "a <img src=x onerror=alert(1)> b\n",
            '<img data-photo="7">\n',
            '<a data-to="guide:x">y</a>\n',
            "<style>*{}</style>\n",
            "<!-- hidden -->\n",
            "<div\nonclick=x>\n",
        ],
    )
    def test_html_is_text(self, text: str):
        made = html(text)
        assert re.findall(r"<(\w+)", made) == ["p"]
        assert "&lt;" in made

    def test_words_cannot_leave_their_attributes(self):
        body, _ = read(
            '![" onload="x](coats.jpg "q\\" onload=\\"y")\n[a](https://x.example/"onclick="z "t")\n'
        )
        assert 'onload="' not in body.before.html
        assert "onclick=" not in re.sub(r'href="[^"]*"', "", body.before.html)
        assert body.before.photos[0].alt == '" onload="x'

    def test_code_is_shown(self):
        assert html("```html\n<b>\n```\n") == '<pre><code class="language-html">&lt;b&gt;\n</code></pre>'

    def test_tables_say_how_they_are_set_without_a_style(self):
        made = html("| a | b |\n|--:|:-:|\n| 1 | 2 |\n")
        assert 'data-align="right"' in made
        assert 'data-align="center"' in made
        assert "style" not in made
