"""Which time zone data this process has: that of the system where there is one, else that of the package."""

import zoneinfo
from importlib.metadata import version
from pathlib import Path

UNKNOWN = "unknown"


def zone_data_version() -> str:
    """The version, as "2026a"; "unknown" where the data does not say."""
    for folder in map(Path, zoneinfo.TZPATH):
        if (folder / "UTC").exists():
            return _said_in(folder / "tzdata.zi")
    return version("tzdata")


def _said_in(file: Path) -> str:
    try:
        with file.open(encoding="utf-8") as lines:
            first = lines.readline()
    except OSError:
        return UNKNOWN
    return first.removeprefix("# version ").strip() or UNKNOWN
