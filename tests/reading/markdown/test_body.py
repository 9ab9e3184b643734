"""A guide's Markdown: divided among its steps, its pictures told apart."""

from __future__ import annotations

import pytest
from support.markdown_body import html, read

from guidegen.model.guide import Body, Passage
from guidegen.reading.markdown.body import LONGEST_BODY, PHOTO_HOLDER


def under(body: Body) -> dict[int, str]:
    return {where: passage.html for where, passage in body.under.items()}


class TestSteps:
    """Which text stands under which step."""

    def test_headings_that_are_titles(self):
        body, told = read("Before.\n\n## Coats\nThin.\n\n## Boards\nBrown.\n\n## Afterwards\nDone.\n")
        assert told == []
        assert body.before.html == "<p>Before.</p>"
        assert under(body) == {0: "<p>Thin.</p>", 2: "<p>Brown.</p>"}
        assert body.after.html == "<h2>Afterwards</h2>\n<p>Done.</p>"

    @pytest.mark.parametrize(
        "heading",
        ["## coats", "## COATS  ##", "##   Côats", "Coats\n-----", "## **Coats**", "## *fog* & OIL"],
    )
    def test_case_accents_and_signs_make_no_difference(self, heading: str):
        body, told = read(f"{heading}\nThin.\n")
        assert told == []
        assert list(under(body).values()) == ["<p>Thin.</p>"]

    def test_the_first_of_two_alike_takes_the_text(self):
        body, _ = read("## Coats\nThin.\n")
        assert under(body) == {0: "<p>Thin.</p>"}

    def test_the_same_heading_twice_goes_on(self):
        body, told = read("## Coats\nThin.\n\n## Boards\nBrown.\n\n## Coats\nAgain.\n")
        assert told == []
        assert under(body) == {0: "<p>Thin.</p>\n<p>Again.</p>", 2: "<p>Brown.</p>"}

    def test_a_step_with_no_text_has_a_passage(self):
        body, _ = read("## Coats\n")
        assert body.under == {0: Passage()}

    def test_other_headings_stay_where_they_are(self):
        body, told = read("# Hello\n\nA\n\n## The town\nB\n\n## Coats\nC\n\n### Detail\nD\n\n# The end\nE\n")
        assert told == []
        assert body.before.html == "<h2>Hello</h2>\n<p>A</p>\n<h2>The town</h2>\n<p>B</p>"
        assert under(body) == {0: "<p>C</p>\n<h3>Detail</h3>\n<p>D</p>"}
        assert body.after.html == "<h2>The end</h2>\n<p>E</p>"

    def test_levels_leave_none_out(self):
        assert (
            html("#### Far\n\n###### Farther\n\n# Near\n")
            == "<h2>Far</h2>\n<h3>Farther</h3>\n<h2>Near</h2>"
        )  # fmt: skip
        body, _ = read("## Coats\n\n###### Deep\n\n### Flat\n")
        assert under(body) == {0: "<h3>Deep</h3>\n<h3>Flat</h3>"}

    def test_headings_in_quotes_and_code_are_none(self):
        body, told = read("> ## Coats\n\n    ## Coats\n\n```\n## Coats\n```\n")
        assert told == []
        assert body.under == {}

    @pytest.mark.parametrize(
        ("text", "piece", "best"),
        [
            ("Ä\n\n## Coatz\n", "Coatz", "Coats"),
            ("# Coats\n", "Coats", "Coats"),
            ("### Boards\n", "Boards", "Boards"),
            ("## 2. Darken the folds\n", "2. Darken the folds", "Darken the folds"),
            ("## Step 3: boards\n", "Step 3: boards", "Boards"),
            ("Boardss\n----\n", "Boardss", "Boards"),
        ],
    )
    def test_nearly_a_title(self, text: str, piece: str, best: str):
        _, (told,) = read(text)
        assert told.code == "heading-near-a-step"
        assert f"“{best}”" in told.message
        assert told.help.startswith(f"Write ## {best}")
        line = text.split("\n")[told.span.line - 1]
        assert line[told.span.column - 1 : told.span.end_column - 1] == piece

    @pytest.mark.parametrize("text", ["## Afterwards\n", "### Coat hangers\n", "## Coats\n\n### Coats\n"])
    def test_not_near_any(self, text: str):
        assert read(text)[1] == []


