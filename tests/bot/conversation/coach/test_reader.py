"""What coaches say, in near variants, and what is asked back."""

from datetime import date

import pytest

from bot.conversation.coach import orders as o
from bot.conversation.coach.deeds import deed_of
from bot.conversation.coach.reader import EVER, order_of
from planning.terms.choices import Do
from planning.terms.plan import Segment
from tests.bot.conversation.coach.people import TEAM, TUESDAY, TWO_SAMS

ADA, SAM, MARY = TEAM


def walks(*minutes: int) -> tuple[Segment, ...]:
    return tuple(Segment(Do.WALK, each * 60) for each in minutes)


ORDERS = [
    ("who needs me", o.WhoNeeds()),
    ("Who needs me?", o.WhoNeeds()),
    ("who needs me today please", o.WhoNeeds()),
    ("does anyone need a person?", o.WhoNeeds()),
    ("hi, who is waiting for me", o.WhoNeeds()),
    ("who should I call first", o.WhoNeeds()),
    ("can I have the list", o.WhoNeeds()),
    ("how is everybody doing?", o.WhoNeeds()),
    ("digest", o.WhoNeeds()),
    ("seen", o.Seen()),
    ("Seen!", o.Seen()),
    ("I have seen it", o.Seen()),
    ("on it", o.Seen()),
    ("calling her now", o.Seen()),
    ("seen ada", o.Seen("ada")),
    ("seen mary ann", o.Seen("mary ann")),
    ("deputy lee", o.Away("lee")),
    ("my deputy is Lee", o.Away("lee")),
    ("lee covers for me", o.Away("lee")),
    ("away until monday, deputy lee", o.Away("lee", date(2026, 3, 9))),
    ("I'm away until Monday, deputy is Lee", o.Away("lee", date(2026, 3, 9))),
    ("away till 20 march", o.Away(None, date(2026, 3, 20))),
    ("away until monday deputy lee", o.Away("lee", date(2026, 3, 9))),
    ("off today and deputy lee", o.Away("lee", date(2026, 3, 3))),
    ("away", o.Away(None, EVER)),
    ("back", o.Back()),
    ("I'm back", o.Back()),
    ("no deputy", o.Back(alone=True)),
    ("invite", o.Invite()),
    ("invite a runner", o.Invite()),
    ("can I get a code for a new runner", o.Invite()),
    ("new runner please", o.Invite()),
    ("help", o.Help()),
    ("/start", o.Help()),
    ("", o.Help()),
    ("tell sam: well done", o.Tell(SAM, "well done")),
    ("Tell Sam: Well done, and\nsleep!", o.Tell(SAM, "Well done, and\nsleep!")),
    ("tell sam well done", o.Tell(SAM, "well done")),
    ("message mary ann: call me at 7:30", o.Tell(MARY, "call me at 7:30")),
    ("reply to Ada - see you sunday", o.Tell(ADA, "see you sunday")),
    ("write to r-7, all good", o.Tell(SAM, "all good")),
    ("tell bob: hello", o.Tell(MARY, "hello")),
    ("tell zoe: hello", o.Nobody()),
    ("tell sam:", o.Unclear()),
    ("sam: hold this week", o.About(SAM, "hold this week")),
    ("SAM : hold this week", o.About(SAM, "hold this week")),
    ("Sam - hold this week", o.About(SAM, "hold this week")),
    ("sam, hold this week", o.About(SAM, "hold this week")),
    ("sam hold this week", o.About(SAM, "hold this week")),
    ("hold sam this week", o.About(SAM, "hold this week")),
    ("Sam's thursday: 15 min walk", o.About(SAM, "thursday: 15 min walk")),
    ("make Sam\u2019s thursday 15 min walk", o.About(SAM, "make thursday 15 min walk")),
    ("Mary Ann: cleared by her gp", o.About(MARY, "cleared by her gp")),
    ("zoe: hold this week", o.Nobody()),
    ("what a day", o.Unclear()),
    ("samantha ran well", o.Unclear()),
]


@pytest.mark.parametrize(("text", "order"), ORDERS, ids=[row[0] or "nothing" for row in ORDERS])
def test_a_sentence_of_a_coach_is_read_as(text: str, order: o.Order) -> None:
    assert order_of(text, TEAM, TUESDAY) == order


