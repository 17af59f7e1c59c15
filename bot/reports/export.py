"""All that is kept of a person, as one JSON object for themselves; what they did also as a table."""

import csv
import json
from collections.abc import Mapping
from datetime import date, datetime, time
from enum import Enum
from io import StringIO
from typing import Any

from sqlalchemy.orm import Session as Transaction

from bot.forms import plan_to_json, profile_to_json
from bot.store import plans, privacy
from bot.store.columns import adapter
from bot.store.tables import EntryRow, FlagRow, PersonRow, PlanRow, SessionRow, WeekRow

SHOWN_APART = frozenset({EntryRow.__tablename__, FlagRow.__tablename__, PlanRow.__tablename__})
"""Tables whose rows stand under a name of their own."""

IN_THE_PLAN = frozenset({WeekRow.__tablename__, SessionRow.__tablename__})


def export_json(tx: Transaction, who: str) -> str:
    """The object as text, keys in a fixed order; empty lists where nothing is kept."""
    return json.dumps(export(tx, who), ensure_ascii=False, indent=1)


def export(tx: Transaction, who: str) -> dict[str, object]:
    """All that is kept of *who*: profile, entries, flags, plan, and every other row under the name of its table."""
    person = tx.get(PersonRow, who)
    rows = {table.name: found for table, found in privacy.rows_about(tx, who)}
    plan = plans.find_plan(tx, who)
    profile = person.profile if person else None
    said: dict[str, object] = {
        "who": who,
        "profile": profile_to_json(profile) if profile else None,
        "entries": [_entry(row) for row in rows[EntryRow.__tablename__] if row["gone_by"] is None],
        "entries_replaced": [_plain(row) for row in rows[EntryRow.__tablename__] if row["gone_by"] is not None],
        "flags": [_plain(row) for row in rows[FlagRow.__tablename__]],
        "plan": plan_to_json(plan) if plan else None,
    }
    for name in sorted(rows.keys() - SHOWN_APART - IN_THE_PLAN):
        said[name] = [_plain(row) for row in rows[name]]
    return said


COLUMNS = ("date", "status", "kind", "minutes", "km", "share", "effort", "planned_on", "from_id")


def entries_csv(tx: Transaction, who: str) -> str:
    """What was done and missed as a table (RFC 4180), a line for each entry; what was not said is empty."""
    table = StringIO()
    writer = csv.DictWriter(table, COLUMNS, extrasaction="ignore")
    writer.writeheader()
    writer.writerows(export(tx, who)["entries"])  # type: ignore[arg-type]
    return table.getvalue()


def _entry(row: Mapping[str, object]) -> dict[str, object]:
    """One thing logged: its date, what was said of it, the message that it came from."""
    entry = {"date": _value(row["on"]), "status": row["status"]}
    names = ("kind", "minutes", "km", "share", "effort", "planned_on", "from_id")
    if row["status"] == "missed":
        entry["missed"] = True
    return entry | {name: _value(row[name]) for name in names if row[name] is not None}


def _plain(row: Mapping[str, object]) -> dict[str, object]:
    return {name: _value(value) for name, value in row.items() if name not in ("who", "profile")}


def _value(value: object) -> object:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date | datetime | time):
        return value.isoformat()
    if value is None or isinstance(value, str | int | float):
        return int(value) if isinstance(value, float) and value.is_integer() else value
    kind: Any = tuple[object, ...] if isinstance(value, tuple) else type(value)
    return adapter(kind).dump_python(value, mode="json")
