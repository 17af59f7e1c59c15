"""The way of a reply through the stages: plain text, tokens, items, rules, reading."""

from datetime import datetime
from zoneinfo import ZoneInfo

from bot.reading import amounts, context, lexicon, normalise, scan, spelling, tokens
from bot.reading.facts import Asked, Reading
from bot.reading.page import Page, apply
from bot.reading.resolve import reading_of
from bot.reading.rules import asked as answers
from bot.reading.rules import beyond, body, danger, done, missed, plain, plans, questions, repeats
from bot.reading.rules.whole import whole


def reading_of_reply(text: str, at: datetime, tz: str, planned_min: float | None, asked: Asked | str | None) -> Reading:
    """See `bot.reading.read`."""
    page = page_of(text, _wall(at, tz), planned_min, Asked(asked) if asked in tuple(Asked) else None)
    run(page, text)
    return reading_of(page, text)


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
    found = spelling.mended(tokens.tokens_of(normalise.normalise(text), lexicon.spelling()))
    items = context.in_context(amounts.compose(scan.items_of(found, lexicon.phrases())))
    return Page(at, planned_min, asked, found, items)


def run(page: Page, text: str) -> None:
    """All rules over *page*, in the order in which they may claim amounts and days."""
    danger.danger(page)
    if not page.found and whole(page):
        return
    apply(page, plain.WANTS)
    apply(page, repeats.REPEATS)
    apply(page, plain.RATINGS)
    apply(page, plain.SURE_SHARES)
    apply(page, plain.TALLIES)
    apply(page, plain.WEIGHTS)
    answers.asked(page)
    beyond.habit(page)
    apply(page, beyond.WEATHER)
    apply(page, beyond.DAY)
    apply(page, plain.HEALTH)
    apply(page, plans.LATER)
    plans.off(page)
    plans.move(page)
    apply(page, missed.MISSES)
    apply(page, missed.NOT_DONE)
    apply(page, plans.AT_HAND)
    body.body(page)
    apply(page, plain.EFFORTS)
    apply(page, plain.MOODS)
    done.together(page)
    done.done(page)
    answers.yes_or_no(page)
    missed.no_session(page)
    apply(page, beyond.STUCK)
    apply(page, beyond.CORRECT)
    beyond.place(page, text)
    plain.clearance(page)
    questions.questions(page)
    questions.plan_asked(page)
    plans.bare_day(page)
    plans.suggested_day(page)
