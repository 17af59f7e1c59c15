"""What a host sets: from the environment, a file `.env`, or files of secrets; all that is wrong is told at once.

A secret may stand in a file of the name of its setting, as containers (`/run/secrets`) and service managers
(`$CREDENTIALS_DIRECTORY`) hand them over: there no other program can read it.
"""

import os
from pathlib import Path
from typing import Annotated

from pydantic import BeforeValidator, Field, SecretStr, ValidationError, model_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict

PREFIX = "LAMPPOST_"
SHORTEST_TOKEN = 16


class BadSettings(Exception):
    """Settings that can't be used; one line for each that is wrong."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        """*lines*: what is wrong, without the values."""
        super().__init__("\n".join(lines))
        self.lines = lines


def _place(value: object) -> object:
    host, _, port = str(value).rpartition(":")
    if not host or not port.isascii() or not port.isdigit() or int(port) > 65535:
        raise ValueError("is no host and port; write 127.0.0.1:8765")
    return value


def _listed(value: object) -> object:
    return tuple(each.strip() for each in value.split(",") if each.strip()) if isinstance(value, str) else value


Place = Annotated[str, BeforeValidator(_place)]
Seconds = Annotated[float, Field(gt=0, le=3600)]


class Settings(BaseSettings):
    """All settings of `serve`; each stands in the environment under its name with `LAMPPOST_` before it."""

    model_config = SettingsConfigDict(
        env_prefix=PREFIX, env_file=".env", extra="ignore", hide_input_in_errors=True, env_ignore_empty=True
    )

    db: SecretStr | None = None
    wire: Place | None = None
    wire_token: SecretStr | None = None
    wire_origins: Annotated[tuple[str, ...], NoDecode, BeforeValidator(_listed)] = ()
    wire_alone: bool = False
    lease_seconds: Seconds = 60
    takeover_seconds: Seconds = 5
    most_a_minute: Annotated[int, Field(ge=1, le=10_000)] = 20

    @model_validator(mode="after")
    def _wire_has_a_token(self) -> "Settings":
        if self.wire and len(self.wire_token.get_secret_value() if self.wire_token else "") < SHORTEST_TOKEN:
            raise ValueError(f"{PREFIX}WIRE_TOKEN: the wire needs a token of at least {SHORTEST_TOKEN} characters")
        return self


def load(folder: Path | None = None) -> Settings:
    """The settings as they stand now. *folder*: where `.env` is looked for; None: here. Raises `BadSettings`."""
    known = {f"{PREFIX}{name}".upper() for name in Settings.model_fields}
    unknown = sorted(name for name in os.environ if name.upper().startswith(PREFIX) and name.upper() not in known)
    lines = tuple(f"{name}: is no setting" for name in unknown)
    try:
        settings = Settings(
            _env_file=(folder or Path()) / ".env",  # type: ignore[call-arg]
            _secrets_dir=[each for each in _secret_folders() if each.is_dir()],
        )
    except ValidationError as wrong:
        raise BadSettings(lines + tuple(map(_line, wrong.errors(include_input=False, include_url=False)))) from None
    if lines:
        raise BadSettings(lines)
    return settings


def _secret_folders() -> tuple[Path, ...]:
    given = os.environ.get("CREDENTIALS_DIRECTORY")
    return (*((Path(given),) if given else ()), Path("/run/secrets"))


def _line(error: object) -> str:
    assert isinstance(error, dict)
    message = str(error["msg"]).removeprefix("Value error, ")
    name = f"{PREFIX}{'.'.join(map(str, error['loc']))}".upper()
    return f"{name}: {message}" if error["loc"] else message
