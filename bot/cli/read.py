"""`read`: replies in, facts out, one JSON line for each."""

import argparse
import json
import sys
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any, TextIO
from zoneinfo import ZoneInfo

from bot.reading import as_json, read

WRONG = 2
_EXAMPLES = """examples:
  echo '{"text": "did 15 of 25, left calf tight", "at": "2026-03-04T18:20:00", "tz": "Europe/London"}' | \\
      python -m bot read
  python -m bot read --explain "walked 20, knee fine now"
"""


def add(subparsers: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command with its options, help and examples."""
    parser = subparsers.add_parser(
        "read",
        help="turn replies into facts",
        description="Reads replies as JSON lines (text, at, tz, planned_min, asked) and writes one JSON line of facts "
        "for each. A line that is no such object gets one line with an error, and the stream goes on.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--explain", metavar="TEXT", help="show what TEXT gives and by which rule")
    parser.add_argument("--at", metavar="TIME", help="with --explain: local date and time it was sent (default: now)")
    parser.add_argument("--tz", metavar="ZONE", default="UTC", help="with --explain: its time zone (default: UTC)")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer standard input line by line until it ends; with *explain* show one text for people."""
    if args.explain is not None:
        return _explain(args.explain, args.at, args.tz)
    for answer in answers(_lines(sys.stdin)):
        sys.stdout.write(answer + "\n")
        sys.stdout.flush()
    return 0


def _explain(text: str, at: str | None, tz: str) -> int:
    try:
        zone = _zone(tz)
        moment = _moment(at) if at else datetime.now(ZoneInfo(zone))
    except ValueError as problem:
        sys.stderr.write(f"{problem}\n")
        return WRONG
    from bot.reading.explain import explained

    sys.stdout.write(explained(read(text, moment, zone)) + "\n")
    return 0


def answers(lines: Iterable[str]) -> Iterator[str]:
    """One line of JSON for each line that is not blank."""
    for line in lines:
        if line.strip():
            try:
                facts = _facts(line)
            except (ValueError, TypeError, RecursionError) as problem:
                facts = {"error": str(problem)[:200]}
            yield json.dumps(facts, allow_nan=False)


def _lines(stream: TextIO) -> Iterator[str]:
    """The lines of *stream*; bytes that are no UTF-8 don't end it."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(encoding="utf-8", errors="replace", newline="\n")
    return iter(stream)


def _facts(line: str) -> dict[str, Any]:
    told = json.loads(line)
    if not isinstance(told, dict):
        raise ValueError("not a JSON object")
    text, at, tz = told.get("text"), told.get("at"), told.get("tz")
    if not isinstance(text, str):
        raise ValueError('"text" must be a string')
    if not isinstance(at, str):
        raise ValueError('"at" must be an ISO date and time')
    return as_json(read(text, _moment(at), _zone(tz), _minutes(told.get("planned_min")), _asked(told.get("asked"))))


def _moment(at: str) -> datetime:
    try:
        return datetime.fromisoformat(at)
    except ValueError:
        raise ValueError('"at" must be an ISO date and time') from None


def _zone(tz: object) -> str:
    try:
        return ZoneInfo(tz).key if isinstance(tz, str) else _no_zone()
    except (KeyError, ValueError, OSError):
        return _no_zone()


def _no_zone() -> str:
    raise ValueError('"tz" must be a time zone such as Europe/London')


def _minutes(planned: object) -> float | None:
    real = isinstance(planned, int | float) and not isinstance(planned, bool) and 0 <= planned < 10_000
    return float(planned) if real and isinstance(planned, int | float) else None


def _asked(asked: object) -> str | None:
    return asked if isinstance(asked, str) else None