@pytest.mark.parametrize("text", ["sam: hold this week", "tell sam: hello"])
def test_two_of_one_name_are_told_apart_by_their_ids(text: str) -> None:
    assert order_of(text, TWO_SAMS, TUESDAY) == o.Several(TWO_SAMS)
    told = order_of(text.replace("sam", "Sam (s2)"), TWO_SAMS, TUESDAY)
    assert isinstance(told, o.About | o.Tell)
    assert told.runner.who == "s2"


def test_a_deputy_may_have_seen_what_is_about_nobody_of_theirs() -> None:
    assert order_of("seen zoe", TEAM, TUESDAY, ("zoe",)) == o.Seen("zoe")
    assert not isinstance(order_of("seen zoe", TEAM, TUESDAY), o.Seen)


THU = date(2026, 3, 5)
TODAY = TUESDAY.date()
DEEDS = [
    ("make thursday 15 min walk", o.Make(THU, walks(15))),
    ("thursday 15 min walk", o.Make(THU, walks(15))),
    ("change thu to a 15 minute walk", o.Make(THU, walks(15))),
    ("make thursday fifteen minutes", o.Make(THU, minutes=15)),
    ("set thursday to 15", o.Make(THU, minutes=15)),
    ("walk 15 min on thursday", o.Make(THU, walks(15))),
    ("make today 20 min", o.Make(TODAY, minutes=20)),
    ("make tuesday 20 min", o.Make(TODAY, minutes=20)),
    ("make next tuesday 20 min", o.Make(date(2026, 3, 10), minutes=20)),
    ("make it 15 min", o.Make(None, minutes=15)),
    ("make 5 march half an hour", o.Make(THU, minutes=30)),
    (
        "make thursday 5 min walk, 1 min run, 5 min walk",
        o.Make(THU, (*walks(5), Segment(Do.RUN, 60), *walks(5))),
    ),
    ("make thursday 3 x 1 min run 2 min walk", o.Make(THU, (Segment(Do.RUN, 60), Segment(Do.WALK, 120)) * 3)),
    ("make thursday the stretch", o.Make(THU, minutes=0)),
    ("drop thursday", o.Drop(THU)),
    ("thursday off", o.Drop(THU)),
    ("rest on thursday", o.Drop(THU)),
    ("make thursday easier", o.Ease(THU)),
    ("easier please", o.Ease(None)),
    ("move thursday to friday", o.Move(THU, date(2026, 3, 6))),
    ("move it to friday", o.Move(None, date(2026, 3, 6))),
    ("hold this week", o.HoldWeek()),
    ("hold", o.HoldWeek()),
    ("please hold this week steady", o.HoldWeek()),
    ("no growth this week", o.HoldWeek()),
    ("keep this week the same as last week", o.HoldWeek()),
    ("same as last week", o.HoldWeek()),
    ("don't increase this week", o.HoldWeek()),
    ("cleared by her gp today", o.Clear(TODAY, "cleared by her gp today")),
    ("her gp cleared her", o.Clear(TODAY, "her gp cleared her")),
    ("signed off by the physio yesterday", o.Clear(date(2026, 3, 2), "signed off by the physio yesterday")),
    ("cleared by dr patel on monday", o.Clear(date(2026, 3, 2), "cleared by dr patel on monday")),
    ("the nurse says ok", o.Clear(TODAY, "the nurse says ok")),
    ("cleared", o.Clear(TODAY, None)),
    ("cleared by me", o.Clear(TODAY, None)),
    ("i cleared him yesterday", o.Clear(date(2026, 3, 2), None)),
]


@pytest.mark.parametrize(("rest", "deed"), DEEDS, ids=[row[0] for row in DEEDS])
def test_what_follows_a_name_is_read_as(rest: str, deed: o.Deed) -> None:
    assert deed_of(rest, TUESDAY) == deed


@pytest.mark.parametrize(
    "rest",
    [
        "not cleared yet",
        "isn't cleared by her gp",
        "sees her gp tomorrow to be cleared",
        "will be cleared by her doctor on friday",
        "waiting for her gp to clear her",
        "cleared by her gp?",
        "has she been cleared by a doctor",
        "if her gp clears her",
        "probably cleared by the gp",
        "hold next week",
        "make thursday 900 min walk",
        "nice run on thursday",
        "should i make thursday 15 min?",
        "how are you",
        "",
    ],
)
def test_what_is_not_surely_meant_does_nothing(rest: str) -> None:
    assert deed_of(rest, TUESDAY) is None
