"""What the word of a clinician lifts, with the record of it."""

from dataclasses import dataclass, replace
from datetime import date

from bot.conversation.changes import Change, ClearFlag, KeepProfile, LiftHolds, NoteClearance, Replan
from bot.conversation.known import Known
from planning.terms.choices import Alarm, Colour, Danger, Part


@dataclass(frozen=True, slots=True)
class Clearance:
    """Who cleared somebody, in the words that were said, on which local date, who told it in which message."""

    by: str
    on: date
    told_by: str
    from_id: str


@dataclass(frozen=True, slots=True)
class Lifted:
    """What was on hold and is not any more: danger *codes*, or red *parts*; *screened*: the start screening too."""

    changes: tuple[Change, ...]
    codes: tuple[Danger | Alarm, ...]
    parts: tuple[Part, ...]
    screened: bool


def on_hold(known: Known) -> bool:
    """Whether anything stands that a clinician can lift."""
    return bool(known.holds or _red(known) or _is_screened(known))


def lifted(known: Known, clearance: Clearance) -> Lifted:
    """What goes: danger with the flags that the same messages raised; without danger the red flags; the screening."""
    on, from_id, profile = clearance.on, clearance.from_id, known.profile
    codes = tuple(dict.fromkeys(code for hold in known.holds for code in hold.codes))
    parts = () if known.holds else _red(known)
    changes: list[Change] = [NoteClearance(on, clearance.by, clearance.told_by, from_id)]
    changes += [LiftHolds(on, clearance.by, from_id)] if known.holds else []
    changes += [ClearFlag(part, on, from_id) for part in parts]
    screened = profile is not None and _is_screened(known)
    changes += [KeepProfile(replace(profile, cleared=True))] if profile is not None and screened else []
    return Lifted((*changes, Replan()), codes, parts, screened)


def _is_screened(known: Known) -> bool:
    profile = known.profile
    return profile is not None and not profile.cleared and (profile.screen.disease or profile.screen.signs)


def _red(known: Known) -> tuple[Part, ...]:
    red = (flag.part for flag in known.flags if flag.cleared_on is None and flag.colour is Colour.RED)
    return tuple(dict.fromkeys(red))
