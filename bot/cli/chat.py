"""`chat`: talk to the bot in this terminal."""

import argparse
import sys
from collections.abc import Callable
from datetime import datetime
from shutil import get_terminal_size
from textwrap import wrap
from typing import TYPE_CHECKING

from bot.cli.shared import add_command, add_db, complain

if TYPE_CHECKING:
    from bot.clock.heartbeat import Heartbeat
    from bot.doors.terminal import Terminal
    from bot.messages import Outgoing

EXAMPLES = """  python -m bot chat
  python -m bot chat --at 2026-03-03T06:59:50+00:00     begin at that instant, to see what a morning brings
  printf 'done\\nweek\\n' | python -m bot chat           plain lines in and out when it is no terminal
"""
GREETING = "Write as you would to a person. /quit or Ctrl-D leaves; what is due comes while this is open."

FIRST_YEAR, LAST_YEAR = 2000, 2199
"""Near the ends of the calendar dates can't be counted on from."""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    parser = add_command(commands, "chat", "talk to the bot in this terminal", EXAMPLES, run)
    add_db(parser, required=False)
    parser.add_argument("--as", dest="who", metavar="NAME", default="me", help='who is typing; default: "me"')
    parser.add_argument("--at", metavar="INSTANT", help="begin at that instant instead of now, with its zone")


def run(args: argparse.Namespace) -> int:
    """Talk until the person leaves."""
    from bot.clock.system import SystemClock
    from bot.doors.terminal import DOOR, Terminal
    from bot.store.errors import StoreError
    from bot.wiring import default_url, open_desk

    clock = SystemClock()
    if args.at is not None:
        at = _instant(args.at)
        if at is None:
            return complain(f'--at: "{args.at}" is no instant with a zone; write 2026-03-03T07:00:00+00:00')
        clock = SystemClock.starting(at)
    try:
        desk = open_desk(args.db or default_url(), DOOR)
    except (StoreError, OSError) as wrong:
        return complain(str(wrong))
    kept = desk.clock()
    if kept is not None and clock.now() < kept:
        return complain(f"the clock of these records stands at {kept:%Y-%m-%dT%H:%M:%S%z}; --at must not lie before it")
    interactive = sys.stdin.isatty() and sys.stdout.isatty()
    terminal = Terminal(desk, clock, args.who, _show_styled if interactive else _show)
    return _talk(terminal) if interactive else _lines(terminal)


def _instant(text: str) -> datetime | None:
    try:
        at = datetime.fromisoformat(text)
    except ValueError:
        return None
    return None if at.tzinfo is None or not FIRST_YEAR <= at.year <= LAST_YEAR else at


def _show(message: "Outgoing") -> None:
    from bot.doors.terminal import to_text

    print(to_text(message), end="\n\n", flush=True)


def _show_styled(message: "Outgoing") -> None:
    from prompt_toolkit import print_formatted_text
    from prompt_toolkit.formatted_text import FormattedText

    from bot.doors.terminal import to_text

    lines = _folded(to_text(message))
    shown = [("bold", f"{lines[0]}\n"), *(("", f"{line}\n") for line in lines[1:])]
    print_formatted_text(FormattedText([("ansicyan", "\nLamppost\n"), *shown]))


def _folded(text: str) -> list[str]:
    """The text in lines that fit the window, broken between words."""
    width = max(30, min(get_terminal_size().columns - 1, 88))
    folded = (wrap(line, width, initial_indent="  ", subsequent_indent="  ") or [""] for line in text.split("\n"))
    return [line for lines in folded for line in lines]


def _lines(terminal: "Terminal") -> int:
    """Plain lines, for pipes and scripts."""
    from bot.doors.terminal import QUIT

    terminal.beat()
    for line in sys.stdin:
        if line.strip() in QUIT:
            break
        if line.strip():
            terminal.say(line.rstrip("\n"))
    return 0


class _Heart:
    """The heartbeat, started when the first prompt is on the screen: loading its library doesn't hold the prompt up."""

    def __init__(self, beat: Callable[[], None]) -> None:
        """*beat*: what is done again and again."""
        self.beat = beat
        self.heart: Heartbeat | None = None

    def start_once(self, _app: object) -> None:
        """Begin to beat, if it doesn't yet."""
        from bot.clock.heartbeat import Heartbeat

        if self.heart is None:
            self.heart = Heartbeat(self.beat)
            self.heart.start()

    def stop(self) -> None:
        """Finish the beat in hand."""
        if self.heart is not None:
            self.heart.stop()


def _talk(terminal: "Terminal") -> int:
    """A prompt at which pushes appear while somebody types."""
    from threading import Lock

    from prompt_toolkit import PromptSession
    from prompt_toolkit.patch_stdout import patch_stdout

    from bot.doors.terminal import QUIT

    one_at_a_time = Lock()

    def beat() -> None:
        with one_at_a_time:
            terminal.beat()

    session: PromptSession[str] = PromptSession()
    heart = _Heart(beat)
    session.app.after_render += heart.start_once
    print("\n".join(_folded(GREETING)))
    with patch_stdout():
        beat()
        try:
            while (text := session.prompt("> ").strip()) not in QUIT:
                if text:
                    with one_at_a_time:
                        terminal.say(text)
        except (EOFError, KeyboardInterrupt):
            pass
        finally:
            heart.stop()
    return 0
