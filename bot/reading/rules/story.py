"""What the clauses so far told, while a reply is gone through."""

from dataclasses import dataclass
from datetime import date

from bot.reading.rules.entries import Entry
from bot.reading.tags import Item, Tag

JOINED = frozenset({Tag.COMMA, Tag.AND, Tag.THEN, Tag.COLON, Tag.OPEN})
"""After one of these a stretch goes on from the one before."""


ON_FOOT = {"walk": "walk", "run": "run", "jog": "run"}
"""What the last word of "half the walk" names."""


@dataclass(slots=True)
class Story:
    """What the clauses so far told: entries, the day they are of, an activity that still lacks its amount."""

    entries: list[Entry]
    day: date | None = None
    open_act: Item | None = None
    machine: Item | None = None
    named: Item | None = None
    """The activity named last, whatever was said of it."""
    planned: bool = False
    aside: int = 0
    """Items of the sentence so far."""
    told: bool = False
    """Whether the sentence told of something done."""

    @property
    def undivided(self) -> bool:
        """Whether several activities were told, none with an amount: "ran some, walked some"."""
        return len(self.entries) > 1 and all(each.bare for each in self.entries)

    @property
    def last(self) -> Entry | None:
        """The entry told last."""
        return self.entries[-1] if self.entries else None
