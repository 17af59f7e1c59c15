"""Answers about health, after the question whether they may be kept. In doubt they are taken on the careful side."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.answer import Answer, Taken, TooYoung, Unclear
from bot.conversation.survey.assent import Assent, assent, has_but, skips, withholds
from bot.conversation.survey.commands import ADULT
from bot.conversation.survey.echo import Line
from bot.conversation.survey.lexicon import words
from bot.conversation.survey.route import HEALTH, done, next_step, undone
from bot.conversation.survey.sizes import SizeSaid, age_said, size_said
from bot.conversation.survey.text import bare, holds
from planning.calendar import local


def hear_consent(draft: Draft, text: str, now: datetime) -> Answer:
    """A clear yes or a clear no; what was kept goes with a no."""
    said = assent(text)
    if said is Assent.YES and not has_but(text) and not holds(bare(text), ("not",)):
        since = draft.consent_at if draft.consent else now
        return Taken(done(replace(draft, consent=True, consent_at=since), Step.CONSENT))
    if said is Assent.NO:
        return Taken(done(without_health(draft), Step.CONSENT))
    return Unclear(draft, "survey_hint_consent")


def without_health(draft: Draft) -> Draft:
    """The *draft* of somebody who wants none of these answers kept; that they are an adult is no such answer."""
    kept = undone(draft, *(step for step in HEALTH if step is not Step.ADULT))
    blank = replace(kept, consent=False, consent_at=None, active=None, disease=None, signs=None, pregnant=None)
    return replace(blank, age=None, height_cm=None, weight_kg=None)


def hear_active(draft: Draft, text: str, _now: datetime) -> Answer:
    """Regular activity; in doubt it is a no."""
    said = _health(text, ())
    if said is None:
        return Unclear(draft, "survey_hint_yes_no")
    return Taken(done(replace(draft, active=said is Assent.YES), Step.ACTIVE), _got(said, "survey_got_active_unsure"))


def hear_disease(draft: Draft, text: str, _now: datetime) -> Answer:
    """A known disease; in doubt it is a yes."""
    said = _health(text, words("health", "disease"))
    if said is None:
        return Unclear(draft, "survey_hint_disease")
    return Taken(done(replace(draft, disease=said is not Assent.NO), Step.DISEASE), _got(said, "survey_got_unsure"))


def hear_signs(draft: Draft, text: str, _now: datetime) -> Answer:
    """Signs or symptoms; in doubt it is a yes."""
    said = _health(text, words("health", "signs"))
    if said is None:
        return Unclear(draft, "survey_hint_signs")
    return Taken(done(replace(draft, signs=said is not Assent.NO), Step.SIGNS), _got(said, "survey_got_unsure"))


def hear_pregnant(draft: Draft, text: str, _now: datetime) -> Answer:
    """Pregnant, or a birth within 12 months; in doubt it is a yes."""
    said = _health(text, ())
    if said is None:
        return Unclear(draft, "survey_hint_yes_no")
    return Taken(done(replace(draft, pregnant=said is not Assent.NO), Step.PREGNANT), _got(said, "survey_got_unsure"))


def hear_any_sign(draft: Draft, text: str, _now: datetime) -> Answer:
    """All of the health questions at once, of somebody who wants nothing kept: with a no they go on. Else a clinician
    has to see them first. As nothing of the answer is kept, the question of consent stands again: a "no" to that one
    can't be taken for a "no" to this.
    """
    said = _health(text, (*words("health", "disease"), *words("health", "signs")))
    if said is Assent.NO:
        return Taken(done(draft, Step.ANY_SIGN))
    if said is None:
        return Unclear(draft, "survey_hint_yes_no")
    return Unclear(with_sign(draft), "survey_hint_any_sign")


def with_sign(draft: Draft) -> Draft:
    """The *draft* after somebody told of a danger sign, at whatever question. With consent that is a yes to the one on
    signs; where consent was refused, its question stands again, so that nobody goes on as if nothing was said.
    """
    if draft.consent is False:
        return replace(undone(draft, Step.CONSENT), consent=None, step=Step.CONSENT)
    if draft.consent is None:
        return draft
    kept = done(replace(draft, signs=True), Step.SIGNS)
    following = next_step(kept)
    return replace(kept, step=following) if draft.step is Step.SIGNS and following else kept


def hear_age(draft: Draft, text: str, now: datetime) -> Answer:
    """Years, or a year of birth; it may be left out."""
    age = age_said(text, local(now, draft.tz or "UTC").year)
    if age is not None:
        kept = undone(replace(draft, age=age), Step.ADULT)
        return TooYoung() if age < ADULT else Taken(done(kept, Step.AGE))
    return Taken(done(replace(draft, age=None), Step.AGE)) if skips(text) else Unclear(draft, "survey_hint_age")


def hear_adult(draft: Draft, text: str, now: datetime) -> Answer:
    """Whether somebody is 18, where they don't say their age; it isn't kept."""
    age = age_said(text, local(now, draft.tz or "UTC").year)
    said = assent(text)
    if said is Assent.NO or (age is not None and age < ADULT):
        return TooYoung()
    if said is Assent.YES or age is not None:
        return Taken(done(draft, Step.ADULT))
    return Unclear(draft, "survey_hint_adult")


def hear_size(draft: Draft, text: str, _now: datetime) -> Answer:
    """Height and weight together, one of the two, or neither."""
    said = size_said(text, True, True, draft.country == "US")
    if said.odd:
        return Unclear(draft, "survey_hint_size_odd")
    if said.height_cm is None and said.weight_kg is None:
        blank = done(replace(undone(draft, Step.HEIGHT, Step.WEIGHT), height_cm=None, weight_kg=None), Step.SIZE)
        return Taken(blank) if skips(text) else Unclear(draft, "survey_hint_size")
    kept = done(
        undone(_sized(replace(draft, height_cm=None, weight_kg=None), said), Step.HEIGHT, Step.WEIGHT), Step.SIZE
    )
    rest = tuple(step for step in (Step.HEIGHT, Step.WEIGHT) if holds(bare(text), words("answers", "withhold")))
    return Taken(done(kept, *rest), Line("survey_got_height_unit") if said.unit_open else None)


def hear_height(draft: Draft, text: str, _now: datetime) -> Answer:
    """The height alone."""
    said = size_said(text, True, False, False)
    return _one(draft, said, said.height_cm, text, Step.HEIGHT, "survey_hint_height")


def hear_weight(draft: Draft, text: str, _now: datetime) -> Answer:
    """The weight alone."""
    said = size_said(text, False, True, draft.country == "US")
    hint = "survey_hint_weight_unit" if said.unit_open else "survey_hint_weight"
    return _one(draft, said, said.weight_kg, text, Step.WEIGHT, hint)


def _one(draft: Draft, said: SizeSaid, value: float | None, text: str, step: Step, hint: str) -> Answer:
    if said.odd:
        return Unclear(draft, "survey_hint_size_odd")
    if value is None:
        return Taken(done(draft, step), Line("survey_got_skip")) if skips(text) else Unclear(draft, hint)
    return Taken(done(_sized(draft, said), step))


def _sized(draft: Draft, said: SizeSaid) -> Draft:
    height = draft.height_cm if said.height_cm is None else said.height_cm
    return replace(draft, height_cm=height, weight_kg=draft.weight_kg if said.weight_kg is None else said.weight_kg)


def _got(said: Assent, unsure: str) -> Line | None:
    return Line(unsure) if said is Assent.UNSURE else None


def _health(text: str, names: tuple[str, ...]) -> Assent | None:
    """Yes, no or in doubt, as it is when nothing is said; one of the *names* is a yes, also after "no ... but"."""
    said = Assent.UNSURE if withholds(text) else assent(text)
    named = bool(names) and holds(bare(text), names)
    if said is Assent.NO:
        return Assent.YES if named and has_but(text) else Assent.NO
    return Assent.YES if said is None and named else said
