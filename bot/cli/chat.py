"""`chat`: talk to the bot in this terminal."""

import argparse
import sys
from collections.abc import Callable
from datetime import datetime
from shutil import get_terminal_size
from textwrap import wrap
from threading import Event, Lock, Thread
from typing import TYPE_CHECKING

from bot.cli.shared import add_command, add_db, complain

if TYPE_CHECKING:
    from bot.clock.heartbeat import Heartbeat
    from bot.clock.system import SystemClock
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


class Refused(Exception):
    """The records can't be talked on; the message says why in one line."""


def run(args: argparse.Namespace) -> int:
    """Talk until the person leaves."""
    from bot.clock.system import SystemClock

    clock = SystemClock()
    if args.at is not None:
        at = _instant(args.at)
        if at is None:
            return complain(f'--at: "{args.at}" is no instant with a zone; write 2026-03-03T07:00:00+00:00')
        clock = SystemClock.starting(at)
    try:
        if sys.stdin.isatty() and sys.stdout.isatty():
            Talk(lambda: _open(args, clock, _show_styled)).run()
        else:
            _lines(_open(args, clock, _show))
    except Refused as wrong:
        return complain(str(wrong))
    return 0


def _open(args: argparse.Namespace, clock: "SystemClock", show: "Callable[[Outgoing], None]") -> "Terminal":
    """The terminal on its records. Raises `Refused`. All that is heavy to load is loaded here."""
    from bot.post.loading import undisturbed

    with undisturbed():
        from bot.doors.terminal import DOOR, Terminal
        from bot.store.errors import StoreError
        from bot.wiring import default_url, open_desk
    try:
        desk = open_desk(args.db or default_url(), DOOR)
    except (StoreError, OSError) as wrong:
        raise Refused(str(wrong)) from wrong
    kept = desk.clock()
    if kept is not None and clock.now() < kept:
        stands = f"{kept:%Y-%m-%dT%H:%M:%S%z}"
        raise Refused(f"the clock of these records stands at {stands}; --at must not lie before it")
    return Terminal(desk, clock, args.who, show)


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


def _lines(terminal: "Terminal") -> None:
    """Plain lines, for pipes and scripts."""
    from bot.doors.terminal import QUIT

    terminal.beat()
    for line in sys.stdin:
        if line.strip() in QUIT:
            break
        if line.strip():
            terminal.say(line.rstrip("\n"))


class Talk:
    """A prompt at which pushes appear while somebody types. The records are opened behind the first prompt."""

    def __init__(self, opened: "Callable[[], Terminal]") -> None:
        """*opened*: opens the records; may raise `Refused`."""
        from prompt_toolkit import PromptSession

        self.opened = opened
        self.session: PromptSession[str] = PromptSession()
        self.terminal: Terminal | None = None
        self.refusal: Refused | None = None
        self.heart: Heartbeat | None = None
        self.ready = Event()
        self.one_at_a_time = Lock()
        self.session.app.after_render += self.wake_once

    def run(self) -> None:
        """Talk until the person leaves. Raises `Refused`."""
        from prompt_toolkit.patch_stdout import patch_stdout

        from bot.doors.terminal import QUIT

        print("\n".join(_folded(GREETING)))
        with patch_stdout():
            try:
                while (text := self.session.prompt("> ").strip()) not in QUIT:
                    self.say(text)
            except (EOFError, KeyboardInterrupt):
                pass
            finally:
                self.stop()

    def wake_once(self, _app: object) -> None:
        """The first prompt is on the screen: open the records beside it."""
        self.session.app.after_render -= self.wake_once
        Thread(target=self.wake, daemon=True).start()

    def wake(self) -> None:
        """Open the records, show what is due, begin to beat, get ready to answer; a refusal ends the prompt."""
        from bot.clock.heartbeat import Heartbeat

        try:
            self.terminal = self.opened()
            self.beat()
        except Refused as wrong:
            self.refuse(wrong)
            return
        self.heart = Heartbeat(self.beat)
        self.heart.start()
        self.get_ready()

    def get_ready(self) -> None:
        """Load what the first answer needs, as a rule while somebody is still typing."""
        from bot.post.loading import undisturbed
        from bot.turn.tell import warm_up

        with self.one_at_a_time, undisturbed():
            self.ready.set()
            warm_up()

    def refuse(self, wrong: Refused) -> None:
        """End the prompt, also one at which somebody waits for an answer."""
        self.refusal = wrong
        self.ready.set()
        app = self.session.app
        if app.is_running and app.loop is not None:
            app.loop.call_soon_threadsafe(lambda: app.exit(exception=wrong))

    def beat(self) -> None:
        """Do what is due by now."""
        with self.one_at_a_time:
            if self.terminal is not None:
                self.terminal.beat()

    def say(self, text: str) -> None:
        """What was typed, as soon as the records are open. Raises `Refused`."""
        self.ready.wait()
        if self.refusal is not None:
            raise self.refusal
        if text and self.terminal is not None:
            with self.one_at_a_time:
                self.terminal.say(text)

    def stop(self) -> None:
        """Finish the beat in hand."""
        if self.heart is not None:
            self.heart.stop()
