"""The command line: one file for each command; what a command needs is imported when it runs."""

import argparse
import os
import sys
from collections.abc import Sequence

from bot.cli import backup, chat, check, data, enrol, invite, plan, read, restore, serve, simulate, wire

COMMANDS = (chat, serve, enrol, invite, wire, read, plan, data, backup, restore, check, simulate)
EXAMPLES = """examples:
  python -m bot chat                                  talk to the bot in this terminal
  python -m bot plan --profile sam.json               print a whole plan
  echo '{"text": "did 20", "at": "2026-03-04T18:20:00", "tz": "Europe/London"}' | python -m bot read
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; gives its exit status: 0, or 2 with one line for each thing that is wrong."""
    parser = argparse.ArgumentParser(
        prog="lamppost",
        description="An accountability bot for beginners on the way to a first half marathon.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for command in COMMANDS:
        command.add(commands)
    chosen = parser.parse_args(arguments)
    try:
        return int(chosen.run(chosen))
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 141
