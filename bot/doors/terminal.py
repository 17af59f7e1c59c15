"""The terminal chat: what came in, what goes out, as a person at a keyboard sees it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from uuid import uuid4

from bot.messages import Button, Incoming, Outgoing
from bot.ports import Clock, Desk

DOOR = "terminal"
LETTERS = "abcdefghij"
QUIT = frozenset({"/quit", "/exit", "/q"})


def keys_for(buttons: tuple[Button, ...]) -> tuple[str, ...]:
    """What to type for each button: its number, or a letter where a number is itself an answer."""
    if any(any(sign.isdigit() for sign in button.label) for button in buttons):
        return tuple(LETTERS[: len(buttons)])
    return tuple(str(place) for place in range(1, len(buttons) + 1))


def to_text(message: Outgoing) -> str:
    """A message with its buttons as keys to type."""
    keys = keys_for(message.buttons)
    shown = "   ".join(f"[{key}] {each.label}" for key, each in zip(keys, message.buttons, strict=True))
    files = "".join(f"\n({each.name}, {len(each.content)} bytes)" for each in message.files)
    return f"{message.text}{files}" + (f"\n{shown}" if shown else "")


@dataclass
class Terminal:
    """One person at one terminal. *write*: shows a message, also while somebody types."""

    desk: Desk
    clock: Clock
    who: str
    write: Callable[[Outgoing], None]
    buttons: tuple[Button, ...] = field(default=())

    def beat(self) -> None:
        """Do what is due by now and show what came of it."""
        now = self.clock.now()
        self.desk.advance(now, now)
        self.show()

    def show(self) -> None:
        """Show all that waits, then mark it as delivered."""
        waiting = self.desk.unsent(DOOR)
        mine = [each for each in waiting if each.chat == self.who]
        for message in mine:
            self.write(message)
            self.buttons = message.buttons
        if mine:
            self.desk.mark_sent(message.id for message in mine)

    def say(self, text: str) -> None:
        """Something was typed: a button's key, or words."""
        self.beat()
        self.desk.receive(self.to_incoming(text))
        self.show()

    def to_incoming(self, text: str) -> Incoming:
        """What was typed as a message; a key of the last message's buttons presses that button."""
        keys = keys_for(self.buttons)
        typed = text.strip().casefold()
        press = self.buttons[keys.index(typed)].id if typed in keys else None
        words = None if press else text
        return Incoming(DOOR, uuid4().hex, self.who, self.who, self.clock.now(), words, press)
