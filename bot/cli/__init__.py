"""The command line."""

from bot.cli.commands import main

__all__ = ["main"]
