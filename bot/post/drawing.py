"""Pictures, drawn when their message is handed to a door: no turn waits for them, and the records stay small."""

from dataclasses import replace

from bot.logs import note
from bot.messages import Attachment, Outgoing
from bot.store.outbox import PREFIX


def is_to_draw(message: Outgoing) -> bool:
    """Whether a picture of it is still to be drawn."""
    return any(each.bars for each in message.files)


def drawn(message: Outgoing) -> Outgoing:
    """*message* with its pictures, the same bytes each time. One that can't be drawn is left out, and that is noted."""
    if not is_to_draw(message):
        return message
    files = (_drawn(each, message) if each.bars else each for each in message.files)
    return replace(message, files=tuple(each for each in files if each is not None))


def _drawn(file: Attachment, message: Outgoing) -> Attachment | None:
    from bot.reports.chart import weeks_png

    try:
        return Attachment(file.name, file.type, weeks_png(file.bars))
    except Exception as fault:
        note("not_drawn", row=int(message.id.removeprefix(PREFIX)), fault=type(fault).__name__)
        return None
