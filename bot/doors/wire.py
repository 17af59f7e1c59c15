"""The generic bot protocol: one JSON object a line, in and out. The clock stands at the `at` of the last line."""

import base64
import binascii
import json
from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from typing import Annotated

from pydantic import AwareDatetime, BaseModel, BeforeValidator, ConfigDict, Field, ValidationError

from bot.messages import Attachment, Incoming, Outgoing
from bot.ports import Desk

DOOR = "wire"
Name = Annotated[str, Field(min_length=1, max_length=200, pattern=r"^[^\x00-\x1f\x7f]+$")]
FIRST, LAST = datetime(2000, 1, 1, tzinfo=UTC), datetime(2200, 1, 1, tzinfo=UTC)
"""No clock of a person shows a time outside of these; near the ends of the calendar dates can't be counted on from."""


def _as_text(value: object) -> object:
    """A bare number would be taken for seconds since 1970."""
    if not isinstance(value, str) or "-" not in value[1:]:
        raise ValueError("no text")
    return value


TOLD = 3
"""So many faults of one line are told."""


class BadLine(ValueError):
    """A line that can't be used; the message says why in one line."""


class File(BaseModel):
    """A file that came with a line."""

    model_config = ConfigDict(extra="forbid", hide_input_in_errors=True)

    name: Name
    base64: str


class Line(BaseModel):
    """One line in."""

    model_config = ConfigDict(extra="forbid", hide_input_in_errors=True, populate_by_name=True)

    at: Annotated[AwareDatetime, BeforeValidator(_as_text), Field(ge=FIRST, lt=LAST)]
    id: Name | None = None
    chat: Name | None = None
    sender: Name | None = Field(default=None, alias="from")
    text: str | None = None
    press: Name | None = None
    file: File | None = None
    edits: Name | None = None
    """The id of an earlier line of the same sender, of which *text* is the new wording."""


def parse(text: str, now: datetime | None = None) -> Line:
    """A line as a value. *now*: the instant of a line that names none; None: it has to. Raises `BadLine`."""
    try:
        value = json.loads(text)
    except (ValueError, RecursionError) as wrong:
        raise BadLine("this is no JSON; write one object a line") from wrong
    if not isinstance(value, dict):
        raise BadLine('this is no JSON object; write {"at": ..., "id": ..., "chat": ..., "text": ...}')
    if now is not None:
        value.setdefault("at", now.isoformat())
    try:
        line = Line.model_validate(value)
    except ValidationError as wrong:
        raise BadLine("; ".join(map(_wrong_field, wrong.errors(include_input=False)[:TOLD]))) from wrong
    _check(line)
    return line


def _wrong_field(error: object) -> str:
    assert isinstance(error, dict)
    place = "".join(filter(str.isprintable, ".".join(map(str, error["loc"]))))[:40] or "line"
    kind = str(error["type"])
    if kind == "missing":
        return f"{place}: is missing"
    if kind == "extra_forbidden":
        return f"{place}: is no field of a line"
    if kind in ("greater_than_equal", "less_than"):
        return f"{place}: lies outside the years {FIRST.year} to {LAST.year - 1}"
    if place == "at":
        return f'{place}: is no time with a zone; write "2026-03-02T07:04:00+00:00"'
    if kind.startswith("string_") and kind != "string_type":
        return f"{place}: has to be 1 to 200 characters, none of them a control character"
    return f"{place}: {error['msg']}"


def _check(line: Line) -> None:
    said = [name for name in ("text", "press", "file") if getattr(line, name) is not None]
    if line.chat is None and (said or line.id or line.sender or line.edits):
        raise BadLine("chat: is missing")
    if line.chat is not None and len(said) != 1:
        raise BadLine("a message has one of text, press and file")
    if line.edits is not None and line.text is None:
        raise BadLine("edits: only a text can edit an earlier one")
    if line.chat is not None and line.id is None and line.file is None:
        raise BadLine("id: is missing")


def to_incoming(line: Line) -> Incoming | None:
    """The message of a line; None when it only says that time has passed. Raises `BadLine` for a damaged file."""
    if line.chat is None:
        return None
    name = line.id or f"{line.chat}:{line.at.isoformat()}"
    return Incoming(
        door=DOOR,
        id=name,
        chat=line.chat,
        sender=line.sender or line.chat,
        at=line.at,
        text=None if line.text is None else line.text.encode("utf-8", "replace").decode().replace("\0", ""),
        press=line.press,
        file=_attachment(line.file),
        edits=line.edits,
    )


def _attachment(file: File | None) -> Attachment | None:
    if file is None:
        return None
    try:
        return Attachment(file.name, "application/octet-stream", base64.b64decode(file.base64, validate=True))
    except (binascii.Error, ValueError) as wrong:
        raise BadLine("file.base64: is no base64") from wrong


def to_line(message: Outgoing) -> str:
    """A message as one line of JSON."""
    said: dict[str, object] = {
        "at": message.at.replace(microsecond=0).isoformat(),
        "id": message.id,
        "chat": message.chat,
        "text": message.text,
    }
    if message.buttons:
        said["buttons"] = [{"id": each.id, "label": each.label} for each in message.buttons]
    if message.files:
        said["files"] = [_file_to_json(each) for each in message.files]
    return json.dumps(said | {"about": json.loads(message.about)}, ensure_ascii=False)


def _file_to_json(file: Attachment) -> dict[str, str]:
    return {"name": file.name, "type": file.type, "base64": base64.b64encode(file.content).decode()}


class Wire:
    """The door itself: lines in, lines out."""

    def __init__(self, desk: Desk, write: Callable[[str], None]) -> None:
        """*write*: takes one line without its end, and has it delivered when it returns."""
        self.desk = desk
        self.write = write
        self.number = 0

    def run(self, lines: Iterable[str]) -> None:
        """Take all *lines* in turn. A bad one is answered by an error, and the stream goes on."""
        for text in lines:
            self.number += 1
            if not text.strip():
                continue
            try:
                self.take(text)
            except BadLine as wrong:
                self.write(json.dumps({"error": str(wrong), "line": self.number}, ensure_ascii=False))

    def take(self, text: str) -> None:
        """Do one line, and say when it is done. Raises `BadLine`."""
        line = parse(text)
        incoming = to_incoming(line)
        if incoming is None or self.desk.is_new(DOOR, incoming.id):
            self._forward(line.at)
        if incoming is not None:
            self.desk.receive(incoming)
        self.flush()
        name = incoming.id if incoming is not None else as_given(text)
        self.write(json.dumps({"done": name}, ensure_ascii=False))

    def _forward(self, at: datetime) -> None:
        clock = self.desk.clock()
        if clock is not None and at < clock:
            raise BadLine(f"at: lies before the clock, which stands at {clock.replace(microsecond=0).isoformat()}")
        self.desk.advance(at)

    def flush(self) -> None:
        """Write out what waits, then mark it: what dies in between comes again under the same ids."""
        waiting = self.desk.unsent(DOOR)
        for message in waiting:
            self.write(to_line(message))
        if waiting:
            self.desk.mark_sent(message.id for message in waiting)


def as_given(text: str) -> str:
    """The instant of a line, in the words in which it was given."""
    return str(json.loads(text)["at"])
