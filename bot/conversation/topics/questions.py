"""Questions that beginners ask: the card that answers, two or three to choose from, or that there is none."""

from datetime import datetime
from operator import attrgetter

from bot.conversation.agenda import is_red
from bot.conversation.cards import Card, card_named, find
from bot.conversation.says import Choice, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.own_numbers import OWN_NUMBERS
from bot.conversation.topics.where import where
from bot.reading.facts import Reading, Want
from planning.terms.choices import Sense

MILD = frozenset({Sense.SKIN, Sense.CRAMP})
"""Complaints that a card may speak to beside the answer that they get."""

GENERAL = frozenset({None, Want.WHY, Want.TODAY, Want.WEEK, Want.HELP})
"""Wishes that a general question may look like ("why am I so slow?")."""

BESIDE = {"text", "at", "spans", "unread", "mood", "low_day", "weather", "body", "wants"}
REPORT = attrgetter(*(name for name in Reading._fields if name not in BESIDE))
"""All that was read and has to be kept or looked at."""

NOTHING = REPORT(Reading("", datetime(1, 1, 1)))  # noqa: DTZ001

NO_ANSWER = (Choice("what_today", "what's on today"), Choice("help", "help"))


def questions(scene: Scene) -> Part | None:
    """Answer a question that is no report: nothing that has to be kept or looked at was read in it."""
    if not _is_general(scene.reading) or scene.taken & {Kind.RESIZED, Kind.SHRUNK}:
        return None
    found = find(scene.reading.text, bare=scene.known.question is None)
    if len(found.cards) == 1:
        return _told(scene, found.cards[0])
    if found.cards:
        choices = tuple(Choice(f"card_{card.name}", f"{card.topic}?") for card in found.cards)
        return Part(says=(Say(scene.who, Kind.HELP, ("card_which",), choices=choices),))
    return _no_answer(scene) if found.asked else None


def card_for(reading: Reading) -> str | None:
    """Name of the one card that answers, if this is a question that is no report."""
    found = find(reading.text).cards if _is_general(reading) else ()
    return found[0].name if len(found) == 1 else None


def _is_general(reading: Reading) -> bool:
    """Whether nothing but a feeling, a low day, the weather, a general wish or a mild complaint was read."""
    mild = reading.wants in GENERAL and all(each.sense in MILD for each in reading.body)
    return mild and REPORT(reading) == NOTHING


def _told(scene: Scene, card: Card) -> Part:
    if card.weight and scene.profile.screen.pregnant:
        card = card_named("pregnancy")
    own = OWN_NUMBERS[card.name](scene) if card.name in OWN_NUMBERS else None
    return own or _card(scene, card)


def _card(scene: Scene, card: Card) -> Part:
    name, held = f"card_{card.name}", bool(scene.known.holds) or is_red(scene.known)
    words = (name, *((f"{name}_see",) if card.see else ()), *(("card_on_hold",) if held else ()))
    return Part(says=(Say(scene.who, Kind.HELP, words, slots=where(scene.profile)),))


def _no_answer(scene: Scene) -> Part | None:
    """No card fits. A wish that was read, a complaint or an open question has its own answer."""
    reading = scene.reading
    if scene.taken or scene.known.question or reading.wants or reading.mood:
        return None
    coach = scene.profile.coach is not None
    words = ("card_none_coach" if coach else "card_none",)
    choices = ((Choice("ask_coach", "ask my coach"),) if coach else ()) + NO_ANSWER
    return Part(says=(Say(scene.who, Kind.NOT_READ, words, choices=choices),))
