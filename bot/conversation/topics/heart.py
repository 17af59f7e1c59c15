"""Heart rate, for those who ask: talk comes first, and a number only for those whose heart no tablet slows.

Whether somebody takes such tablets is asked each time and never kept.
"""

from datetime import timedelta

from bot.conversation.answers import no_heart_tablets
from bot.conversation.changes import SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.where import where
from planning.progress.heart import easy_range

CARD, SEE = "card_heart_rate", "card_heart_rate_see"
MARK = "tablets that slow the heart"
"""What the question is about, as the survey asks about health too."""

STILL_OPEN = timedelta(days=2)
TABLETS = (
    Choice("yes", "i take tablets that slow the heart"),
    Choice("no", "no tablets that slow the heart"),
    Choice("not_sure", "not sure about tablets that slow the heart"),
)

LATER = frozenset(
    {
        *(Asks.MOMENT, Asks.SIDE, Asks.LEVEL, Asks.COURSE, Asks.SWELLING, Asks.NUMB, Asks.BEARS),
        *(Asks.NEXT_MORNING, Asks.SEEN, Asks.WHO_WHEN, Asks.CONFIRM),
    }
)
"""Open questions whose place no question about a pulse may take."""

STEP = 5
"""Beats a minute to which people are told a range; the sum behind it is known to 10 or so."""


def heart_rate(scene: Scene) -> Part | None:
    """Talk first, then the one question that a number depends on; None: the card says all that there is to say."""
    question = scene.known.question
    if scene.stopped or (question is not None and question.asks in LATER):
        return None
    without = _without_number(scene)
    if without is not None:
        return Part((), (Say(scene.who, Kind.HELP, (CARD, without, SEE), slots=where(scene.profile)),))
    asked = Question(Asks.SCREEN, scene.today, said=MARK)
    said = Say(scene.who, Kind.HELP, (CARD, "ask_heart_tablets"), Facts(asks=Asks.SCREEN), choices=TABLETS)
    return Part((SetQuestion(asked),), (said,))


def heart_tablets(scene: Scene) -> Part | None:
    """The answer to whether tablets slow the heart: a number after a clear no, else talk alone."""
    is_open = _is_open(scene)
    clear = no_heart_tablets(scene.reading.text, asked=is_open)
    if clear is None or scene.taken:
        return None
    words, slots = ("heart_by_talk",), where(scene.profile)
    if clear and not scene.stopped and (without := _without_number(scene)):
        words = (without,)
    elif clear and not scene.stopped:
        words, slots = ("heart_range",), (*slots, *_range(scene))
    said = Say(scene.who, Kind.HELP, (*words, SEE), slots=slots)
    return Part((SetQuestion(None),) if is_open else (), (said,))


def _is_open(scene: Scene) -> bool:
    question = scene.known.question
    return question is not None and question.said == MARK and scene.today - question.on <= STILL_OPEN


def _without_number(scene: Scene) -> str | None:
    """Why no number is given whatever the tablets: what the heart does is a clinician's to say, or no age is known."""
    asked = scene.profile.screen
    if asked.pregnant or asked.disease or asked.signs:
        return "heart_by_clinician"
    return "heart_no_age" if scene.profile.age is None else None


def _range(scene: Scene) -> tuple[Slot, ...]:
    """The range of moderate effort by age, for people. The resting rate is not asked for."""
    assert scene.profile.age is not None
    found = easy_range(scene.profile.age, None, beta_blocker=False)
    assert found is not None
    return tuple(
        Slot(name, f"{round(rate / STEP) * STEP}")
        for name, rate in (("pulse_low", found.low), ("pulse_high", found.high))
    )
