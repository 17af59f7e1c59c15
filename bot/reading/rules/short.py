"""What fell short of the plan: the amount that was not reached is nothing done, the one told after it is."""

from collections.abc import Iterable
from re import Match

from bot.reading.page import Finding, Page, rule
from bot.reading.tags import Tag

_AMOUNTS = (Tag.NUM, Tag.DUR, Tag.DIST)
_REACHED = "(?:SELF|FILL|ONLY|ABOUT|DONE|GOT|STOPPED|TO|AT|THE|HAVE|IT|IS|TOTAL|WORD|MAX|AFTER)"
_BETWEEN = "(?:FILL|WORD|DONE|GOT|THE|SHARE|TO|ABOUT|WHOLE|SESSION|INTENDED|MOVE|FOR|IS|HAVE|MAX|STOPPED)"


def _not_reached(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`didn't manage 20, only 14`, and neither "can't do 30, only 20" nor "no gym, 10 walk then 20 run"."""
    plan = page.line[hit.start() - 1 : hit.start()] == Tag.PLAN and page.items[hit.start() - 1]
    if plan and page.words[plan.last] != "could":
        return ()
    wanted, reached = list(page.pick(hit, *_AMOUNTS))
    if wanted.tag == Tag.DIST and reached.tag != Tag.DIST:
        return ()
    if reached.n < wanted.n:
        index = page.items.index(wanted)
        page.claim(hit.start(), index + 1)
        told = page.line[index + 1 : hit.end()].replace(Tag.ONLY, Tag.FILL).replace(Tag.MAX, Tag.FILL)
        page.line = page.line[: index + 1] + told + page.line[hit.end() :]
    return ()


SHORT = (
    rule(
        "not reached",
        f"(?:NEG|MISS_IT|MISS|INTENDED) {_BETWEEN}{{0,5}} [NUM DUR DIST] (?:OF IT|OF THE SESSION|DATE|PARTDAY|FILL)? "
        f"(?:STOP|COMMA|BUT|DASH){{1,2}} {_REACHED}{{0,5}} [NUM DUR DIST]",
        _not_reached,
        claims=False,
    ),
)
