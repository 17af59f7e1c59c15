"""`plan`: the whole plan of one or more profiles, as a table or as JSON."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planning.terms.person import Profile
    from planning.terms.plan import Plan

EXAMPLES = """\
examples:
  python -m bot plan --profile sam.json
  python -m bot plan --profile group.json --json
"""
WRONG = 2


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Register the command."""
    parser = subparsers.add_parser(
        "plan",
        help="print the whole plan of a profile",
        description="Print the whole plan of a profile (or of a list of them), from the first day to the week after "
        "the race: a table for people, or one JSON object a line.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--profile", required=True, metavar="FILE", help="JSON file with a profile or a list of them")
    parser.add_argument("--json", action="store_true", help="one JSON object for each profile, one a line")
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Print the plans; exit status 2, with one line for each fault, if a profile does not hold together."""
    from planning import build_plan

    people, faults = read_people(args.profile)
    if faults:
        print("\n".join(faults), file=sys.stderr)
        return WRONG
    show([(person, build_plan(person)) for person in people], args)
    return 0


def read_people(name: str) -> tuple[list[Profile], list[str]]:
    """The runners in the file *name*, or all that is wrong with it, one line each."""
    from bot.forms import profile_from_json
    from planning.errors import ProfileError
    from planning.terms.choices import Role

    try:
        found = json.loads(Path(name).read_text(encoding="utf-8"))
    except OSError as error:
        return [], [f"{name}: {error.strerror}"]
    except UnicodeDecodeError:
        return [], [f"{name}: is no UTF-8 text"]
    except (ValueError, RecursionError) as error:
        return [], [f"{name}: is no JSON: {error}"]
    people, faults = [], []
    many = isinstance(found, list)
    for index, each in enumerate(found if many else [found]):
        place = f"[{index}]" if many else ""
        try:
            person = profile_from_json(each)
        except ProfileError as error:
            faults += [f"{place}.{line}" if place else line for line in error.lines]
            continue
        if person.role is Role.COACH:
            faults.append(f"{place}.role: a coach has no plan" if place else "role: a coach has no plan")
        people.append(person)
    return people, faults


def show(plans: list[tuple[Profile, Plan]], args: argparse.Namespace) -> None:
    """Print *plans* as asked for."""
    from bot.forms import plan_to_json

    for _, plan in plans:
        if args.json:
            print(json.dumps(plan_to_json(plan), ensure_ascii=False))
        else:
            from bot.reports.plan_table import print_plan

            print_plan(plan)
