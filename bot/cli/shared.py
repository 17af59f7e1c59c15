"""What several commands need: options, errors as lines, JSON files."""

import argparse
import json
import sys
from collections.abc import Callable
from pathlib import Path


def add_command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    what: str,
    examples: str,
    run: Callable[[argparse.Namespace], int],
) -> argparse.ArgumentParser:
    """A command with its help and examples."""
    parser = commands.add_parser(
        name,
        help=what,
        description=what[:1].upper() + what[1:] + ".",
        epilog=f"examples:\n{examples}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.set_defaults(run=run)
    return parser


def add_db(
    parser: argparse.ArgumentParser, *, required: bool = True, otherwise: str = "a file in your data folder"
) -> None:
    """The option that names the records. *otherwise*: which are taken when it is left out."""
    place = "" if required else f"; default: {otherwise}"
    what = f"the records, as sqlite:///FILE or postgresql://USER@HOST/NAME{place}"
    parser.add_argument("--db", metavar="URL", required=required, help=what)


def complain(*lines: str) -> int:
    """Print what is wrong, one line each, and give the exit status for it."""
    for line in lines:
        print(line, file=sys.stderr)
    return 2


class BadFile(Exception):
    """A file that can't be read; the message says why in one line."""


def load_json(name: str) -> object:
    """The JSON value in the file *name* ("-": standard input). Raises `BadFile`."""
    try:
        text = sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8")
    except OSError as wrong:
        raise BadFile(f"{name}: can't be read ({wrong.strerror})") from wrong
    except UnicodeDecodeError as wrong:
        raise BadFile(f"{name}: is no text in UTF-8") from wrong
    try:
        return json.loads(text)
    except (ValueError, RecursionError) as wrong:
        line = f", line {wrong.lineno}" if isinstance(wrong, json.JSONDecodeError) else ""
        raise BadFile(f"{name}{line}: is no JSON") from wrong
