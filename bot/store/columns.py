"""Column types: instants that refuse to be naive, and typed values kept as JSON text."""

from datetime import UTC, datetime
from functools import cache, lru_cache
from typing import Any

from pydantic import ConfigDict, TypeAdapter
from sqlalchemy import Dialect, Text
from sqlalchemy.types import TypeDecorator

BYTES = ConfigDict(ser_json_bytes="base64", val_json_bytes="base64")
"""Files hold bytes that are no text."""


@cache
def adapter(kind: Any) -> TypeAdapter[Any]:
    """The JSON reader and writer of one type (or None), built once."""
    return TypeAdapter(kind | None, config=BYTES)


class UtcDateTime(TypeDecorator[datetime]):
    """An aware instant, kept as ISO text in UTC so that text order is time order on every database."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """Refuse what has no zone: it would be somebody's wall clock, nobody knows whose."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("an instant needs a zone; give it in UTC")
        return value.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%f")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """Give it back in UTC."""
        return None if value is None else datetime.fromisoformat(value).replace(tzinfo=UTC)


@lru_cache(maxsize=8192)
def _value_of(kind: Any, text: str) -> Any:
    """The same text is the same frozen value: most segments and profiles come again and again."""
    return adapter(kind).validate_json(text)


class Typed(TypeDecorator[Any]):
    """A frozen value (or a tuple of them) kept as JSON text; reading it back checks it."""

    impl = Text
    cache_ok = True

    def __init__(self, kind: Any) -> None:
        """*kind*: the type, as pydantic understands it."""
        super().__init__()
        self.kind = kind

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Write JSON."""
        return None if value is None else adapter(self.kind).dump_json(value).decode()

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Read JSON."""
        return None if value is None else _value_of(self.kind, value)
