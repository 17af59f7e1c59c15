"""What was looked up about people within one transaction, until something is changed: a turn asks several times."""

from datetime import datetime

from sqlalchemy.orm import Session as Transaction

from bot.conversation.known import Known

SEEN = "seen"


def recall(tx: Transaction, who: str, now: datetime) -> Known | None:
    """What was known of *who* at *now*, if nothing was changed since it was looked up; else None."""
    found: Known | None = tx.info.get(SEEN, {}).get((who, now))
    return found


def remember(tx: Transaction, now: datetime, known: Known) -> Known:
    """Keep it for the next who asks in this transaction."""
    tx.info.setdefault(SEEN, {})[known.who, now] = known
    return known


def forget(tx: Transaction) -> None:
    """Something is changed: whoever asks next has to look again."""
    tx.info.pop(SEEN, None)
