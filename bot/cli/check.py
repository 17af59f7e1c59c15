"""`check`: look whether the records are whole, the settings good, and the work is done."""

import argparse

from bot.cli.shared import add_command, add_db, complain

EXAMPLES = """  python -m bot check --db sqlite:///lamppost.sqlite3
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    what = "look whether the records are whole and the work on them is done"
    add_db(add_command(commands, "check", what, EXAMPLES, run))


def run(args: argparse.Namespace) -> int:
    """One line for each thing; 1 if something needs somebody."""
    from bot.clock.system import SystemClock
    from bot.clock.zones import zone_data_version
    from bot.settings import BadSettings, load
    from bot.store.errors import StoreError
    from bot.store.health import Finding, look
    from bot.store.unit import Store

    try:
        store = Store.open(args.db, new=False)
    except StoreError as wrong:
        return complain(str(wrong))
    found = list(look(store, SystemClock().now(), zone_data_version()))
    store.close()
    try:
        load()
        found.append(Finding("settings", fine=True, told="good"))
    except BadSettings as wrong:
        found += [Finding("settings", fine=False, told=line) for line in wrong.lines]
    for each in found:
        print(f"{'ok  ' if each.fine else 'LOOK'}  {each.name:<8}  {each.told}")
    return 0 if all(each.fine for each in found) else 1
