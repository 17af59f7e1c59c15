"""Running the migrations from inside the program: no configuration file, no shell."""

from collections.abc import Callable
from importlib.resources import files

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine
from sqlalchemy.orm import Session

from bot.store.locks import hold_upgrade


def configuration() -> Config:
    """Where the migrations stand."""
    config = Config()
    config.set_main_option("script_location", str(files("bot.store.migrations")))
    return config


def known_versions() -> frozenset[str]:
    """All versions that this program knows."""
    return frozenset(each.revision for each in ScriptDirectory.from_config(configuration()).walk_revisions())


def upgrade(engine: Engine, to: str = "head", first: Callable[[str | None], object] = lambda _version: None) -> None:
    """Bring the tables to version *to*, all steps in one transaction, by one process at a time.

    *first*: is told the version that the tables have, when nobody else can change them any more.
    """
    config = configuration()
    with Session(engine) as tx, tx.begin():
        hold_upgrade(tx)
        connection = tx.connection()
        first(MigrationContext.configure(connection).get_current_revision())
        config.attributes["connection"] = connection
        command.upgrade(config, to)
