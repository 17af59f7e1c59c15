"""The program as a process of its own, and the files of the project as they are tracked."""

import subprocess
import sys
from collections.abc import Iterator

from tests.support.trees import ROOT


def bot(*arguments: str, said: str = "") -> subprocess.CompletedProcess[str]:
    """`python -m bot` with these arguments, *said* on its standard input."""
    command = [sys.executable, "-m", "bot", *arguments]
    return subprocess.run(command, input=said, capture_output=True, text=True, check=False, cwd=ROOT, encoding="utf-8")


def tracked() -> Iterator[tuple[str, str]]:
    """Name and text of each tracked file; bytes that are no text are replaced."""
    listed = subprocess.run(["git", "ls-files", "-z"], capture_output=True, text=True, check=True, cwd=ROOT).stdout
    for name in filter(None, listed.split("\0")):
        path = ROOT / name
        if path.is_file():
            yield name, path.read_text(encoding="utf-8", errors="replace")
