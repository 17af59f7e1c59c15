"""The README's blocks, played again: `python -m tests.support.readme` renews the chat when its wording has changed."""

import re
import tempfile
from datetime import datetime
from pathlib import Path

from bot.doors.terminal import DOOR, Terminal, to_text
from bot.messages import Outgoing
from bot.post.desk import Desk
from tests.support.people import ada
from tests.support.wire import OnTheWire

README = Path(__file__).parents[2] / "README.md"
CHAT = re.compile(r"(<!-- chat -->\n```text\n)(.*?)(```\n)", re.DOTALL)


class HandClock:
    """A clock that stands where it was set."""

    at: datetime

    def now(self) -> datetime:
        return self.at


def chat_block() -> str:
    found = CHAT.search(README.read_text(encoding="utf-8"))
    assert found is not None, "the README has no chat"
    return found[2]


def played(block: str, folder: Path) -> str:
    """The chat as it comes today: lines that begin with "# " set the clock, lines with "> " are typed."""
    shown: list[str] = []

    def write(message: Outgoing) -> None:
        shown.append(to_text(message) + "\n")

    run = OnTheWire.on(folder / "readme.sqlite3", ada(coach=None))
    clock = HandClock()
    terminal = Terminal(Desk(run.store, DOOR), clock, "ada", write)
    for line in block.splitlines():
        if line.startswith("# "):
            clock.at = datetime.fromisoformat(line[2:])
            shown.append(line + "\n")
            terminal.beat()
        elif line.startswith("> "):
            shown.append(line)
            terminal.say(line[2:])
    return "\n".join(shown)


def renew() -> None:
    text = README.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        fresh = played(chat_block(), Path(folder))
    README.write_text(CHAT.sub(lambda found: found[1] + fresh + found[3], text), encoding="utf-8")


if __name__ == "__main__":
    renew()
