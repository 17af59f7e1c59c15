"""What is denied: the words after "no", "never" or "without", to where the denial ends."""

from collections.abc import Iterator, Sequence

from bot.reading.bounds import OWN, PREPOSITIONS, is_mark, own_part, word_at
from bot.reading.lexicon import listed, symptoms
from bot.reading.tags import Token

_DENIALS = frozenset({"no", "not", "never", "without", "zero", "nor", "neither", "none", "denies", "nobody"})
_DENIAL_ENDS = frozenset({",", ":", "but", "just", "now", "so", "then", "because", "i", "though"})
_UNABLE = frozenset({"can", "could", "will", "would"})
_DENIED_VERBS = frozenset(
    {"have", "had", "get", "got", "getting", "feel", "felt", "feeling", "hurt", "faint", "notice", "suffer", "pass",
     "black", "collapse", "want", "experience", "any", "a", "the", "been", "being", "actually", "really", "even",
     "make", "having", "gone", "going", "be", "wanting", "trying", "planning"}
)  # fmt: skip
_BEGINS_ANEW = listed("others", "begin_anew")
"""After "and" a denial goes no further: "no pain and felt dizzy"."""
REACH = 7


def denied(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Tokens after a denial, to the end of its reach. "Can't shake the pain" denies nothing."""
    for index, token in enumerate(tokens):
        if token.word not in _DENIALS:
            continue
        before = tokens[index - 1].word if index else ""
        after = tokens[index + 1].word if index + 1 < len(tokens) else ""
        auxiliary = before in ("did", "do", "does") and not (after == "go" and word_at(tokens, index + 2) in _GONE)
        if before in _UNABLE or after in ("longer", "stop") or (auxiliary and after not in _DENIED_VERBS):
            continue
        if (token.word == "without" and _unable(tokens, index)) or _denies_nothing(tokens, index):
            continue
        for place in range(index + 1, min(index + 1 + REACH, len(tokens))):
            another = tokens[place - 1].word == "and" and (
                tokens[place].word in _BEGINS_ANEW or own_part(tokens, place)
            )
            own = tokens[place].word == "my" and tokens[place - 1].word not in PREPOSITIONS and place > index + 1
            own = own and own_part(tokens, place + 1)
            if (
                tokens[place].word in _DENIAL_ENDS
                or another
                or own
                or is_mark(tokens, place)
                or _gives_reason(tokens, place)
            ):
                break
            yield place, index


def _gives_reason(tokens: Sequence[Token], place: int) -> bool:
    """`wasn't doing anything as my pee looks like cola`, `no worries since my wee is dark`."""
    return tokens[place].word in _REASONING and word_at(tokens, place + 1) in OWN


_REASONING = frozenset({"as", "since"})


_GONE = frozenset({"dizzy", "faint", "numb", "lightheaded", "black", "woozy", "giddy"})
"""`didn't go dizzy`, and not "didn't go out dizzy"."""


_ASIDES = listed("others", "aside")
_INNOCENT = listed("others", "innocent")
_DENIABLE = listed("others", "deniable")
_THAT = frozenset({"that", "this", "it", "them"})


def _denies_nothing(tokens: Sequence[Token], index: int) -> bool:
    """`no idea why`, `not great`, `never had that before`: a denial of something else, without a mark after it."""
    after = [token.word for token in tokens[index + 1 : index + 3]]
    if tokens[index].word == "no" and after[:1] in (["my"], ["i"]):
        return True
    new = (
        tokens[index].word == "never"
        and after[:1] in (["had"], ["felt"], ["known"])
        and not _THAT.isdisjoint(after[1:])
    )
    what = after[1:] if tokens[index].word == "not" and after[:1] in (["much"], ["enough"]) else after[:1]
    other = tokens[index].word == "no" and bool(after) and after[0] not in symptoms() and after[0] not in _DENIABLE
    other = other or (tokens[index].word in ("no", "not", "without") and not _INNOCENT.isdisjoint(what))
    return new or other or (bool(after) and tokens[index].word in ("no", "not") and after[0] in _ASIDES)


def _unable(tokens: Sequence[Token], index: int) -> bool:
    """Whether *index* follows what can't be done: "can't walk up the road without my chest gripping me"."""
    return any(
        tokens[place].word == "not" and tokens[place - 1].word in _UNABLE
        for place in range(max(1, index - 2 * REACH), index)
    )
