"""Strength, and who may start at all."""

from collections.abc import Iterator
from datetime import date, timedelta

from planning.limits.rule import Case, Rule
from planning.terms.choices import Purpose, WeekKind

Places = Iterator[tuple[date, float, float]]
TWICE = 2
"""Strength sessions a week (WHO 2020 guidelines: muscle strengthening on 2 or more days a week)."""


def strength_not_twice(case: Case) -> Places:
    """Strength twice a week from week 2 on, none in race week."""
    for week in case.weeks:
        if not case.in_full(week):
            continue
        wanted = 0 if week.number < TWICE or week.kind is WeekKind.RACE else TWICE
        if len(week.strength) != wanted:
            yield week.monday, len(week.strength), wanted


def strength_on_the_eve(case: Case) -> Places:
    """Never on the eve of a long session or a race."""
    hard = (each.on for each in case.sessions if each.purpose in (Purpose.LONG, Purpose.RACE))
    eves = {on - timedelta(days=1) for on in hard}
    for week in case.weeks:
        for each in week.strength:
            if each.on in eves and each.on >= case.since:
                yield each.on, 1, 0


def first_strength_too_much(case: Case) -> Places:
    """At first 5 to 8 minutes and two moves."""
    for week in case.weeks:
        for each in week.strength:
            if week.number == TWICE and not (5 * 60 <= each.seconds <= 8 * 60 and len(each.moves) == TWICE):
                yield each.on, each.seconds, 8 * 60


def starts_uncleared(case: Case) -> Places:
    """Nobody starts with signs, or inactive with known disease, until a clinician has cleared it."""
    screen = case.profile.screen
    barred = (screen.signs or (screen.disease and not screen.active)) and not case.profile.cleared
    if barred and (case.plan.may_start or case.plan.weeks):
        yield case.profile.begin, len(case.plan.weeks), 0


RULES = (
    Rule("strength", "WHO 2020 guidelines on physical activity", strength_not_twice),
    Rule("strength_eve", "common practice, no source", strength_on_the_eve),
    Rule("strength_first", "common practice, no source", first_strength_too_much),
    Rule("screening", "Riebe et al. 2015, MSSE 47:2473", starts_uncleared),
)