class TestPictures:
    """Pictures are place-holders, and the records beside them know everything."""

    def test_a_picture(self):
        body, told = read('Here ![both *wet*  coats](coats.jpg "So it looks") it is.\n')
        (photo,) = body.before.photos
        assert told == []
        assert (photo.file, photo.path) == ("coats.jpg", "guides/ferry-watch/coats.jpg")
        assert (photo.alt, photo.caption) == ("both wet coats", "So it looks")
        assert body.before.html == '<p>Here <img data-photo="0"> it is.</p>'
        assert (photo.span.line, photo.span.column, photo.span.end_column) == (1, 27, 36)

    def test_alone_in_its_paragraph(self):
        assert (
            html("![a](coats.jpg)\n![b](coats.jpg)\n\nText\n")
            == '<img data-photo="0" data-alone>\n<img data-photo="1" data-alone>\n<p>Text</p>'
        )  # fmt: skip

    def test_counted_passage_by_passage(self):
        body, _ = read("![a](coats.jpg)\n\n## Coats\n![b](coats.jpg) ![c](coats.jpg)\n")
        assert [photo.alt for photo in body.before.photos] == ["a"]
        assert [photo.alt for photo in body.under[0].photos] == ["b", "c"]
        assert PHOTO_HOLDER.findall(body.under[0].html) == [("0", " data-alone"), ("1", " data-alone")]

    @pytest.mark.parametrize(
        ("typed", "path"),
        [
            ("<two words.jpg>", "guides/ferry-watch/two words.jpg"),
            ("two%20words.jpg", "guides/ferry-watch/two words.jpg"),
            ("./coats.jpg", "guides/ferry-watch/coats.jpg"),
            ("../harbour.jpg", "guides/harbour.jpg"),
            ("Öl.jpg", "guides/ferry-watch/Öl.jpg"),
            ("O\u0308l.jpg", "guides/ferry-watch/Öl.jpg"),
        ],
    )
    def test_files(self, typed: str, path: str):
        body, told = read(f"![a]({typed})\n")
        assert told == []
        assert [photo.path for photo in body.before.photos] == [path]

    def test_by_reference(self):
        body, told = read("![a][c]\n\n[c]: coats.jpg\n")
        assert told == []
        assert [photo.path for photo in body.before.photos] == ["guides/ferry-watch/coats.jpg"]

    @pytest.mark.parametrize(
        ("text", "place", "piece"),
        [
            ("Ä ü 雨 ![a](coatz.jpg)\n", (1, 12), "coatz.jpg"),
            ("> - deep ![a](coatz.jpg)\n", (1, 15), "coatz.jpg"),
            ("One\ntwo\n  three ![a](coatz.jpg)\n", (3, 14), "coatz.jpg"),
            ("| a | b |\n|---|---|\n| x | ![a](coatz.jpg) |\n", (3, 12), "coatz.jpg"),
            ("![a](../../../secret.jpg)\n", (1, 6), "../../../secret.jpg"),
            ("![a](https://eels.example/eel.jpg)\n", (1, 6), "https://eels.example/eel.jpg"),
            ("![a](/etc/passwd)\n", (1, 6), "/etc/passwd"),
            ("![a](data:image/png;base64,AAAA)\n", (1, 6), "data:image/png;base64,AAAA"),
        ],
    )
    def test_missing(self, text: str, place: tuple[int, int], piece: str):
        body, (told,) = read(text)
        assert (told.code, (told.span.line, told.span.column)) == ("missing-photo", place)
        assert told.span.end_column - told.span.column == len(piece)
        line = text.split("\n")[told.span.line - 1]
        assert line[told.span.column - 1 : told.span.end_column - 1] == piece
        assert [photo.path for photo in body.before.photos] == [None]

    def test_a_blank_in_the_name(self):
        _, (told,) = read("See ![the coats](two words.jpg) here.\n")
        assert told.code == "missing-photo"
        assert (told.span.column, told.span.end_column) == (5, 32)
        assert told.help.endswith("![the coats](<two words.jpg>)")

    @pytest.mark.parametrize("alt", ["", " "])
    def test_without_words(self, alt: str):
        _, (told,) = read(f"Ä ![{alt}](coats.jpg)\n")
        assert told.code == "photo-without-alt"
        assert (told.span.column, told.span.end_column) == (3, 17 + len(alt))


def test_words_alone():
    body, _ = read("A *b* `c`\nd ![e](coats.jpg)\n\n- f\n\n```\ng\n```\n")
    assert body.before.plain.split() == ["A", "b", "c", "d", "f", "g"]


def test_a_text_too_long_to_be_one():
    body, (told,) = read("x" * (LONGEST_BODY + 1))
    assert body == Body()
    assert told.code == "bad-value"
    assert told.span.column == LONGEST_BODY + 1


class TestListings:
    """Blocks of code, with the path of the file that they show."""

    @pytest.mark.parametrize(
        "path", ["palette.yaml", "content/palette.yaml", "guides/a_b/guide.md", "shared/x"]
    )
    def test_a_files_path_stands_above_its_text(self, path: str):
        body, told = read(f"```yaml {path}\na: <b>\n```\n")
        assert told == []
        assert body.before.html == (
            f'<figure class="listing"><figcaption>{path}</figcaption>'
            '<pre><code class="language-yaml">a: &lt;b&gt;\n</code></pre></figure>'
        )
        assert body.before.plain == "a: <b>"

    @pytest.mark.parametrize(
        "rest", ["", " ", " numbered", " title=a.yaml", " a.yaml b.yaml", " {1,3}", " <b>.md"]
    )
    def test_other_words_are_no_path(self, rest: str):
        body, _ = read(f"```yaml{rest}\na\n```\n")
        assert body.before.html == '<pre><code class="language-yaml">a\n</code></pre>'

    def test_a_language_cannot_break_out(self):
        body, _ = read('```x"><script> a.md\na\n```\n')
        assert "<script>" not in body.before.html
        assert 'class="language-x&quot;&gt;&lt;script&gt;"' in body.before.html
