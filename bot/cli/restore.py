"""`restore`: put a copy of the records in the place of none."""

import argparse
from pathlib import Path

from bot.cli.shared import add_command, add_db, complain

EXAMPLES = """  mv lamppost.sqlite3 broken.sqlite3; mv lamppost.sqlite3-wal broken.sqlite3-wal
  python -m bot restore --db sqlite:///lamppost.sqlite3 --newer broken.sqlite3 lamppost-2026-03-02.sqlite3
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(commands, "restore", "put a copy of the records where none stand", EXAMPLES, run)
    add_db(parser)
    newer = "the records in whose place it comes, moved away: whoever has left by then is erased again"
    parser.add_argument("--newer", metavar="FILE", type=Path, help=newer)
    parser.add_argument("file", metavar="FILE", type=Path, help="the copy, as backup made it")


def run(args: argparse.Namespace) -> int:
    """Look the copy through, then put it there."""
    from bot.store.copies import restore
    from bot.store.errors import StoreError

    try:
        done = restore(args.file, args.db, args.newer)
    except StoreError as wrong:
        return complain(str(wrong))
    print("restored")
    if done.held:
        print(f"{done.held} messages of the time of the copy are kept but not sent")
    if args.newer is None:
        print("people who left after the copy was made are in it again; --newer erases them")
    elif done.erased:
        print(f"{done.erased} people who had left since are erased again")
    return 0
