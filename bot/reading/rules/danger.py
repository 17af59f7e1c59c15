"""Danger and alarm: the signs of the word lists, in the order of the lists."""

from bot.reading.lexicon import groups, signs
from bot.reading.page import Found, Key, Page
from bot.reading.signs import mentions_of, scope_of, seen


_NUMBERED = frozenset({"sugar", "heart", "breath", "eating"})


def danger(page: Page) -> None:
    """Find all signs of danger and alarm. They claim nothing: a sign may be a complaint too."""
    scope = scope_of(page.tokens, page.items)
    page.elsewhere = scope.other | scope.over
    mentions = mentions_of(page.tokens, groups())
    for key, name in ((Key.DANGER, "danger"), (Key.ALARM, "alarm")):
        for sign in seen(signs(name), mentions, scope):
            page.found.append(Found(key, sign.sign.code, sign.first, sign.last, sign.sign.name))
            if sign.sign.code in _NUMBERED:
                page.signs |= frozenset(range(sign.first, sign.last + 1))
