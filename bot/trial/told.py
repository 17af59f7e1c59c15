"""A message of the bot as somebody takes it: what kind it is, what it asks, the session that it names."""

import json
from dataclasses import dataclass
from datetime import datetime

from bot.conversation.says import Asks, Kind
from bot.messages import Outgoing


@dataclass(frozen=True, slots=True)
class Told:
    """*at*: UTC; *minutes*: of the session that is proposed, None: none is."""

    at: datetime
    kinds: tuple[Kind, ...]
    asks: Asks | None
    minutes: float | None

    @property
    def kind(self) -> Kind:
        """The gravest of its kinds."""
        return self.kinds[0]


def told_by(message: Outgoing) -> Told:
    """What *message* says in facts."""
    about = json.loads(message.about)
    session = about.get("session") or about.get("next")
    return Told(
        message.at,
        (Kind(about["kind"]), *map(Kind, about.get("also", ()))),
        Asks(about["asks"]) if about.get("asks") else None,
        session["minutes"] if session else None,
    )
