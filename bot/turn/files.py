"""What goes along with a message: the picture of four weeks, a copy of all that is kept."""

from sqlalchemy.orm import Session as Transaction

from bot.conversation.says import Kind, Say
from bot.messages import Attachment
from bot.reports.chart import weeks_png
from bot.reports.export import entries_csv, export_json


def files_of(tx: Transaction, who: str, say: Say) -> tuple[Attachment, ...]:
    """What is drawn or gathered for *say*. Four weeks without a minute make no picture."""
    kinds = (say.kind, *say.also)
    if Kind.DATA in kinds:
        return (
            Attachment("lamppost.json", "application/json", export_json(tx, who).encode()),
            Attachment("log.csv", "text/csv", entries_csv(tx, who).encode()),
        )
    weeks = say.facts.weeks
    if Kind.REVIEW in kinds and isinstance(weeks, tuple) and any(each.minutes for each in weeks):
        return (Attachment("weeks.png", "image/png", weeks_png(weeks)),)
    return ()
