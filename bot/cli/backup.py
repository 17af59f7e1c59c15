"""`backup`: copy the records to a file while they are in use."""

import argparse
from pathlib import Path

from bot.cli.shared import add_command, add_db, complain

EXAMPLES = """  python -m bot backup --db sqlite:///lamppost.sqlite3 lamppost-2026-03-02.sqlite3
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(
        commands, "backup", "copy the records to a new file, also while they are in use", EXAMPLES, run
    )
    add_db(parser)
    parser.add_argument("file", metavar="FILE", type=Path, help="the copy; it must not be there yet")


def run(args: argparse.Namespace) -> int:
    """Make the copy."""
    from bot.store.copies import back_up
    from bot.store.errors import StoreError

    try:
        size = back_up(args.db, args.file)
    except StoreError as wrong:
        return complain(str(wrong))
    print(f"{args.file}: {size:,} bytes, looked through and whole; it holds health data")
    return 0
