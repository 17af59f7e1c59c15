"""Small talk, good news, and what was not understood: never a silent drop, never a guess."""

from bot.conversation.changes import SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.mood import noted
from bot.conversation.topics.resize import ask_time
from planning.terms.choices import Mood

OFFERS = (Choice("done", "done"), Choice("what_today", "what's on today"), Choice("help", "help"))


def good_news(scene: Scene) -> Part | None:
    """A good feeling, said alone."""
    if scene.reading.mood is not Mood.GOOD:
        return None
    return Part(noted(scene), () if scene.taken else (Say(scene.who, Kind.SMALL, ("glad",)),))


def unread(scene: Scene) -> Part | None:
    """Nothing in the message was understood as a fact: small talk, or say so and offer what can be done."""
    if scene.taken:
        return None
    if not scene.reading.unread:
        return Part((), (Say(scene.who, Kind.SMALL, ("small",)),))
    return Part((), (Say(scene.who, Kind.NOT_READ, ("not_read",), choices=OFFERS),))


def opened(scene: Scene, asks: Asks) -> Part:
    """A button opened a question."""
    if asks is Asks.TIME:
        return ask_time(scene)
    facts = Facts(asks=asks)
    return Part((SetQuestion(Question(asks, scene.today)),), (Say(scene.who, Kind.ASK, (f"ask_{asks}",), facts),))
