"""Say -> text and button labels: slots are filled from the facts, so text and facts can't disagree."""

from dataclasses import dataclass
from datetime import date, datetime

from bot.conversation.says import Facts, Say
from bot.words.catalogue import Catalogue, catalogue
from bot.words.helplines import help_slots
from bot.words.phrases import (
    clock,
    day,
    done_line,
    flag_lines,
    folded,
    how,
    number,
    parts_line,
    session_line,
    standing_lines,
    strength_line,
)
from planning.calendar import local
from planning.terms.entry import Entry
from planning.terms.plan import Segment, Session

LONGEST_LINE = 55
"""So many characters of a session fit into a first line of 80."""

REFERENCES = {"this_session": "session", "next_step": "next"}
"""Paragraphs that have another wording when the session that they speak of is not there."""


@dataclass(frozen=True, slots=True)
class Rendered:
    """A message in words: its text and the labels of its buttons, in order."""

    text: str
    labels: tuple[str, ...]


def render(say: Say, today: date, tz: str, language: str = "en") -> Rendered:
    """*say* in words. *today*: the person's own date; *tz*: their zone, for times of day."""
    words = catalogue(language)
    slots = _slots(say, today, tz, words)
    lines = [_paragraph(name, say, today, words).format_map(slots) for name in say.words]
    text = "\n".join(line for line in lines if line.strip())
    return Rendered(text, tuple(words.button[choice.label].format_map(slots) for choice in say.choices))


def _paragraph(name: str, say: Say, today: date, words: Catalogue) -> str:
    subject = getattr(say.facts, REFERENCES[name]) if name in REFERENCES else True
    if not isinstance(subject, Session) and name in REFERENCES:
        name = f"{name}_none"
    if name == "resized" and isinstance(say.facts.session, Session) and not say.facts.session.segments:
        name = "resized_stretch"
    wordings = words.say[name]
    return wordings[today.toordinal() % len(wordings)]


def _slots(say: Say, today: date, tz: str, words: Catalogue) -> dict[str, str]:
    facts, named = say.facts, {slot.name: slot.value for slot in say.slots}
    slots = help_slots(named.get("country"), named.get("here")) | _session_slots(facts, today, words)
    if isinstance(facts.entries, tuple):
        slots |= _entry_slots(facts.entries, words)
    if isinstance(facts.segments, tuple):
        slots["segments_said"] = _numbered(facts.segments, words)
    if isinstance(facts.why, tuple):
        slots["why_list"] = "\n".join(words.why[each] for each in facts.why)
    if isinstance(facts.runners, tuple):
        slots["runner_list"] = "\n".join(standing_lines(facts.runners, words))
    if isinstance(facts.flags, tuple):
        slots["flag_list"] = "\n".join(flag_lines(facts.flags, today, words))
    if isinstance(facts.loads, tuple):
        slots["load_list"] = ", ".join(words.wait["unknown"] if each is None else number(each) for each in facts.loads)
    if isinstance(facts.strength, tuple):
        slots["strength_list"] = "; ".join(strength_line(each, today, words) for each in facts.strength)
    if isinstance(facts.moods, tuple):
        slots["mood_list"] = ", ".join(f"{day(on, today, words)} {mood}" for on, mood in facts.moods)
    if isinstance(facts.until, date):
        slots["until"] = day(facts.until, today, words)
    if isinstance(facts.parts, tuple):
        said = parts_line(facts.parts, words)
        slots |= {"parts_said": said, "parts": said[:1].upper() + said[1:]}
    if isinstance(facts.was_min, int | float):
        slots["was"] = number(facts.was_min)
    if isinstance(facts.weight_kg, int | float):
        slots["weight"] = number(facts.weight_kg)
    if isinstance(facts.at, datetime):
        slots["at_time"] = clock(local(facts.at, tz).time())
    if isinstance(facts.sessions, tuple):
        slots["week_list"] = "\n".join(_dated(each, today, words) for each in facts.sessions)
    return slots | named


def _session_slots(facts: Facts, today: date, words: Catalogue) -> dict[str, str]:
    slots = {"time": "07:00"}
    for session in (facts.next, facts.session):
        if isinstance(session, Session):
            slots |= {"day": day(session.on, today, words), "time": clock(session.at)}
    if isinstance(facts.session, Session):
        slots |= {
            "session": _on_a_lock_screen(session_line(facts.session, words)),
            "minutes": number(facts.session.minutes),
            "how": how(facts.session, words),
        }
    if isinstance(facts.next, Session):
        slots["next"] = _dated(facts.next, today, words)
    return slots


def _on_a_lock_screen(line: str) -> str:
    """A session that is too long for the first line of a message: its minutes there, its parts on the next."""
    return line if len(line) <= LONGEST_LINE else line.replace(": ", "\n", 1)


def _dated(session: Session, today: date, words: Catalogue) -> str:
    return f"{day(session.on, today, words)} {clock(session.at)}, {session_line(session, words)}"


def _entry_slots(entries: tuple[Entry, ...], words: Catalogue) -> dict[str, str]:
    rated = next((each.effort for each in entries if each.effort is not None), None)
    said = {"done": done_line(entries, words)}
    return said if rated is None else said | {"effort_said": number(rated)}


def _numbered(segments: tuple[Segment, ...], words: Catalogue) -> str:
    return ", ".join(folded(segments, words))
