"""Published tables as data files, each with its source and unit, and the one loader that reads them."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def load(name: str) -> Mapping[str, Any]:
    """The table kept in the file *name*.toml of this folder; read once."""
    return tomllib.loads(files(__name__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))
