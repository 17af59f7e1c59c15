"""A survey held step by step: what was said last, the draft, and what was kept in the end."""

import tomllib
from datetime import UTC, datetime
from importlib.resources import files

from bot.conversation.changes import Erase, KeepDraft, KeepProfile, Outcome
from bot.conversation.draft import Draft
from bot.conversation.events import Heard, Opened
from bot.conversation.known import Known
from bot.conversation.says import Asks, Say
from bot.conversation.survey import survey
from bot.reading.facts import Reading
from bot.words.helplines import help_slots
from planning.terms.person import Profile

MONDAY_EVENING = datetime(2026, 3, 2, 18, 5, tzinfo=UTC)
WORDS = tomllib.loads(files("bot.words").joinpath("en/survey.toml").read_text(encoding="utf-8"))
TO_SUMMARY = ("hi", "Sam", "Leeds", "tue thu at 18:30", "20", "none yet", "60", "25", "no race yet")
TO_CONSENT = (*TO_SUMMARY, "yes")
HEALTHY = ("yes", "no", "no", "no", "no")


class Talk:
    """One person in the survey."""

    def __init__(self, *texts: str, now: datetime = MONDAY_EVENING, draft: Draft | None = None) -> None:
        self.now = now
        self.draft = draft
        self.profile: Profile | None = None
        self.kept: KeepProfile | None = None
        self.erased = False
        self.last: Say
        for text in texts:
            self.say(text)

    def say(self, text: str) -> Say:
        return self._take(survey(Known("sam", draft=self.draft), Heard("m", Reading(text, self.now)), self.now))

    def open(self, asks: Asks) -> Say:
        return self._take(survey(Known("sam", draft=self.draft), Opened("m", asks), self.now))

    def _take(self, outcome: Outcome) -> Say:
        assert len(outcome.says) == 1
        for change in outcome.changes:
            match change:
                case KeepDraft(draft=draft):
                    self.draft = draft
                case KeepProfile(profile=profile):
                    self.kept, self.profile = change, profile
                case Erase():
                    self.draft, self.erased = None, True
        self.last = outcome.says[0]
        return self.last

    @property
    def asks(self) -> object:
        return self.last.facts.asks

    @property
    def text(self) -> str:
        return shown(self.last)


def shown(say: Say) -> str:
    """The message in words."""
    slots = {slot.name: slot.value for slot in say.slots}
    slots |= help_slots(slots.get("country"), slots.get("here"))
    return "\n".join(WORDS["say"][word].format_map(slots) for word in say.words)
