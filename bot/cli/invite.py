"""`invite`: a one-time code for the first coach."""

import argparse

from bot.cli.shared import add_command, add_db, complain

EXAMPLES = """  python -m bot invite --db sqlite:///lamppost.sqlite3 coach
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(
        commands, "invite", "print a one-time code, good for 14 days, for the first coach", EXAMPLES, run
    )
    add_db(parser)
    parser.add_argument("role", metavar="ROLE", choices=("coach",), help='what the code opens: "coach"')


def run(args: argparse.Namespace) -> int:
    """Print the code; only a hash of it is kept."""
    from bot.clock.system import SystemClock
    from bot.conversation.coach.codes import code_of, mark_of
    from bot.store import inbox, invites
    from bot.store.errors import StoreError
    from bot.store.unit import Store
    from bot.turn.coaching import by_chance
    from planning.terms.choices import Role

    try:
        store = Store.open(args.db)
    except StoreError as wrong:
        return complain(str(wrong))
    with store.begin() as tx:
        code = code_of(by_chance(0))
        clock = inbox.clock(tx)
        made_at = None if clock is None else max(clock, SystemClock().now())
        invites.make(tx, mark_of(code), None, Role(args.role), made_at)
    print(code)
    return 0
