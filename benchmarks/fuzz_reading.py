"""Hostile texts through the reader: none may raise, and each reading must be JSON that encodes.

Run it as `python -m benchmarks.fuzz_reading [count]`; the default is 200,000.
"""

import json
import sys
import time
from datetime import datetime

from bot.reading import as_json, read
from tests.bot.reading.hostile import hostile_texts

AT = datetime.fromisoformat("2028-02-29T12:00")
ASKED = (None, "effort", "sure", "pain", "weight", "time", "done")


def main(count: int) -> int:
    read("walked 20, kneees sore", AT, "UTC")  # the word lists are read once
    start, failures, slowest = time.perf_counter(), 0, 0.0
    for number, text in enumerate(hostile_texts(count, seed=20_260)):
        begun = time.perf_counter()
        try:
            json.dumps(as_json(read(text, AT, "Pacific/Apia", 20, ASKED[number % 7])), allow_nan=False).encode()
        except Exception as problem:
            failures += 1
            print(f"{text!r}: {problem!r}")
        slowest = max(slowest, time.perf_counter() - begun)
        if number % 20_000 == 0:
            print(f"{number} texts, {failures} failures, {time.perf_counter() - start:.0f} s", flush=True)
    print(f"{count} texts, {failures} failures, slowest {slowest * 1000:.0f} ms, {time.perf_counter() - start:.0f} s")
    return int(failures > 0)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200_000))
