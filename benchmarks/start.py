"""How long the terminal chat takes to its first prompt, and to its first answer, on existing records.

Measured as a ratio within one run, in pairs: `python -m bot chat` from start to prompt against a Python that imports
SQLAlchemy and pydantic alone; the answer is that to words typed as soon as there is a prompt. Run:
`python benchmarks/start.py [pairs]`. Wished for: at most 2.5 to the prompt, an answer within 2 s of the start.
"""

import os
import pty
import select
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter

ROOT = Path(__file__).parents[1]
PROMPT = b"\x1b[?2004h"
"""What the prompt sends when it is ready to be typed at: bracketed paste is switched on."""

ANSWER = b"Lamppost"
"""What stands above an answer."""

BARE = [sys.executable, "-c", "import sqlalchemy, pydantic"]
PLAIN = {**os.environ, "PROMPT_TOOLKIT_NO_CPR": "1"}
"""Nobody answers here where the cursor stands."""


def until_talk(url: str) -> tuple[float, float]:
    """Seconds from start to prompt, and to the first answer, in a terminal of its own."""
    leader, follower = pty.openpty()
    begun = perf_counter()
    command = [sys.executable, "-m", "bot", "chat", "--db", url]
    chat = subprocess.Popen(command, stdin=follower, stdout=follower, stderr=follower, cwd=ROOT, env=PLAIN)
    os.close(follower)
    _read_until(leader, PROMPT)
    prompt = perf_counter() - begun
    os.write(leader, b"thanks\r")
    _read_until(leader, ANSWER)
    answer = perf_counter() - begun
    chat.kill()
    chat.wait()
    os.close(leader)
    return prompt, answer


def _read_until(leader: int, sign: bytes) -> None:
    shown = b""
    while sign not in shown and select.select([leader], [], [], 30)[0]:
        shown += os.read(leader, 4096)


def bare() -> float:
    """Seconds of the imports alone."""
    begun = perf_counter()
    subprocess.run(BARE, check=True, cwd=ROOT)
    return perf_counter() - begun


def talk(url: str, *said: str) -> None:
    """Make records in which somebody has begun to talk."""
    command = [sys.executable, "-m", "bot", "chat", "--db", url]
    subprocess.run(command, input="\n".join(said), text=True, check=True, cwd=ROOT, stdout=subprocess.DEVNULL)


def main(pairs: int) -> None:
    """Print the medians and their ratio."""
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{folder}/start.sqlite3"
        talk(url, "hello", "Sam")
        measured = [(bare(), *until_talk(url)) for _ in range(pairs)]
    imports, prompt, answer = (median(each) for each in zip(*measured, strict=True))
    ratio = median(chat / alone for alone, chat, _ in measured)
    print(f"imports alone {imports:.2f} s, first prompt {prompt:.2f} s, ratio {ratio:.2f} (medians of {pairs} pairs)")
    print(f"first answer {answer:.2f} s after the start, {median(a / i for i, _, a in measured):.2f} times the imports")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 11)
