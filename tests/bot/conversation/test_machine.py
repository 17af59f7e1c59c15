"""Random months of one invented runner: what must hold whatever is said, pressed and left unsaid."""

import shutil
import tempfile
from collections import Counter
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from bot.conversation.agenda import in_break, is_red
from bot.conversation.known import Known
from bot.store.people import find_known, history_of
from bot.store.plans import find_plan
from planning import check
from planning.plan.happened import look_back
from planning.safety import screen
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire
from tests.support.wording import wrong_words

Json = dict[str, object]
START = datetime(2026, 3, 1, 20, tzinfo=UTC)

LOGS = (
    "done",
    "did 12",
    "did half",
    "walked 2 km",
    "done, effort 8",
    "done, effort 1",
    "didn't go",
    "did 15 yesterday",
)
BODY = (
    "knee pain 3/10",
    "knee pain 6/10",
    "both thighs a bit sore",
    "twisted my ankle",
    "groin hurts 2/10",
    "my shin hurts",
)
WELL = ("knee is fine now", "all clear, no pain", "doctor cleared me", "I feel fine now")
DANGER = ("chest pain", "I fainted", "can't put weight on my ankle", "tight chest and I want to die")
CARE = ("I want to die", "I made myself sick after dinner")
PLANS = (
    "only 10 min",
    "only 3 min",
    "snooze 30",
    "move it to saturday",
    "move it to tomorrow",
    "easier please",
    "harder please",
    "sure 5/10",
    "33C 60%",
    "from now on tue, thu and sat at 6pm",
)
AWAY = ("pause please", "I'm back", "fever 38.5", "fever is gone", "I'm ill with a cold", "I'm well again")
TALK = ("undo", "what's on today?", "show me my week", "why", "thanks", "yes", "no", "3", "8", "the quick brown fox")
TEXTS = st.sampled_from((*LOGS, *BODY, *WELL, *DANGER, *CARE, *PLANS, *AWAY, *TALK))
SHARES = st.sampled_from((["log", "body"], ["log"], ["log", "body", "care"]))
SCREENS = st.sampled_from(({}, {}, {"screen": {"active": False, "disease": True, "signs": False}}))
WEIGHTS = st.sampled_from((79, 104))


@dataclass(frozen=True, slots=True)
class Came:
    """Messages of one step, with what was known before and after it."""

    messages: tuple[Json, ...]
    before: Known
    after: Known

    def to(self, chat: str) -> list[Json]:
        """The facts of those to *chat*."""
        return [each["about"] for each in self.messages if each["chat"] == chat]  # type: ignore[misc]


def is_barred(known: Known) -> bool:
    """Whether no session may be proposed: danger, a red flag, or a screening that waits for a clinician."""
    assert known.profile is not None
    return bool(known.holds) or is_red(known) or not screen(known.profile.screen, known.profile.cleared).may_start


