"""The list of all runners, those in need first: only what each of them shares."""

from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.agenda import CARE
from bot.conversation.coach.names import shown
from bot.conversation.known import Known, Promise
from bot.conversation.says import Facts, Kind, Say, Slot, Standing
from bot.conversation.topics.misses import misses_in_a_row
from planning.calendar import local
from planning.progress.needs import MOST_NAMED, RunnerNow, who_needs
from planning.safety import screen
from planning.terms.choices import Colour, Purpose, Share
from planning.terms.entry import Status
from planning.terms.person import Profile

WEEK = timedelta(days=7)


def digest(to: str, runners: tuple[Known, ...], now: datetime, today: date, promises: tuple[Promise, ...] = ()) -> Say:
    """The list for the coach *to*; *today*: their local date. Seven are named at most, the rest is a number."""
    due = {each.who: min(each.on, today) for each in promises if each.on < today + WEEK}
    found = tuple(
        replace(runner_now(each, now), promised_on=due.get(each.who)) for each in runners if each.profile is not None
    )
    called = {each.who: shown(each) for each in runners}
    needs = who_needs(found, now, today)
    standing = tuple(Standing(each.who, called[each.who], each.kinds, each.hours, each.days) for each in needs.all)
    count = sum(bool(each.needs) for each in standing)
    named, rest = min(count, MOST_NAMED), len(standing) - min(count, MOST_NAMED)
    words = ("digest", *(("digest_list",) if named else ()), *(("digest_rest",) if named and rest else ()))
    praised = ", ".join(called[who] for who in needs.praise)
    words = ("digest_nobody",) if not named else words
    words = (*words, "digest_praise") if praised else words
    slots = (Slot("count", str(count)), Slot("all", str(len(standing))), Slot("rest", str(rest)))
    return Say(to, Kind.DIGEST, words, Facts(runners=standing), slots=(*slots, Slot("praised", praised)))


def runner_now(known: Known, now: datetime) -> RunnerNow:
    """What the coach may know of one runner: danger always, everything else as they share it."""
    profile = known.profile
    assert profile is not None
    today = local(now, profile.tz).date()
    flags = {each.colour for each in known.flags if each.cleared_on is None} if Share.BODY in profile.shares else set()
    grave = [code for hold in known.holds for code in hold.codes]
    waiting = Share.BODY in profile.shares and not screen(profile.screen, profile.cleared).may_start
    shared = RunnerNow(
        who=known.who,
        began=profile.begin,
        danger=any(code not in CARE for code in grave),
        red=Colour.RED in flags,
        amber=Colour.AMBER in flags,
        care=Share.CARE in profile.shares and any(code in CARE for code in grave),
        asked_at=None if known.marks.wrote else known.waiting_since,
        wrote_at=known.waiting_since if known.marks.wrote else None,
        waiting_since=_enrolled(known, profile) if waiting else None,
    )
    return _with_log(shared, known, profile, today) if Share.LOG in profile.shares else shared


def _enrolled(known: Known, profile: Profile) -> date:
    return profile.begin if known.since is None else local(known.since, profile.tz).date()


def _with_log(shared: RunnerNow, known: Known, profile: Profile, today: date) -> RunnerNow:
    """What the log of somebody who shares it adds."""
    heard = known.marks.heard_at or known.since
    last_week = [each for each in known.sessions if today - WEEK <= each.on < today]
    done = {each.planned_on for each in known.entries if each.status is Status.DONE}
    return replace(
        shared,
        back_on=_back_on(known, today),
        misses=misses_in_a_row(known),
        silent_days=0 if heard is None else max(0, (today - local(heard, profile.tz).date()).days),
        big_week=_is_big(known, today),
        first=any(today - WEEK < each.on for each in known.marks.firsts),
        sessions=sum(each.on in done for each in last_week),
        planned=len(last_week),
    )


def _back_on(known: Known, today: date) -> date | None:
    """The day of a return from a break, if it lies within the last week."""
    ends = [each.last + timedelta(days=1) for each in known.breaks if each.last is not None]
    return max((each for each in ends if today - WEEK < each <= today), default=None)


def _is_big(known: Known, today: date) -> bool:
    """A race this week, the first session of all, or one longer than any of the weeks before that are known."""
    monday = today - timedelta(days=today.weekday())
    this = [each for each in known.sessions if monday <= each.on < monday + WEEK]
    before = max((each.seconds for each in known.sessions if each.on < monday), default=0)
    longest = max((each.seconds for each in this), default=0)
    return any(each.purpose is Purpose.RACE for each in this) or longest > before
