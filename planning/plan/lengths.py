"""How long each session of a week is, in whole minutes."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

BASE = 30
"""Minutes that the two or three main sessions grow to first: the walks that running enters on."""
LEAST = 10
"""Fewest minutes of a session worth putting on shoes for (common practice, no source)."""
BESIDE = 60
"""Most minutes of a session on the day before or after the long one."""
APART = 90
"""Most minutes of any other session (common practice, no source)."""


class Room(NamedTuple):
    """What a week may hold, in minutes: *week* in all, *session* each, *long* the long one and its *share*.

    *usual*: minutes of a session of week 1.
    """

    week: int
    session: int
    long: int
    share: tuple[int, int]
    usual: int


def limit_of(weekday: int, long: int) -> int:
    """Most minutes of a session on *weekday* that is not the long one: less beside the *long* day."""
    return BESIDE if (weekday - long) % 7 in (1, 6) else APART


def spread(total: int, tops: list[int], limits: list[int]) -> list[int]:
    """*total* minutes over sessions: each up to its *tops*, in order, what is left evenly up to the *limits*."""
    lengths = []
    for top in tops:
        lengths.append(min(top, total))
        total -= lengths[-1]
    while total > 0:
        growing = [index for index, each in enumerate(lengths) if each < limits[index]]
        if not growing:
            break
        step = max(1, total // len(growing))
        for index in growing:
            more = min(step, limits[index] - lengths[index], total)
            lengths[index] += more
            total -= more
    return lengths


@lru_cache(maxsize=4096)
def grown(order: tuple[int, ...], room: Room) -> Mapping[int, int]:
    """Minutes by weekday of the fullest week within *room*: the long session first, the others as its share asks.

    *order*: weekdays, the one of the long session first; those for which no room is left are dropped.
    """
    order = order[: max(1, room.week // LEAST)]
    count = len(order)
    if count <= 1:
        return MappingProxyType({each: min(room.session, room.week, room.long) for each in order})
    part, whole = room.share
    rest = count - 1
    main = min(2, rest)
    base = min(max(BASE, room.usual), room.session)
    low = LEAST if room.usual < BASE else base
    least = min(main * base + (rest - main) * low, room.week * rest // count)
    limits = [limit_of(each, order[0]) for each in order[1:]]
    beside = sum(limits) * part // (whole - part)
    long = min(room.session, room.long, room.week - least, room.week * part // whole, beside)
    need = -(-long * (whole - part) // part)
    others = min(room.week - long, max(need, rest * base))
    tops = [min(base, long)] * main + [min(low, long)] * (rest - main)
    lengths = spread(others, tops, [min(base, long)] * rest)
    lengths = raised(lengths, need, [min(each, long) for each in limits])
    return MappingProxyType(dict(zip(order, [long, *lengths], strict=True)))


def raised(lengths: list[int], need: int, limits: list[int]) -> list[int]:
    """*lengths* raised evenly, up to their *limits*, until they add up to *need*."""
    missing = need - sum(lengths)
    return lengths if missing <= 0 else spread(sum(lengths) + missing, lengths, limits)


def level(order: tuple[int, ...], room: Room) -> dict[int, int]:
    """Minutes by weekday of a week without a long session: the same for each, up to 30 or what is usual."""
    order = order[: max(1, room.week // LEAST)]
    each = min(max(BASE, room.usual), room.session, room.week // max(1, len(order)))
    return dict.fromkeys(order, each)


def easier_total(before: int) -> int:
    """Minutes of an easier week after one of *before* seconds: 78 %, within 70 and 85."""
    return max(-(-before * 70 // 6000), before * 78 // 6000)


def evened(order: tuple[int, ...], total: int, session: int, long: int) -> dict[int, int]:
    """*total* minutes spread evenly, each session within *session*, less on the days beside the *long* one."""
    limits = [min(limit_of(each, long), session) for each in order]
    return dict(zip(order, spread(total, [0] * len(order), limits), strict=True))


def eased(order: tuple[int, ...], before: int, long_before: int, session: int) -> dict[int, int]:
    """Minutes by weekday of an easier week: some 78 % of the *before* seconds of the week before."""
    total = easier_total(before)
    if len(order) == 1:
        return {order[0]: total}
    part, whole = (2, 3) if len(order) == 2 else (1, 2)
    long = min(total * part // whole, max(long_before * 3 // 4, -(-total // len(order))), session)
    limits = [min(limit_of(each, order[0]), session) for each in order[1:]]
    return dict(zip(order, [long, *spread(total - long, [0] * len(limits), limits)], strict=True))
