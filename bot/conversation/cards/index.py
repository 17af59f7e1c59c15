"""Which sets of words a text points to: found by its words, so that many cards cost no more than few."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from bot.conversation.cards.deck import Card, Words

PointsTo = tuple[tuple[int, Words], ...]
"""Sets of words, each with the place of its card in the deck."""


@dataclass(frozen=True, slots=True)
class Index:
    """*cards*: the deck; *sets*: the word sets under each form of the word that is least often in any; *stems*: the
    lengths of those beginnings of words ("a*") that are in any.
    """

    cards: tuple[Card, ...]
    sets: Mapping[str, PointsTo]
    stems: tuple[int, ...]

    def forms(self, token: str) -> frozenset[str]:
        """All that *token* may be a form of: itself, and how it begins."""
        return frozenset((token, *(f"{token[:length]}*" for length in self.stems)))

    def best(self, said: tuple[str, ...], *, all_of_it: bool = False) -> tuple[Card, ...]:
        """The cards with the largest set of words that is said whole; several if they are alike.

        *all_of_it*: nothing else may be said.
        """
        tokens = tuple(map(self.forms, dict.fromkeys(said)))
        sizes: dict[int, int] = {}
        for place, words in self._held(frozenset().union(*tokens)):
            if not all_of_it or all(any(not token.isdisjoint(forms) for forms in words) for token in tokens):
                sizes[place] = max(len(words), sizes.get(place, 0))
        most = max(sizes.values(), default=0)
        return tuple(self.cards[place] for place in sorted(sizes) if sizes[place] == most)

    def _held(self, hits: frozenset[str]) -> Iterator[tuple[int, Words]]:
        """The sets of which each word is said, and none beside which their card is no answer."""
        for form in hits & self.sets.keys():
            for place, words in self.sets[form]:
                if self.cards[place].unless.isdisjoint(hits) and not any(hits.isdisjoint(forms) for forms in words):
                    yield place, words


def index_of(cards: tuple[Card, ...], offers: Iterable[tuple[Words, ...]]) -> Index:
    """The index of *cards*. *offers*: for each of them the word sets by which it is found."""
    sets = [(place, words) for place, each in enumerate(offers) for words in each]
    often = Counter(form for _, words in sets for forms in words for form in forms)
    by_form: dict[str, list[tuple[int, Words]]] = {}
    for place, words in sets:
        for form in min(words, key=lambda forms: sum(often[form] for form in forms)):
            by_form.setdefault(form, []).append((place, words))
    forms = {*often, *(form for card in cards for form in card.unless)}
    stems = {len(form) - 1 for form in forms if form.endswith("*")}
    return Index(cards, {form: tuple(found) for form, found in by_form.items()}, tuple(sorted(stems)))
