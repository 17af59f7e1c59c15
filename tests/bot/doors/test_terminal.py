"""The terminal: buttons as keys to type, plain lines, nothing shown twice."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime

import pytest

from bot.doors.terminal import DOOR, Terminal, keys_for, to_text
from bot.messages import Attachment, Button, Incoming, Outgoing
from tests.support.letters import at

KEYS: list[tuple[str, list[str], str]] = [
    ("numbers", ["Done", "Part of it", "Less time"], "1 2 3"),
    ("letters where a number is an answer", ["10 min", "15 min"], "a b"),
    ("letters where one label holds a number", ["Easy (2)", "Hard"], "a b"),
    ("none", [], ""),
]


def labelled(labels: Iterable[str]) -> tuple[Button, ...]:
    return tuple(Button(f"b-{place}", label) for place, label in enumerate(labels))


def message(*labels: str, chat: str = "me", name: str = "m-1", files: tuple[Attachment, ...] = ()) -> Outgoing:
    return Outgoing(name, DOOR, chat, at(), "Today: walk 20 min", "{}", labelled(labels), files)


@pytest.mark.parametrize(("what", "labels", "expected"), KEYS, ids=[row[0] for row in KEYS])
def test_each_button_has_a_key(what: str, labels: list[str], expected: str) -> None:
    assert " ".join(keys_for(labelled(labels))) == expected, what


def test_a_message_shows_its_keys() -> None:
    assert to_text(message("Done", "Later")) == "Today: walk 20 min\n[1] Done   [2] Later"
    assert to_text(message()) == "Today: walk 20 min"
    assert to_text(message(files=(Attachment("x.json", "a/b", b"123"),))) == "Today: walk 20 min\n(x.json, 3 bytes)"


@dataclass
class ADesk:
    """The desk as the terminal sees it."""

    waiting: list[Outgoing] = field(default_factory=list)
    came: list[Incoming] = field(default_factory=list)
    beats: list[tuple[datetime, datetime | None]] = field(default_factory=list)

    def clock(self) -> datetime | None:
        return None

    def is_new(self, door: str, message_id: str) -> bool:
        return True

    def advance(self, until: datetime, now: datetime | None = None) -> None:
        self.beats.append((until, now))

    def receive(self, incoming: Incoming) -> None:
        self.came.append(incoming)

    def unsent(self, door: str) -> tuple[Outgoing, ...]:
        return tuple(self.waiting) if door == DOOR else ()

    def mark_sent(self, ids: Iterable[str]) -> None:
        sent = set(ids)
        self.waiting = [each for each in self.waiting if each.id not in sent]


class Monday:
    """A clock that stands at Monday, seven o'clock."""

    def now(self) -> datetime:
        return at()


@pytest.fixture
def terminal() -> Terminal:
    """A terminal at which "me" sits; what it shows stands in `shown`."""
    return Terminal(ADesk(), Monday(), "me", print)


def typed(terminal: Terminal, text: str) -> Incoming:
    terminal.say(text)
    assert isinstance(terminal.desk, ADesk)
    return terminal.desk.came[-1]


def show(terminal: Terminal, *messages: Outgoing) -> None:
    assert isinstance(terminal.desk, ADesk)
    terminal.desk.waiting.extend(messages)
    terminal.show()


TYPED: list[tuple[str, list[str], str, str | None, str | None]] = [
    ("a key", ["Done", "Later"], "2", None, "b-1"),
    ("a key with blanks", ["Done", "Later"], " 1 ", None, "b-0"),
    ("a number that is no key", ["Done", "Later"], "3", "3", None),
    ("a number where it is an answer", ["10 min", "15 min"], "2", "2", None),
    ("a letter", ["10 min", "15 min"], "b", None, "b-1"),
    ("a capital letter", ["10 min", "15 min"], "B", None, "b-1"),
    ("words", ["Done", "Later"], "did 15 of 20", "did 15 of 20", None),
    ("a number without buttons", [], "1", "1", None),
]


@pytest.mark.parametrize(("what", "labels", "text", "words", "press"), TYPED, ids=[row[0] for row in TYPED])
def test_what_is_typed_is_a_key_or_words(
    terminal: Terminal, what: str, labels: list[str], text: str, words: str | None, press: str | None
) -> None:
    show(terminal, message(*labels))
    came = typed(terminal, text)
    assert (came.text, came.press) == (words, press), what
    assert (came.door, came.chat, came.sender, came.private) == (DOOR, "me", "me", True)


def test_the_keys_are_those_of_the_last_message(terminal: Terminal) -> None:
    show(terminal, message("Done", "Later"))
    show(terminal, message(name="m-2"))
    assert typed(terminal, "1").text == "1"


def test_no_two_lines_have_the_same_id(terminal: Terminal) -> None:
    assert len({typed(terminal, "done").id for _ in range(50)}) == 50


def test_a_message_is_shown_once_and_to_whom_it_is_for(capsys: pytest.CaptureFixture[str], terminal: Terminal) -> None:
    show(terminal, message(), message(chat="kim", name="m-2"))
    terminal.show()
    assert capsys.readouterr().out.count("m-1") == 1
    assert isinstance(terminal.desk, ADesk)
    assert [each.chat for each in terminal.desk.waiting] == ["kim"]


def test_what_is_due_comes_before_the_answer(terminal: Terminal) -> None:
    typed(terminal, "done")
    assert isinstance(terminal.desk, ADesk)
    assert terminal.desk.beats == [(at(), at())]
