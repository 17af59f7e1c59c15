"""`plan`: the whole plan of one or more profiles, as a table, as JSON, as a picture, as a calendar file."""

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING

from bot.cli.shared import BadFile, add_command, complain, load_json

if TYPE_CHECKING:
    from planning.terms.person import Profile
    from planning.terms.plan import Plan

EXAMPLES = """\
  python -m bot plan --profile sam.json
  python -m bot plan --profile sam.json --why
  python -m bot plan --profile sam.json --chart sam.png --ics sam.ics
  python -m bot plan --profile group.json --json
"""
PICTURES = (".png", ".svg")


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(commands, "plan", "print the whole plan of a profile, or of each in a list", EXAMPLES, run)
    parser.add_argument("--profile", required=True, metavar="FILE", help="JSON file with a profile or a list of them")
    parser.add_argument("--json", action="store_true", help="one JSON object for each profile, one a line")
    parser.add_argument("--why", action="store_true", help="every choice with the rule behind it and its source")
    parser.add_argument("--chart", metavar="FILE", help="draw the weeks into a file that ends in .png or .svg")
    parser.add_argument("--ics", metavar="FILE", help="write the sessions as a calendar file (iCalendar)")


def run(args: argparse.Namespace) -> int:
    """Print the plans; exit status 2, with one line for each fault, if something does not hold together."""
    from planning import build_plan

    try:
        people, faults = read_people(load_json(args.profile))
    except BadFile as wrong:
        return complain(str(wrong))
    faults += wrong_options(args, len(people))
    if faults:
        return complain(*faults)
    plans = [(person, build_plan(person)) for person in people]
    try:
        write_files(plans, args)
    except OSError as wrong:
        return complain(f"{wrong.filename}: can't be written ({wrong.strerror})")
    show([plan for _, plan in plans], args)
    return 0


def wrong_options(args: argparse.Namespace, people: int) -> list[str]:
    """What of the options does not go together, one line each."""
    lines = []
    if (args.chart or args.ics) and people > 1:
        lines.append("--chart, --ics: draw one plan; the file holds a list")
    if args.chart and Path(args.chart).suffix.lower() not in PICTURES:
        lines.append(f"--chart: {args.chart} ends in neither .png nor .svg")
    if args.json and args.why:
        lines.append("--json, --why: choose one")
    return lines


def read_people(value: object) -> "tuple[list[Profile], list[str]]":
    """The runners of *value*, and all that is wrong with it, one line each."""
    from bot.forms.people import each_profile
    from planning.terms.choices import Role

    people: list[Profile] = []
    faults: list[str] = []
    for place, person, wrong in each_profile(value):
        faults += wrong
        if person and person.role is Role.COACH:
            faults.append(f"{place}role: a coach has no plan")
        people += [person] if person else []
    return people, faults


def write_files(plans: "list[tuple[Profile, Plan]]", args: argparse.Namespace) -> None:
    """The picture and the calendar file that were asked for."""
    for person, plan in plans:
        if args.chart:
            from bot.reports.plan_chart import save_chart

            save_chart(plan, args.chart)
        if args.ics:
            from bot.reports.plan_calendar import plan_to_ics

            Path(args.ics).write_bytes(plan_to_ics(plan, person.tz))


def show(plans: "list[Plan]", args: argparse.Namespace) -> None:
    """Print *plans* as asked for."""
    from bot.forms import plan_to_json
    from bot.reports.plan_table import print_plan, print_why

    for plan in plans:
        if args.json:
            print(json.dumps(plan_to_json(plan), ensure_ascii=False))
        elif args.why:
            print_why(plan)
        else:
            print_plan(plan)
