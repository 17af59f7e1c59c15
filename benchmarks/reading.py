"""Speed of reading, as ratios within one run: against a date parser on a date phrase alone, and a profile by stage.

Run it as `python -m benchmarks.reading` with the `bench` extra installed.
"""

import json
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from bot.reading import read
from bot.reading.facts import Asked
from bot.reading.lexicon import phrases, spelling
from bot.reading.normalise import normalise
from bot.reading.reader import page_of, run
from bot.reading.resolve import reading_of
from bot.reading.scan import items_of
from bot.reading.tokens import tokens_of

AT = datetime.fromisoformat("2026-03-04T18:20")
EXAMPLES = Path(__file__).parent.parent / "tests" / "bot" / "reading" / "examples"
PHRASES = ("next friday", "in 2 hours", "tomorrow at 7", "3 days ago", "march 12")
ROUNDS = 20


def replies() -> Iterator[str]:
    for name in ("open", "open_a", "open_b"):
        for line in (EXAMPLES / f"{name}.jsonl").read_text(encoding="utf-8").splitlines():
            if text := json.loads(line).get("text"):
                yield text


def milliseconds(call: Callable[[], object]) -> float:
    start = time.perf_counter()
    call()
    return (time.perf_counter() - start) * 1000


def best(call: Callable[[], object]) -> float:
    """The time that the call needs: the least of some rounds, which noise of the machine can't lower."""
    return min(milliseconds(call) for _ in range(ROUNDS))


def reading_times(texts: list[str]) -> list[float]:
    return sorted(best(lambda text=text: read(text, AT, "UTC", 25)) for text in texts)  # type: ignore[misc]


def parser_median(**options: list[str]) -> float:
    """Median of the date parser over the phrases, each warm."""
    import dateparser  # type: ignore[import-untyped]

    def parse(phrase: str) -> object:
        return dateparser.parse(phrase, settings={"RELATIVE_BASE": AT}, **options)

    for phrase in PHRASES:
        parse(phrase)
    return statistics.median(best(lambda phrase=phrase: parse(phrase)) for phrase in PHRASES)  # type: ignore[misc]


def stages(texts: list[str]) -> Iterator[tuple[str, float]]:
    """Median milliseconds of each stage."""
    plain = [normalise(text) for text in texts]
    tokens = [tokens_of(each, spelling()) for each in plain]
    yield "normalise", _median(normalise, texts)
    yield "tokens", _median(lambda each: tokens_of(each, spelling()), plain)
    words = [[token.word for token in each] for each in tokens]
    yield "words and phrases", _median(lambda pair: items_of(*pair, phrases()), list(zip(tokens, words, strict=True)))
    yield "up to amounts", _median(lambda text: page_of(text, AT, 25, None), texts)
    pages = [page_of(text, AT, 25, Asked.DONE) for text in texts]
    yield "rules", statistics.median(milliseconds(lambda page=page: run(page)) for page in pages)  # type: ignore[misc]
    yield "reading", _median(reading_of, pages)


def _median(call: Callable[[Any], object], values: list[Any]) -> float:
    return statistics.median(best(lambda value=value: call(value)) for value in values)  # type: ignore[misc]


def import_milliseconds() -> float:
    """What `import bot.reading` costs above the bare interpreter."""

    def started(code: str) -> float:
        return min(milliseconds(lambda: subprocess.run([sys.executable, "-c", code], check=True)) for _ in range(5))

    return started("import bot.reading") - started("pass")


def main() -> None:
    texts = list(replies())
    first = milliseconds(lambda: read("walked 20, kneees sore", AT, "UTC"))
    times = reading_times(texts)
    median, slow = statistics.median(times), times[int(0.99 * len(times))]
    parser, english = parser_median(), parser_median(languages=["en"])
    print(f"{len(texts)} replies; first reply {first:.0f} ms (lists are loaded), import {import_milliseconds():.0f} ms")
    print(f"median {median:.3f} ms, 99th percentile {slow:.3f} ms = {slow / median:.1f} x the median")
    print(f"date parser on a phrase {parser:.3f} ms; reading is {median / parser:.2f} of it")
    print(f"  told that it is English {english:.3f} ms; reading is {median / english:.2f} of it")
    for name, spent in stages(texts[:200]):
        print(f"  {name:18} {spent:.3f} ms")


if __name__ == "__main__":
    main()
