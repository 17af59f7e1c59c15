"""Saying something on the wire and looking at what comes of it."""

from tests.support.wire import Json, OnTheWire

SESSION = ("date", "at", "purpose", "minutes", "effort", "segments", "after")
"""What a message says of a session; the plan says more."""


def at(clock: str, day: int = 2) -> str:
    """An instant of March 2026, in winter time: the clock of London."""
    return f"2026-03-{day:02}T{clock}:00+00:00"


def say(run: OnTheWire, clock: str, text: str, chat: str = "kim", day: int = 2) -> list[Json]:
    """All messages that a text brings."""
    run.count += 1
    return run.feed({"at": at(clock, day), "id": f"c-{run.count}", "chat": chat, "text": text})


def kinds(messages: list[Json]) -> list[tuple[object, object]]:
    """To whom, and of which kind."""
    return [(each["chat"], about(each)["kind"]) for each in messages]


def about(message: Json) -> Json:
    found = message["about"]
    assert isinstance(found, dict)
    return found


def to(messages: list[Json], chat: str) -> Json:
    """The one message to that chat."""
    (found,) = (each for each in messages if each["chat"] == chat)
    return found


def on(run: OnTheWire, who: str, day: str) -> Json | None:
    """The planned session of a day."""
    plan = run.data(who)["plan"]
    assert isinstance(plan, dict)
    sessions = (each for week in plan["weeks"] for each in week["sessions"])
    return next(({name: each[name] for name in SESSION} for each in sessions if each["date"] == day), None)
