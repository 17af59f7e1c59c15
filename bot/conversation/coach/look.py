"""How one runner stands, for their coach: needs, complaints by part of the body, load; all as they share it."""

from dataclasses import replace
from datetime import date

from bot.conversation.changes import Outcome
from bot.conversation.coach.names import shown
from bot.conversation.coach.needs import runner_now
from bot.conversation.coach.trend import loads, with_minutes
from bot.conversation.known import Known
from bot.conversation.says import Facts, Kind, Say, Slot, Standing
from bot.conversation.scene import Scene
from bot.conversation.topics.misses import misses_in_a_row
from planning.calendar import local
from planning.progress.guidance import is_running_injury, meets_minimum
from planning.progress.needs import who_needs
from planning.terms.choices import Colour, Part, Share
from planning.terms.entry import Flag, Status

VIGOROUS = 5
"""From this effort on a minute counts as a vigorous one. Common practice, no source."""

LEGS = frozenset(Part) - {
    Part.BACK, Part.NECK, Part.SHOULDER, Part.ARM, Part.HAND, Part.RIBS, Part.CHEST, Part.STOMACH, Part.HEAD, Part.BODY
}  # fmt: skip


def look_at(scene: Scene, runner: Known) -> Outcome:
    """Everything that the coach may see of one runner, on one page."""
    assert runner.profile is not None
    today = local(scene.now, runner.profile.tz).date()
    need = who_needs((runner_now(runner, scene.now),), scene.now, scene.today).all[0]
    facts = Facts(who=runner.who, runners=(Standing(runner.who, shown(runner), need.kinds, need.hours, need.days),))
    words: tuple[str, ...] = ("look_needs" if need.kinds else "look_fine",)
    if Share.BODY in runner.profile.shares:
        facts = replace(facts, flags=_by_part(runner.flags))
        words += ("look_body" if runner.flags else "look_no_body", *_injured(runner, today))
    if Share.LOG in runner.profile.shares:
        facts = replace(facts, loads=loads(runner, today))
        words += ("look_load", *_active(runner, today))
    moods = tuple((each.on, each.mood) for each in runner.marks.moods)
    if Share.MOOD in runner.profile.shares and moods:
        facts = replace(facts, moods=moods)
        words += ("look_mood",)
    slots = (Slot("called", shown(runner)),)
    return Outcome((), (Say(scene.who, Kind.DIGEST, words, facts, slots=slots),))


def _by_part(flags: tuple[Flag, ...]) -> tuple[Flag, ...]:
    return tuple(sorted(flags, key=lambda flag: (flag.part, flag.side or "", flag.since)))


def _injured(runner: Known, today: date) -> tuple[str, ...]:
    """Whether a complaint of the legs counts as a running injury by the published definition."""
    open_ones = [flag for flag in runner.flags if flag.cleared_on is None and flag.part in LEGS]
    held = [(today - flag.since).days for flag in open_ones if flag.colour is not Colour.GREEN]
    is_one = bool(held) and is_running_injury(max(held), misses_in_a_row(runner))
    return ("look_injury",) if is_one else ()


def _active(runner: Known, today: date) -> tuple[str, ...]:
    """Whether the last seven days reached the minimum of activity for adults."""
    week = [with_minutes(each, runner) for each in runner.entries if 0 <= (today - each.on).days < 7]
    done = [(each.effort or 0, each.minutes or 0) for each in week if each.status is Status.DONE]
    vigorous = sum(minutes for effort, minutes in done if effort >= VIGOROUS)
    return ("look_active",) if meets_minimum(sum(minutes for _, minutes in done) - vigorous, vigorous) else ()
