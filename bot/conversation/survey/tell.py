"""Messages of the survey and what is kept with them."""

from dataclasses import dataclass
from datetime import datetime

from bot.conversation.changes import Change, Erase, KeepDraft, KeepProfile, Outcome
from bot.conversation.draft import Draft
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.survey.close import closing, profile_of
from bot.conversation.survey.echo import Line
from bot.conversation.survey.questions import question
from bot.conversation.survey.route import ASKS
from bot.conversation.survey.shown import slots
from bot.reading.facts import Reading


@dataclass(frozen=True, slots=True)
class Turn:
    """To whom, when, and in answer to what words (None: a button was pressed)."""

    who: str
    now: datetime
    text: str | None

    @property
    def reading(self) -> Reading | None:
        """The words alone. What the reader makes of "20" or "104 kg" is of another context (twenty minutes done), and
        facts of health must not go into what is kept of a message before there is consent.
        """
        return None if self.text is None else Reading(self.text, self.now)


def ask(turn: Turn, draft: Draft, before: tuple[Line, ...] = (), own: tuple[Slot, ...] = ()) -> Outcome:
    """The question at which *draft* stands, after the lines *before* it; *own*: slots that the draft doesn't know."""
    asked = question(draft.step, draft)
    lines = (*before, *asked.lines)
    say = Say(
        turn.who,
        Kind.ASK,
        tuple(line.word for line in lines),
        Facts(asks=ASKS[draft.step], reading=turn.reading),
        asked.choices,
        _slots(lines, draft, turn.now, own),
    )
    return Outcome((KeepDraft(draft),), (say,))


def finish(turn: Turn, draft: Draft, before: tuple[Line, ...]) -> Outcome:
    """The profile is kept, the draft is over."""
    lines = (*before, *closing(draft))
    say = Say(
        turn.who,
        Kind.CHANGED,
        tuple(line.word for line in lines),
        Facts(next=None, reading=turn.reading),
        slots=_slots(lines, draft, turn.now),
    )
    profile = profile_of(draft, turn.who, turn.now)
    changes: tuple[Change, ...] = (KeepProfile(profile, turn.now, draft.consent_at), KeepDraft(None))
    return Outcome(changes, (say,))


def erase(turn: Turn, *words: str) -> Outcome:
    """Nothing is kept but a mark without a name; not even the reading of the last answer goes on."""
    return Outcome((Erase(),), (Say(turn.who, Kind.GONE, words, Facts()),))


def _slots(lines: tuple[Line, ...], draft: Draft, now: datetime, own: tuple[Slot, ...] = ()) -> tuple[Slot, ...]:
    given = {slot.name for slot in own}
    names = tuple(name for line in lines for name in line.slots if name not in given)
    return (*own, *slots(names, draft, now))
