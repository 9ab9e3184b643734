"""The number of the last rebuild, and pages of the preview that wait until it changes."""

from __future__ import annotations

import threading
from collections.abc import Collection
from dataclasses import dataclass, field

# How long a page's question stays open before it is answered "nothing new": under usual proxies' and browsers' limits.
PATIENCE = 25.0
# Pages that may wait for news at once; more are answered at once and ask again.
MOST_WAITING = 64


@dataclass(slots=True)
class News:
    """What the last build had to say. `turn` grows with every build; `panel` is HTML of its errors, empty if none.

    A page is told of the last turn that concerned it: `everywhere`, or its own by its path in the site.
    """

    turn: int = 0
    panel: str = ""
    everywhere: int = 0
    pages: dict[str, int] = field(default_factory=dict)
    _changed: threading.Condition = field(default_factory=threading.Condition, repr=False)
    _waiting: int = 0

    def tell(self, panel: str, pages: Collection[str] | None = None) -> None:
        """Note that a build has ended, and wake the pages that wait; `pages` are the paths of those changed, None for all."""
        with self._changed:
            self.turn += 1
            if pages is None or panel != self.panel:
                self.everywhere = self.turn
            else:
                self.pages.update(dict.fromkeys(pages, self.turn))
            self.panel = panel
            self._changed.notify_all()

    def turn_of(self, page: str) -> int:
        """The last turn that concerns a page."""
        return max(self.everywhere, self.pages.get(page, 0))

    def wait(self, known: int, page: str = "", patience: float = PATIENCE) -> tuple[int, str]:
        """The page's turn and the panel, once the turn is no longer `known`, or when patience is at an end."""
        with self._changed:
            if self._waiting < MOST_WAITING:
                self._waiting += 1
                try:
                    self._changed.wait_for(lambda: self.turn_of(page) != known, timeout=patience)
                finally:
                    self._waiting -= 1
            return self.turn_of(page), self.panel
