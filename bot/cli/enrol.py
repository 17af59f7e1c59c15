"""`enrol`: add people from profiles, without a conversation."""

import argparse

from bot.cli.shared import BadFile, add_command, add_db, complain, load_json

EXAMPLES = """  python -m bot enrol --db sqlite:///lamppost.sqlite3 sam.json
  python -m bot enrol --db sqlite:///lamppost.sqlite3 - < everybody.json
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    what = "add people from a JSON profile or a list of them"
    parser = add_command(commands, "enrol", what, EXAMPLES, run)
    add_db(parser)
    parser.add_argument("file", metavar="FILE", help='the profiles; "-" reads standard input')


def run(args: argparse.Namespace) -> int:
    """Add all of the file, or none of it."""
    from bot.conversation.changes import KeepProfile
    from bot.forms.people import profiles_from_json
    from bot.store.errors import StoreError
    from bot.store.unit import Store
    from bot.turn.turns import enrol
    from planning.errors import ProfileError

    try:
        profiles = profiles_from_json(load_json(args.file))
        store = Store.open(args.db)
    except ProfileError as wrong:
        return complain(*wrong.lines)
    except (BadFile, StoreError) as wrong:
        return complain(str(wrong))
    with store.begin() as tx:
        for profile in profiles:
            enrol(tx, KeepProfile(profile))
    print(f"enrolled: {', '.join(profile.who for profile in profiles)}")
    return 0
