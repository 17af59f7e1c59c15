"""Each change is kept and seen in what is known; taking back restores what was known before."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import time, timedelta
from typing import get_args

import pytest
from sqlalchemy.exc import IntegrityError

from bot.conversation import changes as c
from bot.conversation.draft import Draft, Step
from bot.conversation.known import Hold, Known, Marks, Question, Snooze
from bot.conversation.says import Asks
from bot.store import people
from bot.store.changes import keep
from bot.store.unit import Store
from planning.terms.choices import Activity, Colour, Danger, Part, Purpose, Side
from planning.terms.entry import Break, Complaint, Entry, Fixed, Flag, Status
from planning.terms.plan import Session
from tests.support.letters import at
from tests.support.profiles import MONDAY, a_person

WHO = "sam"
TUESDAY = MONDAY + timedelta(days=1)
SAM = a_person()
SESSION = Session(MONDAY, time(7), Purpose.EASY, effort=(2, 3), segments=())
DONE = Entry(MONDAY, kind=Activity.WALK, minutes=20, km=1.5, effort=3, planned_on=MONDAY, from_id="u-1")
KNEE = Flag(Part.KNEE, Side.LEFT, Colour.AMBER, MONDAY)
HOLD = Hold((Danger.CHEST,), MONDAY, "u-1")
OFF = Break(MONDAY, TUESDAY, ill=True, fever=True)
OPEN = Break(MONDAY, None)


def known_after(store: Store, *changes: c.Change) -> Known:
    """What is known of Sam after these changes, on Tuesday."""
    with store.begin() as tx:
        for change in changes:
            keep(tx, WHO, change)
    with store.begin() as tx:
        return people.find_known(tx, WHO, at(24 * 60))


@pytest.fixture
def sam(store: Store) -> Store:
    """Records in which Sam is enrolled."""
    known_after(store, c.KeepProfile(SAM, since=at()))
    return store


QUESTION = Question(Asks.LEVEL, MONDAY, MONDAY, Complaint(Part.KNEE, Side.LEFT, level=3), tries=2)
SNOOZE = Snooze(MONDAY, at(30), 1)
MARKS = Marks(MONDAY, MONDAY, None, TUESDAY, heard_at=at(3))

SEEN: list[tuple[c.Change, str, object]] = [
    (c.AddEntry(DONE), "entries", (DONE,)),
    (c.ReplaceEntries(MONDAY, (DONE, replace(DONE, minutes=5)), "u-7"), "entries", (DONE, replace(DONE, minutes=5))),
    (c.RaiseFlag(KNEE, "u-1"), "flags", (KNEE,)),
    (c.RaiseHold(HOLD), "holds", (HOLD,)),
    (c.StartBreak(OFF, "u-1"), "breaks", (OFF,)),
    (c.Fix(Fixed(MONDAY, SESSION), "u-1"), "sessions", (SESSION,)),
    (c.MarkStale(), "stale", True),
    (c.SetQuestion(QUESTION), "question", QUESTION),
    (c.SetSnooze(SNOOZE), "snooze", SNOOZE),
    (c.SetMarks(MARKS), "marks", MARKS),
    (c.KeepProfile(replace(SAM, cleared=True)), "profile", replace(SAM, cleared=True)),
]


@pytest.mark.parametrize(("change", "field", "expected"), SEEN, ids=[type(row[0]).__name__ for row in SEEN])
def test_a_change_is_seen(sam: Store, change: c.Change, field: str, expected: object) -> None:
    before = known_after(sam)
    after = known_after(sam, change)
    assert getattr(after, field) == expected
    assert replace(after, **{field: getattr(before, field)}) == before, "nothing else changes"


ENDED: list[tuple[c.Change, c.Change, str, object]] = [
    (c.RaiseFlag(KNEE, "u-1"), c.ClearFlag(Part.KNEE, TUESDAY, "u-2"), "flags", (replace(KNEE, cleared_on=TUESDAY),)),
    (c.RaiseHold(HOLD), c.LiftHolds(TUESDAY, "her doctor", "u-2"), "holds", ()),
    (c.StartBreak(OPEN, "u-1"), c.EndBreaks(TUESDAY, "u-2"), "breaks", (replace(OPEN, last=TUESDAY),)),
    (c.SetQuestion(QUESTION), c.SetQuestion(None), "question", None),
    (c.SetSnooze(SNOOZE), c.SetSnooze(None), "snooze", None),
    (c.Fix(Fixed(MONDAY, SESSION), "u-1"), c.Fix(Fixed(MONDAY, None), "u-2"), "sessions", ()),
    (c.AddEntry(DONE), c.ReplaceEntries(MONDAY, (), "u-7"), "entries", ()),
]


@pytest.mark.parametrize(("first", "second", "field", "expected"), ENDED, ids=[type(row[1]).__name__ for row in ENDED])
def test_a_change_is_ended(sam: Store, first: c.Change, second: c.Change, field: str, expected: object) -> None:
    assert getattr(known_after(sam, first, second), field) == expected


def test_the_survey_goes_on_where_it_stood(store: Store) -> None:
    draft = Draft(Step.WALK, (Step.CALLED,), called="Sam", times=(time(7),), consent_at=at())
    assert known_after(store, c.KeepDraft(draft)).draft == draft
    assert known_after(store, c.KeepDraft(None)).draft is None


def test_the_start_and_the_consent_are_kept_once(store: Store) -> None:
    known_after(store, c.KeepProfile(SAM, at(1), at(1)))
    known = known_after(store, c.KeepProfile(SAM, at(2), at(2)))
    assert known.since == at(1)


def test_clearing_danger_clears_the_flags_of_its_message_alone(sam: Store) -> None:
    other = replace(KNEE, part=Part.HIP)
    raised = (c.RaiseHold(HOLD), c.RaiseFlag(KNEE, "u-1"), c.RaiseFlag(other, "u-0"))
    known = known_after(sam, *raised, c.LiftHolds(TUESDAY, "a doctor", "u-2"))
    assert {flag.part: flag.cleared_on for flag in known.flags} == {Part.KNEE: TUESDAY, Part.HIP: None}


def test_a_new_colour_of_a_part_takes_the_place_of_the_old_one(sam: Store) -> None:
    red = replace(KNEE, colour=Colour.RED, since=TUESDAY)
    known = known_after(sam, c.RaiseFlag(KNEE, "u-1"), c.RaiseFlag(red, "u-2"))
    assert [flag for flag in known.flags if flag.cleared_on is None] == [red]


def test_both_sides_of_a_part_are_flagged_apart(sam: Store) -> None:
    right = replace(KNEE, side=Side.RIGHT)
    known = known_after(sam, c.RaiseFlag(KNEE, "u-1"), c.RaiseFlag(right, "u-1"))
    assert [flag.side for flag in known.flags if flag.cleared_on is None] == [Side.LEFT, Side.RIGHT]


TAKEN_BACK: list[tuple[str, Iterable[c.Change], c.Change]] = [
    ("an entry", (), c.AddEntry(replace(DONE, from_id="u-9"))),
    ("a silent day", (), c.AddEntry(Entry(MONDAY, Status.MISSED, planned_on=MONDAY, from_id="u-9"))),
    ("a flag", (), c.RaiseFlag(KNEE, "u-9")),
    ("another colour", (c.RaiseFlag(KNEE, "u-1"),), c.RaiseFlag(replace(KNEE, colour=Colour.RED), "u-9")),
    ("a clearing", (c.RaiseFlag(KNEE, "u-1"),), c.ClearFlag(Part.KNEE, TUESDAY, "u-9")),
    ("a clearance", (c.RaiseHold(HOLD), c.RaiseFlag(KNEE, "u-1")), c.LiftHolds(TUESDAY, "a doctor", "u-9")),
    ("a break", (), c.StartBreak(OFF, "u-9")),
    ("the end of an open break", (c.StartBreak(OPEN, "u-1"),), c.EndBreaks(TUESDAY, "u-9")),
    ("an early end", (c.StartBreak(replace(OPEN, last=MONDAY + timedelta(9)), "u-1"),), c.EndBreaks(TUESDAY, "u-9")),
    ("a weight", (), c.NoteWeight(MONDAY, 92.4, "u-9")),
]


@pytest.mark.parametrize(("what", "before", "change"), TAKEN_BACK, ids=[row[0] for row in TAKEN_BACK])
def test_taking_back_restores_what_was_known(
    sam: Store, what: str, before: Iterable[c.Change], change: c.Change
) -> None:
    known = known_after(sam, *before)
    known_after(sam, change)
    assert known_after(sam, c.TakeBack("u-9")) == known, what


def test_taking_back_a_change_of_the_plan_leaves_no_trace_in_the_history(sam: Store) -> None:
    known_after(sam, c.Fix(Fixed(MONDAY, SESSION), "u-1"), c.Fix(Fixed(MONDAY, None), "u-9"), c.TakeBack("u-9"))
    with sam.begin() as tx:
        assert people.history_of(tx, WHO).fixed == (Fixed(MONDAY, SESSION),)


def test_danger_is_not_taken_back(sam: Store) -> None:
    assert known_after(sam, c.RaiseHold(HOLD), c.TakeBack("u-1")).holds == (HOLD,)


def test_taking_back_touches_nobody_else(sam: Store) -> None:
    known_after(sam, c.AddEntry(DONE))
    with sam.begin() as tx:
        keep(tx, "bea", c.KeepProfile(replace(SAM, who="bea")))
        keep(tx, "bea", c.TakeBack("u-1"))
    assert known_after(sam).entries == (DONE,)


def test_the_same_effect_twice_is_refused(sam: Store) -> None:
    for change in (c.AddEntry(DONE), c.RaiseHold(HOLD), c.StartBreak(OFF, "u-1"), c.NoteWeight(MONDAY, 92.4, "u-1")):
        known_after(sam, change)
        with pytest.raises(IntegrityError):
            known_after(sam, change)


def test_every_kind_of_change_is_tried_here() -> None:
    changed = {
        type(each) for row in (*SEEN, *ENDED, *TAKEN_BACK) for each in row if isinstance(each, get_args(c.Change))
    }
    elsewhere = {c.KeepDraft, c.TakeBack, c.Erase, c.Replan, *get_args(c.Coaching)}
    assert set(get_args(c.Change)) - changed == elsewhere


@pytest.mark.parametrize(("change", "field", "expected"), SEEN, ids=[type(row[0]).__name__ for row in SEEN])
def test_what_was_looked_up_before_is_not_told_after_a_change(
    sam: Store, change: c.Change, field: str, expected: object
) -> None:
    with sam.begin() as tx:
        before = people.find_known(tx, WHO, at(24 * 60))
        assert people.find_known(tx, WHO, at(24 * 60)).sessions is before.sessions, "looked up once"
        keep(tx, WHO, change)
        assert getattr(people.find_known(tx, WHO, at(24 * 60)), field) == expected
