"""The reader of Markdown that guides are read with: raw HTML is text, and pictures and links know their places."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml, unescapeAll
from markdown_it.rules_inline import StateInline, autolink, image, link
from markdown_it.token import Token

# A line of nothing but marks below the words that they mean.
_MARKS = re.compile(r"^ +[~^]+ *$", re.MULTILINE)
# What may stand after a block's language: the path of the file that it shows.
_FILE = re.compile(r"(?=.*[./])[\w.-]+(?:/[\w.-]+)*")


def _placed(rule: Any, kind: str) -> Any:
    """An inline rule that notes where in the block's text its piece begins and ends."""

    def placed(state: StateInline, silent: bool) -> bool:
        start, count = state.pos, len(state.tokens)
        if not rule(state, silent):
            return False
        if not silent:
            token = next((token for token in state.tokens[count:] if token.type == kind), None)
            if token is not None:
                token.meta = {"start": start, "end": state.pos}
        return True

    return placed


def _photo_holder(_self: Any, tokens: list[Token], at: int, _options: Any, _env: Any) -> str:
    meta = tokens[at].meta
    return f'<img data-photo="{meta["photo"]}"{" data-alone" if meta.get("alone") else ""}>'


def _listing(_self: Any, tokens: list[Token], at: int, _options: Any, _env: Any) -> str:
    """A block of code. What is a file's, as in ```yaml content/palette.yaml, has the file's path above it.

    Where one line marks a place in the line above, no line may break: such a block can be pushed sideways.
    """
    language, _, file = " ".join(unescapeAll(tokens[at].info).split()).partition(" ")
    code = f' class="language-{escapeHtml(language)}"' if language else ""
    aligned = ' class="aligned" tabindex="0"' if _MARKS.search(tokens[at].content) else ""
    block = f"<pre{aligned}><code{code}>{escapeHtml(tokens[at].content)}</code></pre>"
    if not _FILE.fullmatch(file):
        return f"{block}\n"
    return f'<figure class="listing"><figcaption>{escapeHtml(file)}</figcaption>{block}</figure>\n'


def _any_link(url: str) -> bool:
    """Links are looked at once they are read, so that a picture's address can be told about."""
    del url
    return True


@cache
def reader() -> MarkdownIt:
    """CommonMark with tables and strikethrough; raw HTML is text, and links are looked at afterwards."""
    made = MarkdownIt("commonmark", {"html": False, "xhtmlOut": False}).enable(["table", "strikethrough"])
    made.validateLink = _any_link  # type: ignore[method-assign]
    made.inline.ruler.at("image", _placed(image, "image"))
    made.inline.ruler.at("link", _placed(link, "link_open"))
    made.inline.ruler.at("autolink", _placed(autolink, "link_open"))
    made.add_render_rule("photo", _photo_holder)
    made.add_render_rule("fence", _listing)
    return made
