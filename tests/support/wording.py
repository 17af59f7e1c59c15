"""What no message may say, and how long its parts may be."""

import re
from collections.abc import Iterator
from pathlib import Path
from tomllib import loads

Json = dict[str, object]

FIRST_LINE, MOST_BUTTONS = 80, 4
WORDS = loads(Path(__file__).with_name("wording.toml").read_text(encoding="utf-8"))


def _any_of(name: str) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{each})" for each in WORDS[name]), re.IGNORECASE)


BANNED, CLAIMS, BODY = _any_of("banned"), _any_of("claims"), _any_of("body")
QUOTED = re.compile(r"\"[^\"]*\"")
"""What stands in quotes is what somebody else might say."""

SHOWN_ON_A_LOCK_SCREEN = frozenset({"today", "nudge", "digest", "notice"})


def wrong_words(message: Json) -> Iterator[str]:
    """Every rule that the words of *message* break."""
    text, about, buttons = str(message["text"]), message["about"], message.get("buttons", [])
    assert isinstance(about, dict)
    assert isinstance(buttons, list)
    first = text.split("\n", 1)[0]
    told = "\n".join((QUOTED.sub("", text), *(each["label"] for each in buttons)))
    if len(first) > FIRST_LINE:
        yield f"first line of {len(first)}: {first}"
    if _questions(text) > 1:
        yield f"more than one question: {text}"
    for rule, pattern, where in (("banned", BANNED, told), ("claim", CLAIMS, told)):
        if found := pattern.search(where):
            yield f"{rule} {found[0]!r}: {text}"
    unasked = about["kind"] in SHOWN_ON_A_LOCK_SCREEN or (about["kind"] == "ask" and "facts" not in about)
    if unasked and (found := BODY.search(first)):
        yield f"body word {found[0]!r} on the lock screen: {first}"
    if len(buttons) > MOST_BUTTONS or len({each["label"] for each in buttons}) < len(buttons):
        yield f"buttons: {[each['label'] for each in buttons]}"
    if re.search(r"[{}]|\bNone\b(?! of)", text) or not text.strip():
        yield f"no whole sentence: {text}"


def _questions(text: str) -> int:
    """Sentences that end in a question mark."""
    return len(re.findall(r"\?(?=\s|$)", QUOTED.sub("", text)))
