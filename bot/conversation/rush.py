"""Somebody, or a program, writes faster than anybody could answer: one word about it, then nothing but help.

A door that strangers reach sets the limit. What comes over it is kept unread, up to a minute of quiet.
"""

from dataclasses import replace
from datetime import datetime, timedelta

from bot.conversation.changes import Outcome, SetMarks
from bot.conversation.known import Known, Rush
from bot.conversation.says import Kind, Say
from planning.terms.choices import Role

SPAN = timedelta(minutes=1)

HELP = frozenset({Kind.URGENT, Kind.CARE})


def counted(known: Known, most: int, now: datetime) -> Known:
    """*known* with the message that came *now* among those of the last minute. Over *most* each begins it anew."""
    before = known.marks.rush
    if before is None or not before.since <= now < before.since + SPAN:
        rush = Rush(now, 1)
    else:
        rush = Rush(before.since if before.count < most else now, before.count + 1)
    return replace(known, marks=replace(known.marks, rush=rush))


def held_back(known: Known, outcome: Outcome, most: int, now: datetime) -> Outcome:
    """*outcome*, or what stands in its place when more than *most* messages came in a minute. Help is never held back.

    *known*: as `counted` gives it. Coaches, and whoever is not enrolled yet, are answered as ever.
    """
    rush = known.marks.rush
    is_help = any(say.kind in HELP for say in outcome.says)
    is_runner = known.profile is not None and known.profile.role is Role.RUNNER
    if not is_runner or rush is None or rush.count <= most or is_help:
        return outcome
    says = (Say(known.who, Kind.NOT_READ, ("too_fast",)),) if rush.count == most + 1 else ()
    return Outcome((SetMarks(replace(known.marks, heard_at=now)),), says)
