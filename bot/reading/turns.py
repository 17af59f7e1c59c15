"""Which rules have their turn: those that can find anything in a reply, by the tags that stand in it."""

from collections.abc import Callable, Iterable
from functools import partial
from typing import NamedTuple

from bot.reading.leads import Led
from bot.reading.page import Page, Rule, fire
from bot.reading.tags import Letter


class Turn(NamedTuple):
    """A step of reading. *leads*: tags of which one must stand in a reply; without any it always has its turn."""

    take: Callable[[Page], None]
    leads: frozenset[Letter] = frozenset()


class Turns:
    """Steps of reading in their order, to be asked for by the tags of a reply."""

    def __init__(self, *turns: Turn | tuple[Rule, ...]) -> None:
        each = tuple(_each(turns))
        self._takes = tuple(turn.take for turn in each)
        self._led = Led(turn.leads for turn in each)

    def take(self, page: Page) -> None:
        """Let every step that can find anything in *page* have its turn."""
        takes = self._takes
        for place in self._led.due(page.there):
            takes[place](page)


def _each(turns: Iterable[Turn | tuple[Rule, ...]]) -> Iterable[Turn]:
    for turn in turns:
        if isinstance(turn, Turn):
            yield turn
        else:
            yield from (Turn(partial(fire, rule), rule.lead) for rule in turn)
