"""What a site is like while it is published: whole at every moment, and in the end exactly what was asked for."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.made_sites import (
    Failing,
    Killed,
    Killing,
    Watched,
    check_whole,
    files_in,
    folders_around,
    folders_in,
    put,
    sites,
)

from guidegen.base.errors import MachineError
from guidegen.writing.trouble import UNTOUCHED

pytestmark = pytest.mark.slow


@settings(max_examples=60)
@given(old=sites(), new=sites(), keys=st.booleans())
def test_whole_at_every_moment_and_exact_in_the_end(old, new, keys):
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "site"
        put(old, out, keys=keys)
        put(new, out, keys=keys, disk=Watched(lambda: check_whole(out, old, new)))
        assert files_in(out) == new
        assert folders_in(out) == folders_around(new)


@settings(max_examples=90)
@given(old=sites(), new=sites(), third=sites(), at=st.integers(0, 60))
def test_a_killed_build_leaves_a_whole_site_that_the_next_one_heals(old, new, third, at):
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "site"
        put(old, out)
        try:
            put(new, out, disk=Killing(at))
        except Killed:
            check_whole(out, old, new)
        put(third, out, disk=Watched(lambda: check_whole(out, old, new, third)))
        assert files_in(out) == third
        assert folders_in(out) == folders_around(third)


@settings(max_examples=70)
@given(old=sites(), new=sites(), at=st.integers(0, 60), once=st.booleans())
def test_a_full_disk_costs_nothing(old, new, at, once):
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "site"
        put(old, out)
        try:
            put(new, out, disk=Failing(at, once=once))
        except MachineError as error:
            check_whole(out, old, new)
            if UNTOUCHED in error.message:
                assert files_in(out) == old
        else:
            assert {path: data for path, data in files_in(out).items() if not path.startswith(".")} == new
        put(new, out)
        assert files_in(out) == new


@settings(max_examples=20)
@given(site=sites())
def test_publishing_the_same_again_does_nothing(site):
    with tempfile.TemporaryDirectory() as folder:
        out, memory = Path(folder) / "site", Path(folder) / "cache" / "site.json"
        put(site, out, memory=memory)
        again = put(site, out, memory=memory, disk=Failing(0))
        assert (again.changes.written, again.unchanged, again.removed) == ((), len(site), 0)
