"""Running the migrations from inside the program: no configuration file, no shell."""

from importlib.resources import files

from alembic import command
from alembic.config import Config
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


def upgrade(engine: Engine, to: str = "head") -> None:
    """Bring the tables to version *to*, all steps in one transaction, by one process at a time."""
    config = configuration()
    with Session(engine) as tx, tx.begin():
        hold_upgrade(tx)
        config.attributes["connection"] = tx.connection()
        command.upgrade(config, to)
