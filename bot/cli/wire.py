"""`wire`: the generic bot protocol on standard input and output."""

import argparse
import sys

from bot.cli.shared import add_command, add_db, complain

EXAMPLES = """  echo '{"at": "2026-03-02T07:04:00+00:00", "id": "u-17", "chat": "sam", "text": "done"}' \\
      | python -m bot wire --db sqlite:///lamppost.sqlite3
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    what = "talk JSON lines: one object a line in and out, the clock stands at the last line"
    add_db(add_command(commands, "wire", what, EXAMPLES, run))


def run(args: argparse.Namespace) -> int:
    """Take lines until the input ends."""
    from bot.doors.wire import DOOR, Wire
    from bot.store.errors import StoreError
    from bot.turn.coaching import by_count
    from bot.wiring import open_desk

    try:
        desk = open_desk(args.db, DOOR, by_count)
    except StoreError as wrong:
        return complain(str(wrong))
    sys.stdin.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]
    sys.stdout.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]
    Wire(desk, _write).run(sys.stdin)
    return 0


def _write(line: str) -> None:
    print(line, flush=True)
