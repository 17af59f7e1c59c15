"""What goes along with a message: a copy of all that is kept, the picture of four weeks, which is drawn later."""

from sqlalchemy.orm import Session as Transaction

from bot.conversation.says import Kind, Say
from bot.messages import Attachment, Bar
from bot.reports.export import entries_csv, export_json


def files_of(tx: Transaction, who: str, say: Say) -> tuple[Attachment, ...]:
    """What is gathered for *say*, or to be drawn. Four weeks without a minute make no picture."""
    kinds = (say.kind, *say.also)
    if Kind.DATA in kinds:
        return (
            Attachment("lamppost.json", "application/json", export_json(tx, who).encode()),
            Attachment("log.csv", "text/csv", entries_csv(tx, who).encode()),
        )
    weeks = say.facts.weeks
    if Kind.REVIEW in kinds and isinstance(weeks, tuple) and any(each.minutes for each in weeks):
        bars = tuple(Bar(each.monday, each.minutes, each.longest_min) for each in weeks)
        return (Attachment("weeks.png", "image/png", b"", bars),)
    return ()
