"""`serve`: open every door that is set up, with the real clock, until told to stop."""

import argparse
import os
from typing import TYPE_CHECKING

from bot.cli.shared import add_command, add_db, complain

if TYPE_CHECKING:
    from bot.settings import Settings
    from bot.store.unit import Store

EXAMPLES = """  LAMPPOST_WIRE=127.0.0.1:8765 LAMPPOST_WIRE_TOKEN=... python -m bot serve --db sqlite:///lamppost.sqlite3
  python -m bot serve                       settings from .env, with LAMPPOST_DB=postgresql://...
"""
NO_DOOR = "no door is set up; set LAMPPOST_WIRE=127.0.0.1:8765 and LAMPPOST_WIRE_TOKEN, here or in .env"
NO_DB = "--db: is missing; name the records, here or as LAMPPOST_DB"


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(
        commands, "serve", "open every door that is set up and serve until told to stop", EXAMPLES, run
    )
    add_db(parser, required=False, otherwise="LAMPPOST_DB")


def run(args: argparse.Namespace) -> int:
    """Serve until SIGTERM or SIGINT."""
    import asyncio

    from bot.post.loading import undisturbed

    with undisturbed():
        from bot.logs import to_standard_error
        from bot.settings import BadSettings, load
        from bot.store.alone import FileLock
        from bot.store.errors import StoreError
        from bot.store.unit import Store
    try:
        settings = load()
    except BadSettings as wrong:
        return complain(*wrong.lines)
    url = args.db or (settings.db.get_secret_value() if settings.db else None)
    if url is None:
        return complain(NO_DB)
    to_standard_error()
    try:
        store = Store.open(url)
        lock = FileLock(store.engine)
    except StoreError as wrong:
        return complain(str(wrong))
    try:
        return asyncio.run(_serve(store, settings))
    finally:
        store.close()
        lock.let_go()


async def _serve(store: "Store", settings: "Settings") -> int:
    import asyncio
    import signal

    from bot.post.loading import undisturbed

    with undisturbed():
        from bot.wiring import NoDoor, open_serving
    try:
        serving = open_serving(store, settings)
    except NoDoor:
        return complain(NO_DOOR)

    def stop() -> None:
        if serving.stop.is_set():
            os._exit(1)
        serving.stop.set()

    for each in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(each, stop)
    try:
        await serving.run()
    except OSError as wrong:
        return complain(f"LAMPPOST_WIRE: can't listen there ({os.strerror(wrong.errno or 0)})")
    return 1 if serving.failed else 0