class Months(RuleBasedStateMachine):
    """The wire, an enrolled runner and her coach."""

    @initialize(shares=SHARES, screened=SCREENS, weight_kg=WEIGHTS, jog_min=st.sampled_from((0, 2)))
    def begin(self, shares: list[str], screened: Json, weight_kg: int, jog_min: int) -> None:
        self.folder = Path(tempfile.mkdtemp())
        profile = ada(shares=shares, weight_kg=weight_kg, jog_min=jog_min, **screened)
        self.run = OnTheWire.on(self.folder / "run.sqlite3", profile, kim())
        self.clock, self.count, self.shares = START, 0, shares
        self.buttons: list[Json] = []
        self.nudges: Counter[date] = Counter()
        self.feed({"at": START.isoformat()})

    def teardown(self) -> None:
        if hasattr(self, "run"):
            self.run.store.close()
            shutil.rmtree(self.folder)

    def known(self) -> Known:
        with self.run.store.begin() as tx:
            return find_known(tx, "ada", self.clock)

    def feed(self, line: Json) -> Came:
        """One line, and all that must hold of every message that it brings."""
        before = self.known()
        came = Came(tuple(self.run.feed(line)), before, self.known())
        for message in came.messages:
            assert list(wrong_words(message)) == []
            if message["chat"] == "ada":
                self.buttons = [*message.get("buttons", ())] or self.buttons  # type: ignore[misc]
                self.nudges[datetime.fromisoformat(str(message["at"])).date()] += message["about"]["kind"] == "nudge"  # type: ignore[index]
        assert [each["kind"] for each in (*came.to("ada"), *came.to("kim")) if each["kind"] == "error"] == []
        self.no_session_while_barred(came)
        return came

    def no_session_while_barred(self, came: Came) -> None:
        """What is proposed while something stands, at both ends of the step, is nothing."""
        if not (is_barred(came.before) and is_barred(came.after)):
            return
        for about in came.to("ada"):
            assert not about.get("next"), about
            assert about["kind"] not in ("today", "nudge") or not about.get("session"), about
            assert about["kind"] not in ("moved", "resized", "shrunk", "later", "rescue"), about

    def say(self, what: Json) -> Came:
        """Something is said a minute later: one message answers it, and the coach hears of danger."""
        self.clock += timedelta(minutes=1)
        self.feed({"at": self.clock.isoformat()})
        self.count += 1
        came = self.feed({"at": self.clock.isoformat(), "id": f"u-{self.count}", "chat": "ada", **what})
        assert len(came.to("ada")) == 1, came.to("ada")
        if came.to("ada")[0]["kind"] == "urgent":
            notices = [each for each in came.to("kim") if each["kind"] == "notice"]
            assert notices
            assert {each["who"] for each in notices} == {"ada"}
            assert "body" in self.shares or not any("codes" in each for each in notices)
            assert came.after.holds
        return came

    @rule(hours=st.sampled_from((1, 5, 14, 24, 24, 40, 100)))
    def time_passes(self, hours: int) -> None:
        self.clock += timedelta(hours=hours)
        came = self.feed({"at": self.clock.isoformat()})
        for message in came.messages:
            about = message["about"]
            assert isinstance(about, dict)
            if about["kind"] in ("today", "nudge"):
                assert not in_break(came.before.breaks, date.fromisoformat(about["session"]["date"]))

    @rule(text=TEXTS)
    def says(self, text: str) -> None:
        self.say({"text": text})

    @rule(text=st.sampled_from(LOGS))
    def reports(self, text: str) -> None:
        self.say({"text": text})

    @rule(place=st.integers(0, 3))
    def presses(self, place: int) -> None:
        if self.buttons:
            self.say({"press": self.buttons[place % len(self.buttons)]["id"]})

    @rule(text=st.sampled_from((*LOGS, *BODY)))
    def takes_it_back(self, text: str) -> None:
        before = self.kept()
        came = self.say({"text": text})
        if came.to("ada")[0]["kind"] in ("logged", "triage", "shrunk", "changed") and came.to("ada")[0].get("entries"):
            self.say({"text": "undo"})
            assert self.kept() == before

    def kept(self) -> tuple[object, ...]:
        known = self.known()
        return (known.entries, tuple(each for each in known.flags if each.cleared_on is None))

    @rule()
    def coach_clears(self) -> None:
        self.clock += timedelta(minutes=1)
        self.count += 1
        line = {"id": f"u-{self.count}", "chat": "kim", "text": "ada: cleared by her gp today"}
        self.feed({"at": self.clock.isoformat(), **line})

    @invariant()
    def one_nudge_a_day(self) -> None:
        assert all(count <= 1 for count in getattr(self, "nudges", {}).values())

    @invariant()
    def the_plan_keeps_every_limit(self) -> None:
        if not hasattr(self, "run"):
            return
        with self.run.store.begin() as tx:
            known, plan, history = find_known(tx, "ada", self.clock), find_plan(tx, "ada"), history_of(tx, "ada")
        assert plan is not None
        assert known.profile is not None
        if known.stale or is_barred(known):
            return
        past = look_back(plan, history, self.clock.date()).past(known.profile)
        assert [each for each in check(plan, known.profile, past) if each.on >= self.clock.date()] == []


def runs(examples: int, steps: int) -> settings:
    slow = (HealthCheck.too_slow, HealthCheck.data_too_large)
    # Each step is a turn on real records: a failing run is shown as it is, not made shorter for minutes.
    return settings(
        max_examples=examples,
        stateful_step_count=steps,
        deadline=None,
        suppress_health_check=slow,
        phases=(Phase.generate,),
    )


class TestMonths(Months.TestCase):  # type: ignore[misc]
    settings = runs(8, 20)


@pytest.mark.nightly
class TestYears(Months.TestCase):  # type: ignore[misc]
    settings = runs(80, 60)
