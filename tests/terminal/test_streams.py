"""What a stream writes in place of characters that its encoding lacks; test_machines.py has whole commands do it."""

from __future__ import annotations

import codecs

from guidegen.terminal.streams import _plainer


def test_a_character_that_the_encoding_lacks_becomes_a_plainer_one():
    codecs.register_error("plainer-in-tests", _plainer)
    assert "“…” × – 塗".encode("ascii", "plainer-in-tests") == b'"..." x - ?'
    assert "“…” ×".encode("latin-1", "plainer-in-tests") == '"..." ×'.encode("latin-1")
