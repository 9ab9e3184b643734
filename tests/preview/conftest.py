"""A preview's server at work, and a terminal on which nothing of it shows."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from support.preview_site import Served
from support.waiting import PATIENCE

from guidegen.preview import server as serving
from guidegen.preview import visitors


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    made = Served(tmp_path_factory.mktemp("served"))
    with pytest.MonkeyPatch.context() as patched:
        # On a busy machine an honest visitor may be slow as well; tests of slow ones take less.
        patched.setattr(visitors, "QUESTION_TIME", PATIENCE)
        patched.setattr(visitors, "LEFT_OVER_TIME", PATIENCE)
        patched.setattr(serving._Handler, "timeout", PATIENCE)
        yield made
    made.server.shutdown()
    made.server.server_close()


@pytest.fixture
def quiet(capfd: pytest.CaptureFixture[str]) -> Iterator[None]:
    """Whatever comes, nothing of it shows on the author's terminal."""
    yield
    assert capfd.readouterr() == ("", "")
