"""An amount in its clause, with what stands around it."""

from typing import NamedTuple

from bot.reading.page import Page
from bot.reading.rules.clauses import Clause
from bot.reading.tags import Item


class Amount(NamedTuple):
    """The *item* at *place* of *clause*. *before* and *next*: the tags around it, empty at the ends; the one before
    only in its own clause. *first*: its first token."""

    page: Page
    clause: Clause
    place: int
    item: Item
    before: str
    next: str
    first: int

    @classmethod
    def at(cls, page: Page, clause: Clause, place: int) -> "Amount":
        """The amount at item *place*."""
        item, line = page.items[place], page.line
        before = line[place - 1] if place > clause.start else ""
        return cls(page, clause, place, item, before, line[place + 1 : place + 2], item.first)

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
