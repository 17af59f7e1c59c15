"""An amount in its clause, with what stands around it."""

from typing import NamedTuple

from bot.reading.page import Page
from bot.reading.rules.clauses import Clause
from bot.reading.tags import Item


class Amount(NamedTuple):
    """The amount at item *place* of *clause*."""

    page: Page
    clause: Clause
    place: int

    @property
    def item(self) -> Item:
        """The amount itself."""
        return self.page.items[self.place]

    @property
    def first(self) -> int:
        """Its first token."""
        return self.item.first

    @property
    def before(self) -> str:
        """The tag before it in its clause; empty at its start."""
        return self.page.line[self.place - 1] if self.place > self.clause.start else ""

    @property
    def next(self) -> str:
        """The tag after it; empty at the end."""
        return self.page.line[self.place + 1 : self.place + 2]

    @property
    def lead(self) -> list[str]:
        """The words of its clause before it."""
        return self.page.words[self.page.items[self.clause.start].first : self.first]

    @property
    def after(self) -> list[str]:
        """Three words after it."""
        return self.page.words[self.item.last + 1 : self.item.last + 4]

    @property
    def of_deed(self) -> bool:
        """Whether its clause tells of an activity, of something done or of the session."""
        return bool(self.clause.acts or self.clause.told or self.clause.sessions)

    def behind(self, tags: int) -> str:
        """So many *tags* before it, fewer near the start."""
        return self.page.line[max(0, self.place - tags) : self.place]

    def said(self, words: int) -> list[str]:
        """So many *words* before it, fewer near the start."""
        return self.page.words[max(0, self.first - words) : self.first]
