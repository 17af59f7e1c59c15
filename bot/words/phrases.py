"""Small pieces of text for values: a session on one line, a day, a time, what was done."""

from collections.abc import Iterable, Sequence
from datetime import date, time

from bot.conversation.says import Standing
from bot.words.catalogue import Catalogue
from planning.progress.needs import MOST_NAMED
from planning.terms.choices import Activity, Do, Part, Purpose
from planning.terms.entry import Entry, Flag
from planning.terms.plan import Segment, Session, Strength


def number(value: float) -> str:
    """A number as people write it: no needless decimals."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def length(seconds: int) -> str:
    """A length: whole minutes, half minutes as such, below a minute in seconds."""
    return f"{seconds} s" if seconds < 60 else f"{number(seconds / 60)} min"


def clock(at: time) -> str:
    """A time of day."""
    return at.isoformat("minutes")


def day(on: date, today: date, words: Catalogue) -> str:
    """A day seen from *today*: today, tomorrow, else weekday and date."""
    ahead = (on - today).days
    if ahead in (0, 1):
        return (words.today, words.tomorrow)[ahead]
    return f"{words.weekdays[on.weekday()]} {on.day} {words.months[on.month - 1]}"


def session_line(session: Session, words: Catalogue) -> str:
    """A session on one line, repeats folded: "25 min: walk 5, 5 x (run 1, walk 2), walk 5"."""
    if not session.segments:
        return f"{words.do[Do.STRETCH]} {length(sum(each.seconds for each in session.after))}"
    parts = ", ".join(folded(session.segments, words))
    kinds = {each.do for each in session.segments}
    if len(session.segments) == 1:
        return f"{words.do[next(iter(kinds))]} {length(session.seconds)}"
    return f"{length(session.seconds)}: {parts}"


def folded(segments: Sequence[Segment], words: Catalogue) -> Iterable[str]:
    """The segments in words, runs of the same pair folded into one."""
    place = 0
    while place < len(segments):
        pair = tuple(segments[place : place + 2])
        times = 1
        while place + times < len(segments) and segments[place + times] == segments[place]:
            times += 1
        if times > 1:
            yield f"{times} x {_segment(segments[place], words)}"
            place += times
            continue
        while len(pair) == 2 and tuple(segments[place + 2 * times : place + 2 * times + 2]) == pair:
            times += 1
        if times > 1:
            yield f"{times} x ({_segment(pair[0], words)}, {_segment(pair[1], words)})"
            place += 2 * times
        else:
            yield _segment(segments[place], words)
            place += 1


def _segment(segment: Segment, words: Catalogue) -> str:
    return f"{words.do[segment.do]} {length(segment.seconds)}"


def how(session: Session, words: Catalogue) -> str:
    """One line on how to do it."""
    low, high = session.effort
    if session.purpose is Purpose.RACE:
        return words.how["race"]
    if not session.segments:
        return words.how["stretch_alone"]
    line = words.how["run" if session.run_seconds else "walk"].format(low=low, high=high)
    return f"{line} {words.how['stretch']}" if session.after else line


def done_line(entries: Iterable[Entry], words: Catalogue) -> str:
    """What was done, in a few words."""
    return ", ".join(_entry(each, words) for each in entries)


def _entry(entry: Entry, words: Catalogue) -> str:
    what = words.do[entry.kind or Activity.SESSION]
    if entry.kind is Activity.SESSION and entry.minutes is not None and entry.km is None:
        return f"{number(entry.minutes)} min"
    if entry.minutes is not None and entry.km is not None:
        return f"{what} {number(entry.minutes)} min, {number(entry.km)} km"
    if entry.minutes is not None:
        return f"{what} {number(entry.minutes)} min"
    if entry.km is not None:
        return f"{what} {number(entry.km)} km"
    if entry.share is not None and entry.share < 1:
        return f"{number(entry.share * 100)} % of {what}"
    return what


def parts_line(parts: Iterable[Part], words: Catalogue) -> str:
    """Parts of the body."""
    return ", ".join(words.part[each] for each in parts)


def strength_line(strength: Strength, today: date, words: Catalogue) -> str:
    """A strength session in a few words: day, minutes, moves by name."""
    moves = ", ".join(move.replace("_", " ") for move in strength.moves)
    return f"{day(strength.on, today, words)} {number(strength.minutes)} min ({moves})"


def flag_lines(flags: Iterable[Flag], today: date, words: Catalogue) -> Iterable[str]:
    """One line for each complaint: the part, the colour, from when to when."""
    for each in flags:
        side = f" ({each.side})" if each.side else ""
        end = words.wait["open"] if each.cleared_on is None else day(each.cleared_on, today, words)
        yield f"{words.part[each.part]}{side}: {each.colour}, {day(each.since, today, words)} - {end}"


def standing_lines(runners: Iterable[Standing], words: Catalogue) -> Iterable[str]:
    """One line for each runner who needs somebody, as many as are to be named: the name, and why."""
    pressing = [each for each in runners if each.needs]
    for each in pressing[:MOST_NAMED]:
        yield f"{each.called}: {_first_need(each, words)}{''.join(f'; {words.need[kind]}' for kind in each.needs[1:3])}"


def _first_need(standing: Standing, words: Catalogue) -> str:
    """The most pressing need, with how long it has waited."""
    what = words.need[standing.needs[0]]
    if standing.hours is not None:
        return words.wait["hours"].format(what=what, count=round(standing.hours))
    if standing.days is not None:
        return words.wait["days"].format(what=what, count=standing.days)
    return what
