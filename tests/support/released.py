"""Records as each released version kept them, and what stands in records whatever the model says."""

import json
from pathlib import Path

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Engine, MetaData, select, text

from bot.store.engine import open_engine
from bot.store.migrations.run import upgrade
from bot.store.tables import Base

RELEASED = sorted((Path(__file__).parents[1] / "bot/store/released").glob("*.jsonl"))
"""Two weeks of two invented people, as each version kept them: one row a line."""

Rows = dict[str, list[dict[str, object]]]


def filled(url: str, released: Path) -> Engine:
    """Records of that version."""
    engine = open_engine(url)
    upgrade(engine, released.stem)
    tables = MetaData()
    tables.reflect(engine)
    rows = [json.loads(line) for line in released.read_text(encoding="utf-8").splitlines()]
    typed = {name: {column.name: column.type for column in table.columns} for name, table in tables.tables.items()}
    with engine.begin() as connection:
        for each in rows:
            names = ", ".join(f'"{name}"' for name in each["row"])
            marks = ", ".join(f":{name}" for name in each["row"])
            values = {name: _value(typed[each["table"]][name], value) for name, value in each["row"].items()}
            connection.execute(text(f'INSERT INTO "{each["table"]}" ({names}) VALUES ({marks})'), values)
        if engine.dialect.name == "postgresql":
            for name in (
                name for name, columns in typed.items() if "id" in columns and name not in ("button", "clock")
            ):
                counted = f"setval(pg_get_serial_sequence('{name}', 'id'), coalesce(max(id), 0) + 1)"
                connection.execute(text(f"SELECT {counted} FROM {name}"))
    return engine


def _value(kind: object, value: object) -> object:
    return bool(value) if type(kind).__name__ == "BOOLEAN" else value


def rows_of(engine: Engine) -> Rows:
    """All rows as they stand, whatever the model says."""
    tables = MetaData()
    tables.reflect(engine)
    with engine.connect() as connection:
        return {
            name: sorted((dict(row) for row in connection.execute(select(table)).mappings()), key=repr)
            for name, table in tables.tables.items()
            if name != "alembic_version"
        }


def has_all_of(after: Rows, before: Rows) -> bool:
    """Whether every row of *before* is there, each with all that it had, and no other row in its table."""
    return all(
        rows == [{key: row[key] for key in rows[0]} for row in after[name]] if rows else after[name] == []
        for name, rows in before.items()
    )


def differences(engine: Engine) -> list[object]:
    """In what the tables differ from the model."""
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True, "render_as_batch": True})
        return list(compare_metadata(context, Base.metadata))
