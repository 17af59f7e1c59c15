"""A reading for people: the text, each piece that gave a fact, the rule that fired, and what was not read."""

from bot.reading.facts import Reading, Span
from bot.reading.form import json_of


def explained(reading: Reading) -> str:
    """Several lines: the text, a marked line for each span in order, the facts, and the pieces that gave none."""
    lines = [_one_line(reading.text)]
    lines += [_marked(reading.text, span) for span in sorted(reading.spans, key=lambda span: (span.start, span.key))]
    facts = {key: value for key, value in json_of(reading).items() if key not in ("spans", "unread")}
    lines += ["", *(f"{key}: {value}" for key, value in facts.items())] if facts else ["", "no facts"]
    if reading.unread:
        lines += ["", "not read: " + " | ".join(_one_line(piece) for piece in reading.unread)]
    return "\n".join(lines)


def _one_line(text: str) -> str:
    """*text* on one line: what would break or hide a line becomes a space, what can't be encoded a question mark."""
    shown = "".join(char if char.isprintable() else " " for char in text)
    return shown.encode("utf-8", "replace").decode()


def _marked(text: str, span: Span) -> str:
    marks = " " * span.start + "~" * (span.end - span.start)
    piece = _one_line(text[span.start : span.end])
    return f"{marks}  {span.key} <- {piece!r}  [{span.rule}]"
