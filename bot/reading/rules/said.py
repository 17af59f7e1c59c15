"""A stretch of a reply that a rule matched, with what stands on both sides of it."""

from re import Match
from typing import NamedTuple

from bot.reading.page import Page
from bot.reading.tags import Item


class Said(NamedTuple):
    """The items of *page* that *hit* covers."""

    page: Page
    hit: Match[str]

    @property
    def words(self) -> list[str]:
        """Its words."""
        return self.page.words[self._first : self._last + 1]

    @property
    def lead(self) -> list[str]:
        """The words before it."""
        return self.page.words[: self._first]

    @property
    def tail(self) -> list[str]:
        """The words after it."""
        return self.page.words[self._last + 1 :]

    @property
    def line(self) -> str:
        """The tags before it."""
        return self.page.line[: self.hit.start()]

    @property
    def next(self) -> Item | None:
        """The item after it."""
        return self.page.items[self.hit.end()] if self.hit.end() < len(self.page.items) else None

    def goes_on(self, *tags: str) -> bool:
        """Whether one of the sequences of tags follows."""
        return self.page.line.startswith(tags, self.hit.end())

    @property
    def _first(self) -> int:
        return self.page.items[self.hit.start()].first

    @property
    def _last(self) -> int:
        return self.page.items[self.hit.end() - 1].last
