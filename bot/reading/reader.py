"""The way of a reply through the stages: plain text, tokens, items, rules, reading."""

from datetime import datetime
from zoneinfo import ZoneInfo

from bot.reading import amounts, context, lexicon, normalise, scan, spelling, tokens
from bot.reading.edges import trimmed
from bot.reading.facts import Asked, Reading
from bot.reading.page import Page
from bot.reading.resolve import reading_of
from bot.reading.rules import asked as answers
from bot.reading.rules import (
    beyond,
    body,
    breaks,
    danger,
    days,
    done,
    leftover,
    missed,
    moves,
    plain,
    plans,
    questions,
    repeats,
    short,
    tallies,
)
from bot.reading.rules.whole import whole
from bot.reading.tags import tags
from bot.reading.turns import Turn, Turns


def reading_of_reply(text: str, at: datetime, tz: str, planned_min: float | None, asked: Asked | str | None) -> Reading:
    """See `bot.reading.read`."""
    page = page_of(text, _wall(at, tz), planned_min, Asked(asked) if asked in _QUESTIONS else None)
    run(page)
    return reading_of(page)


_QUESTIONS = tuple(Asked)


def _wall(at: datetime, tz: str) -> datetime:
    """Wall time in *tz*: a naive time is one already, as is one in a zone that nobody knows."""
    if at.tzinfo is None:
        return at
    try:
        return at.astimezone(ZoneInfo(tz)).replace(tzinfo=None)
    except (KeyError, ValueError, OSError, OverflowError):
        return at.replace(tzinfo=None)


def page_of(text: str, at: datetime, planned_min: float | None, asked: Asked | None) -> Page:
    """*text* as tokens and items, before any rule."""
    found = spelling.mended(trimmed(tokens.tokens_of(normalise.normalise(text), lexicon.spelling())))
    words = [token.word for token in found]
    items = context.in_context(amounts.compose(scan.items_of(found, words, lexicon.phrases())))
    return Page(at, planned_min, asked, text, found, words, items)


def run(page: Page) -> None:
    """All rules over *page*."""
    danger.danger(page)
    if page.found or not whole(page):
        TURNS.take(page)


TURNS = Turns(
    plain.WANTS,
    repeats.REPEATS,
    plain.RATINGS,
    plain.SURE_SHARES,
    tallies.TALLIES,
    plain.WEIGHTS,
    Turn(answers.asked),
    Turn(beyond.habit, tags("HABIT WEEKLY")),
    beyond.WEATHER,
    beyond.DAY,
    plain.HEALTH,
    plans.LATER,
    Turn(breaks.off, tags("DATE DAYS SPAN OFF")),
    Turn(moves.move, tags("MOVE INSTEAD PLAN")),
    short.SHORT,
    missed.MISSES,
    missed.NOT_DONE,
    plans.AT_HAND,
    Turn(body.body, tags("PART SENSE SUDDEN NOBEAR WELL")),
    plain.EFFORTS,
    plain.MOODS,
    Turn(done.together, tags("ACT COURSE")),
    Turn(done.done, tags("ACT DONE WHOLE TICK SHARE GOT DUR DIST CLOCKISH NUM RATIO")),
    Turn(answers.yes_or_no),
    Turn(missed.no_session, tags("NEG OFF INSTEAD")),
    beyond.STUCK,
    beyond.CORRECT,
    Turn(beyond.place, tags("PLACE")),
    Turn(plain.clearance),
    Turn(questions.questions),
    Turn(questions.plan_asked, tags("QUEST")),
    Turn(days.bare_day, tags("DATE")),
    Turn(leftover.leftover, tags("DUR")),
    Turn(days.suggested_day, tags("DATE")),
)
"""In the order in which they may claim amounts and days."""
