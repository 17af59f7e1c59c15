"""`data`: print all that is kept of one person."""

import argparse

from bot.cli.shared import add_command, add_db, complain

EXAMPLES = "  python -m bot data --db sqlite:///lamppost.sqlite3 sam > sam.json\n"


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(commands, "data", "print all that is kept of a person as one JSON object", EXAMPLES, run)
    add_db(parser)
    parser.add_argument("who", metavar="WHO", help="the person")


def run(args: argparse.Namespace) -> int:
    """Print the object."""
    from bot.reports.export import export_json
    from bot.store import privacy
    from bot.store.errors import StoreError
    from bot.store.unit import Store

    try:
        store = Store.open(args.db, new=False)
    except StoreError as wrong:
        return complain(str(wrong))
    with store.begin() as tx:
        if not privacy.is_known(tx, args.who):
            return complain(f'"{args.who}" is not known here')
        print(export_json(tx, args.who))
    return 0
