"""Time that only went by: an hour since, twenty minutes at rest, the minute at which something began to hurt."""

from bot.reading.lexicon import listed
from bot.reading.page import Key
from bot.reading.rules.clauses import Amount
from bot.reading.tags import Tag, pattern

HOURS = 12
"""Up to this "tea at two" is an hour."""


def _when_it_hurt(amount: Amount) -> bool:
    """`sore at 12 min, did 20`, `stitch until 12`."""
    page, index = amount.page, amount.place
    if not amount.clause.aches:
        return False
    ached = page.line[index] == Tag.DUR and amount.before == Tag.AT and not amount.clause.told
    reached = amount.before == Tag.STOPPED and page.words[page.items[index - 1].first] in ("at", "until")
    return ached or (reached and Tag.STOPPED not in page.line[index:])


def _since_then(amount: Amount) -> bool:
    """`half an hour on I still pant`, `weak for ten minutes after`, `an hour since`, `20 min is too long`."""
    line, next_one = amount.page.line, amount.place + 1
    on = amount.after[:1] in (["on"], ["later"]) and line[amount.place] == Tag.DUR
    if on and _SINCE_THEN.match(line, next_one):
        return True
    if amount.after[:1] in (["after"], ["afterwards"]) and not amount.of_deed and amount.page.has(Key.DANGER):
        return True
    too_long = amount.after[:2] in (["is", "too"], ["was", "too"])
    return line[next_one : next_one + 1] == Tag.SINCE or amount.after[:1] == ["since"] or too_long


def _spent_otherwise(amount: Amount) -> bool:
    """`spent an hour looking for my shoes`, `school run took 35 min`."""
    spent = not amount.clause.acts and "spent" in amount.lead
    if spent and any(word.endswith("ing") for word in amount.after[:1]):
        return True
    lead = amount.page.words[max(0, amount.first - 4) : amount.first]
    return lead[-1:] == ["took"] and not amount.clause.selves and not _TAKING.isdisjoint(lead)


def _gone_by_then(amount: Amount) -> bool:
    """`after ten minutes it was gone`."""
    line = amount.page.line
    gone = amount.before == Tag.AFTER and _GONE_THEN.match(line, amount.place + 1) is not None
    return gone and Tag.STOPPED not in line


def _of_a_break(amount: Amount) -> bool:
    """`- 20 min - away`, `- 5 - windy`: between dashes, beside days off or the weather."""
    line, index = amount.page.line, amount.place
    return line[index - 1 : index] == Tag.DASH and line[index + 1 : index + 2] in (Tag.OFF, Tag.SKY)


def _of_a_sign(amount: Amount) -> bool:
    """`heart racing already 20 min`, `dizzy 20 min now`, `no sweat ten mins back`: how long a sign of danger lasts."""
    if amount.clause.told or not amount.page.has(Key.DANGER):
        return False
    return amount.said(1) == ["already"] or amount.after[:1] in (["now"], ["back"])


def _at_that_hour(amount: Amount) -> bool:
    """`rain stopped at 6`."""
    page, index = amount.page, amount.place
    if amount.before != Tag.STOPPED or page.items[index].n > HOURS:
        return False
    return page.words[max(0, page.items[index - 1].first - 1)] in _STOPS


def _of_a_way(amount: Amount) -> bool:
    """`the shop is 2 km`."""
    line, index = amount.page.line, amount.place
    distance = line[index] == Tag.DIST and line[max(0, index - 3) : index] == Tag.THE + Tag.WORD + Tag.IS
    return distance and amount.page.words[amount.first - 1] == "is"


def _at_rest(amount: Amount) -> bool:
    """`sat 20 minutes`, `after a rest of 5`, `two minutes on a bench`, `12 hrs on a coach`."""
    if amount.after[:1] in (["on"], ["in"]) and not _SEATS.isdisjoint(amount.after[1:]) and not amount.of_deed:
        return True
    return not amount.clause.acts and not amount.clause.told and not _RESTING.isdisjoint(amount.lead)


def _been_there(amount: Amount) -> bool:
    """`been home an hour`."""
    words = amount.lead[-5:]
    if amount.clause.acts or "been" not in words:
        return False
    between = set(words[len(words) - words[::-1].index("been") :])
    bare = amount.before == Tag.IS and not amount.clause.told
    return between <= _WAITING and between.isdisjoint(("out", "going")) and (bool(between) or bare)


PASSED = (
    _when_it_hurt,
    _since_then,
    _spent_otherwise,
    _gone_by_then,
    _of_a_break,
    _of_a_sign,
    _at_that_hour,
    _of_a_way,
    _at_rest,
    _been_there,
)
"""Nothing was done in an amount of which one of these holds: it only passed, or tells when something was."""
_SINCE_THEN = pattern("[ON AGO PARTDAY] (?:COMMA|SELF|FILL SELF|STOP|AND)")
_GONE_THEN = pattern("(?:IT|SELF|OTHER|THE PART|IS|FILL|COMMA)* [WELL COURSE]")
_TAKING = listed("counted", "taking")
_STOPS = listed("counted", "passing")
_SEATS = listed("counted", "seats")
_RESTING = listed("counted", "resting")
_WAITING = listed("places", "waiting")
