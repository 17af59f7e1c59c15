"""Tables from outside, each a file with its source; `table` reads one."""

import tomllib
from importlib.resources import files
from typing import Any


def table(name: str) -> Any:
    """The published table kept in *name*.toml beside this file."""
    return tomllib.loads(files(__name__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))
