"""How long each session of a week is, in whole minutes."""

from dataclasses import dataclass

from planning.plan.frame import Frame

BASE = 30
"""Minutes that the two or three main sessions grow to first: the walks that running enters on."""
LEAST = 10
BESIDE = 60
"""Most minutes of a session that is not the long one."""


@dataclass(frozen=True, slots=True)
class Room:
    """What a week may hold, in minutes: *week* in all, *session* each, *long* the long one and its *share*."""

    week: int
    session: int
    long: int
    share: tuple[int, int]


def spread(total: int, tops: list[int], limit: int) -> list[int]:
    """*total* minutes over sessions: each up to its *tops*, in order, what is left evenly up to *limit*."""
    lengths = []
    for top in tops:
        lengths.append(min(top, total))
        total -= lengths[-1]
    while total > 0 and any(each < limit for each in lengths):
        open_ = [index for index, each in enumerate(lengths) if each < limit]
        step = max(1, total // len(open_))
        for index in open_:
            more = min(step, limit - lengths[index], total)
            lengths[index] += more
            total -= more
    return lengths


def grown(frame: Frame, room: Room) -> dict[int, int]:
    """Minutes by weekday of the fullest week within *room*: the long session first, the others as its share asks."""
    if frame.count == 1:
        return {frame.long: min(room.session, room.week, room.long)}
    part, whole = room.share
    rest = frame.count - 1
    main = min(2, rest)
    base = min(max(BASE, frame.minutes), room.session)
    low = LEAST if frame.minutes < BASE else base
    least = min(main * base + (rest - main) * low, room.week * rest // frame.count)
    beside = BESIDE * rest * part // (whole - part)
    long = min(room.session, room.long, room.week - least, room.week * part // whole, beside)
    need = -(-long * (whole - part) // part)
    others = min(room.week - long, max(need, rest * base))
    tops = [min(base, long)] * main + [min(low, long)] * (rest - main)
    lengths = spread(others, tops, min(BESIDE, base, long))
    lengths = spread_more(lengths, need, min(BESIDE, long))
    return dict(zip(frame.order, [long, *lengths], strict=True))


def spread_more(lengths: list[int], need: int, limit: int) -> list[int]:
    """*lengths* raised evenly, up to *limit* each, until they add up to *need*."""
    missing = need - sum(lengths)
    return lengths if missing <= 0 else spread(sum(lengths) + missing, lengths, limit)


def eased(frame: Frame, before: int, long_before: int, session: int) -> dict[int, int]:
    """Minutes by weekday of an easier week: some 78 % of the *before* minutes of the week before."""
    total = max(-(-before * 70 // 100), min(before * 78 // 100, before * 85 // 100))
    if frame.count == 1:
        return {frame.long: total}
    part, whole = (2, 3) if frame.count == 2 else (1, 2)
    long = min(total * part // whole, max(long_before * 3 // 4, -(-total // frame.count)), session)
    rest = frame.count - 1
    lengths = spread(total - long, [0] * rest, min(BESIDE, session))
    return dict(zip(frame.order, [long, *lengths], strict=True))
