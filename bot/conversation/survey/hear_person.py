"""Answers to: what shall I call you, and where are you?"""

import re
from dataclasses import replace
from datetime import datetime

from bot.conversation.draft import Draft, Step
from bot.conversation.says import Slot
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.assent import Assent, assent, skips
from bot.conversation.survey.gazetteer import country_of
from bot.conversation.survey.lexicon import words
from bot.conversation.survey.route import done, undone
from bot.conversation.survey.text import EDGES, bare, leads, pattern, plain, visible
from bot.conversation.survey.zones import PlaceKind, PlaceSaid, city_name, place_said
from planning.terms.choices import Units

LONGEST_NAME = 30
MOST_NAMES = 4
OFFERED = 5
"""Cities named in one question."""


def name_said(text: str) -> str | None:
    """The name in "hi, I'm Sam, nice to meet you"; None: there is none in it."""
    shown = visible(text)
    rest = shown.strip(EDGES)
    while found := leads(plain(rest), words("names", "lead")):
        shorter = rest[len(found) :].strip(EDGES)
        if not shorter:
            break
        rest = shorter
    rest = re.split(r"[,;:!?(]|(?<=\w{4})\.", rest, maxsplit=1)[0].strip(EDGES)
    tail = pattern(words("names", "tail")).search(plain(rest))
    if tail and tail.start() > 0:
        rest = rest[: tail.start()].strip(EDGES)
    fits = 0 < len(rest) <= LONGEST_NAME and len(rest.split()) <= MOST_NAMES and any(each.isalpha() for each in rest)
    return rest if fits and bare(rest) not in words("names", "none") else None


def hear_called(draft: Draft, text: str, _now: datetime) -> Answer:
    """A name; it may be left out."""
    if skips(text):
        return Taken(done(replace(draft, called=""), Step.CALLED))
    name = name_said(text)
    if name is None:
        return Unclear(draft, "survey_hint_called")
    return Taken(done(replace(draft, called=name[:1].upper() + name[1:]), Step.CALLED))


def hear_place(draft: Draft, text: str, now: datetime) -> Answer:
    """A city, or what the clock says there."""
    said = place_said(text, now)
    if said.kind in (PlaceKind.ONE, PlaceKind.NEAR) or (said.kind is PlaceKind.CLOCK and len(said.zones) == 1):
        return Taken(_at(draft, said))
    if said.kind in (PlaceKind.SEVERAL, PlaceKind.CLOCK):
        names = dict.fromkeys(city_name(zone) for zone in said.zones)
        cities = Slot("cities", ", ".join(list(names)[:OFFERED]))
        hint = "survey_hint_place_several" if said.kind is PlaceKind.SEVERAL else "survey_hint_place_clock"
        return Unclear(draft, hint, (Slot("named", said.name), cities))
    return Unclear(draft, "survey_hint_place_letters" if said.kind is PlaceKind.LETTERS else "survey_hint_place")


def hear_place_check(draft: Draft, text: str, now: datetime) -> Answer:
    """Whether the clock is right; another city will do as well."""
    said = assent(text)
    if said is Assent.YES:
        return Taken(done(draft, Step.PLACE_CHECK))
    again = undone(replace(draft, step=Step.PLACE), Step.PLACE, Step.PLACE_CHECK)
    if said is None or len(text.split()) > 1:
        answer = hear_place(again, text, now)
        if isinstance(answer, Taken) or (isinstance(answer, Unclear) and answer.slots):
            return answer
    return Unclear(again, "survey_hint_place_wrong") if said is Assent.NO else Unclear(draft, "survey_hint_yes_no")


def _at(draft: Draft, said: PlaceSaid) -> Draft:
    zone = said.zones[0]
    country = country_of(zone)
    placed = replace(
        draft,
        tz=zone,
        place=said.name or city_name(zone),
        place_sure=said.kind is PlaceKind.ONE,
        country=country,
        units=Units.MILES if country == "US" else draft.units,
    )
    return done(undone(placed, Step.PLACE_CHECK), Step.PLACE)
