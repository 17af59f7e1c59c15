"""One reply while it is being read: its tokens, its tagged items, and what the rules have found so far."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time
from enum import StrEnum
from itertools import islice
from re import Match, Pattern
from typing import NamedTuple, Protocol

from bot.reading.facts import Asked, Did, Habit, MoveTo, Off, PastDanger, Tally, Weather
from bot.reading.leads import lead, needs, sure
from bot.reading.tags import Item, Letter, Tag, Token, pattern
from planning.terms.entry import Complaint


class Key(StrEnum):
    """The keys of a reading that rules can find."""

    DID = "did"
    MISSED = "missed"
    EFFORT = "effort"
    BODY = "body"
    CLEAR = "clear"
    DANGER = "danger"
    ILL = "ill"
    FEVER = "fever"
    HAVE = "have_min"
    LATER_MIN = "later_min"
    LATER_AT = "later_at"
    MOVE = "move_to"
    OFF = "off"
    WEIGHT = "weight_kg"
    MOOD = "mood"
    SURE = "sure"
    TALLY = "tally"
    WANTS = "wants"
    STUCK = "stuck"
    WEATHER = "weather"
    PLACE = "place"
    PLACE_UNTIL = "place_until"
    CORRECT = "correct"
    WELL = "well"
    HABIT = "habit"
    PAST_DANGER = "past_danger"
    ALARM = "alarm"
    LOSS = "loss"
    SLEPT = "slept_h"
    LOW_DAY = "low_day"
    NO_TIME = "no_time"


Value = Did | Complaint | MoveTo | Off | Tally | Weather | Habit | PastDanger | str | float | bool | date | time | None


class Found(NamedTuple):
    """One fact with the tokens *first* to *last* that it came from, and the name of the rule that fired."""

    key: Key
    value: Value
    first: int
    last: int
    rule: str


_BOUNDS = frozenset({Tag.STOP, Tag.COMMA, Tag.ASK, Tag.AND, Tag.BUT, Tag.THEN})


class Stretch(Protocol):
    """Items *start* to *end* (exclusive)."""

    start: int
    end: int


@dataclass(slots=True)
class Page:
    """The working sheet of one reply. *line* holds the tags of *items*, one character each."""

    at: datetime
    planned_min: float | None
    asked: Asked | None
    text: str
    tokens: list[Token]
    words: list[str]
    """The words of *tokens*."""
    items: list[Item]
    line: str = ""
    there: frozenset[str] = frozenset()
    """The tags that *line* held before any claim."""
    found: list[Found] = field(default_factory=list)
    elsewhere: frozenset[int] = frozenset()
    """Tokens that tell of somebody else or of long ago."""
    signs: frozenset[int] = frozenset()
    """Tokens of danger signs that bring numbers of their own (blood sugar, heart rate, days without food)."""

    def __post_init__(self) -> None:
        self.line = "".join([item.tag for item in self.items])
        self.there = frozenset(self.line)

    @property
    def today(self) -> date:
        """The sender's local date."""
        return self.at.date()

    def said(self, part: Stretch) -> list[str]:
        """The words of a stretch of items."""
        if part.end <= part.start:
            return []
        return self.words[self.items[part.start].first : self.items[part.end - 1].last + 1]

    def sentence_start(self, index: int) -> int:
        """The first item of the sentence in which item *index* stands; a question ends one too."""
        return max(self.line.rfind(mark, 0, index) for mark in (Tag.STOP, Tag.ASK)) + 1

    def sentence_end(self, index: int) -> int:
        """The mark that ends the sentence in which item *index* stands, or the end of the line."""
        marks = (self.line.find(mark, index) for mark in (Tag.STOP, Tag.ASK))
        return min((place for place in marks if place >= 0), default=len(self.line))

    def claim(self, start: int, end: int) -> None:
        """Take items *start* to *end* (exclusive) out of the sight of later rules; marks stay, they bound clauses."""
        middle = "".join([char if char in _BOUNDS else Tag.USED for char in self.line[start:end]])
        self.line = self.line[:start] + middle + self.line[end:]

    def add(self, key: Key, value: Value, start: int, end: int, rule: str) -> None:
        """Keep a fact that items *start* to *end* (exclusive) gave."""
        self.found.append(Found(key, value, self.items[start].first, self.items[end - 1].last, rule))

    def has(self, *keys: Key) -> bool:
        """Whether any of *keys* was found."""
        return any(fact.key in keys for fact in self.found)

    def pick(self, hit: Match[str], *tags: Letter) -> Iterator[Item]:
        """The items of *tags* within *hit*, in order."""
        return (self.items[index] for index in range(hit.start(), hit.end()) if self.line[index] in tags)

    def first(self, hit: Match[str], *tags: Letter) -> Item | None:
        """The first item of *tags* within *hit*."""
        return next(self.pick(hit, *tags), None)


Finding = tuple[Key, Value]
Produce = Callable[[Page, Match[str]], Iterable[Finding]]


class Rule(NamedTuple):
    """A named pattern over tags and what it gives; *claims*: its items are then out of the sight of later rules.

    *needs*: tags that it can't match without; *lead*: tags of which it needs one, those least often met.
    """

    name: str
    pattern: Pattern[str]
    produce: Produce
    claims: bool
    needs: frozenset[str]
    lead: frozenset[Letter]


def rule(name: str, text: str, produce: Produce, claims: bool = True) -> Rule:
    """A rule whose pattern is written in tag names (`REMIND NEAR{0,3} DUR`)."""
    needed = needs(text)
    return Rule(name, pattern(text), produce, claims, sure(needed), lead(needed))


MOST_HITS = 40
"""So often one rule may fire in one reply: nobody means more, and time stays linear in the length."""


def fire(rule: Rule, page: Page) -> None:
    """Keep what *rule* finds in *page*."""
    if not rule.needs <= page.there:
        return
    for hit in islice(rule.pattern.finditer(page.line), MOST_HITS):
        facts = list(rule.produce(page, hit)) if hit.end() > hit.start() else []
        for key, value in facts:
            page.add(key, value, hit.start(), hit.end(), rule.name)
        if facts and rule.claims:
            page.claim(hit.start(), hit.end())
