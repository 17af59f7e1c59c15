"""Questions of beginners: found by their words, never taken from a log, a complaint or small talk."""

import tomllib
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.conversation import converse
from bot.conversation.cards import Card, card_named, deck, find
from bot.conversation.events import Heard
from bot.conversation.known import Hold, Known, Question
from bot.conversation.says import Asks, Kind, Say
from bot.forms import profile_from_json
from bot.reading import read
from bot.words.catalogue import catalogue
from bot.words.render import render
from planning.terms.choices import Danger
from planning.terms.person import Screen
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire

NOW = datetime(2026, 3, 3, 12, tzinfo=UTC)
TODAY = date(2026, 3, 3)


def table(name: str) -> dict[str, list[str]]:
    raw = tomllib.loads(Path(__file__).with_name(name).read_text(encoding="utf-8"))
    return {key: [str(text) for text in texts] for key, texts in raw.items()}


ASKED, NOT_ASKED = table("asked.toml"), table("not_asked.toml")
NAMES = [card.name for card in deck()]


def known(**profile: object) -> Known:
    return Known("ada", profile=profile_from_json(ada(**profile)), since=NOW - timedelta(days=1))


def answer(text: str, person: Known | None = None) -> Say:
    """What the person is told when they write that."""
    heard = Heard("t-1", read(text, NOW.replace(tzinfo=None), "Europe/London"))
    return next(say for say in converse(person or known(), heard, NOW).says if say.to == "ada")


def cards_in(say: Say) -> list[str]:
    return [word for word in say.words if word.startswith("card_")]


def pairs(by_name: dict[str, list[str]]) -> list[tuple[str, str]]:
    return [(name, text) for name, texts in by_name.items() for text in texts]


def test_every_card_is_asked_for_in_four_ways_or_more() -> None:
    assert list(ASKED) == NAMES
    assert min(map(len, ASKED.values())) >= 4
    assert len(NAMES) >= 40


@pytest.mark.parametrize(("name", "text"), pairs(ASKED))
def test_a_question_finds_its_card(name: str, text: str) -> None:
    assert [card.name for card in find(text).cards] == [name]


@pytest.mark.parametrize(("kind", "text"), pairs(NOT_ASKED))
def test_what_is_no_question_finds_no_card(kind: str, text: str) -> None:
    assert cards_in(answer(text)) == []


def is_said(form: str, said: list[str]) -> bool:
    return any(token.startswith(form[:-1]) if form.endswith("*") else token == form for token in said)


@given(st.data())
@settings(max_examples=40)
def test_no_card_is_overlooked_whose_words_are_all_said(data: st.DataObject) -> None:
    forms = st.sampled_from(sorted({form for card in deck() for words in card.asks for slot in words for form in slot}))
    drawn = data.draw(st.lists(forms, min_size=1, max_size=6))
    said = ["which", *(each.replace("*", "s") for each in drawn), "xyz"]
    sizes = {
        card.name: max(
            (len(sets) for sets in card.asks if all(any(is_said(f, said) for f in s) for s in sets)), default=0
        )
        for card in deck()
        if not any(is_said(form, said) for form in card.unless)
    }
    best = [name for name, size in sizes.items() if size and size == max(sizes.values())]
    assert [card.name for card in find(f"{' '.join(said)}?").cards] == best[:3]


def test_enough_was_tried_that_is_no_question() -> None:
    assert sum(map(len, NOT_ASKED.values())) >= 30


def reads_plainly(text: str) -> bool:
    reading = read(text, NOW.replace(tzinfo=None), "Europe/London")
    return not reading.spans and not reading.danger


@pytest.mark.parametrize(("name", "text"), [each for each in pairs(ASKED) if reads_plainly(each[1])])
def test_a_question_with_no_report_in_it_is_answered_by_its_card(name: str, text: str) -> None:
    said = answer(text)
    assert (said.kind, said.words[0]) == (Kind.HELP, f"card_{name}")


def test_most_questions_hold_no_report() -> None:
    texts = [text for _, text in pairs(ASKED)]
    assert sum(map(reads_plainly, texts)) >= 0.8 * len(texts)


@pytest.mark.parametrize("card", deck(), ids=lambda card: card.name)
def test_the_button_of_a_card_brings_that_card(card: Card) -> None:
    said = answer(f"{card.topic}?")
    assert (said.kind, said.words[0], said.also) == (Kind.HELP, f"card_{card.name}", ())


@pytest.mark.parametrize("card", deck(), ids=lambda card: card.name)
def test_a_card_has_its_words_its_source_and_whom_to_see(card: Card) -> None:
    words = catalogue()
    assert f"card_{card.name}" in words.say
    assert (f"card_{card.name}_see" in words.say) is bool(card.see)
    assert len(words.button[f"card_{card.name}"]) <= 20
    assert (
        card.source == "common practice, no source"
        or any(each.isdigit() for each in card.source)
        or ("from memory" in card.source)
    )


def test_no_card_is_written_that_nobody_can_find() -> None:
    told = {name for name in catalogue().say if name.startswith("card_") and not name.endswith("_see")}
    assert told - {"card_on_hold", "card_which", "card_none", "card_none_coach"} == {f"card_{name}" for name in NAMES}


@pytest.mark.parametrize("name", NAMES)
def test_a_card_fits_a_phone(name: str) -> None:
    text = render(answer(f"{card_named(name).topic}?"), TODAY, "Europe/London").text
    lines = text.splitlines()
    assert len(lines[0]) <= 80
    assert len(lines) <= 4
    assert len(text) <= 400
    assert "{" not in text


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("what should I eat?", ["Food before", "Food after"]),
        ("wine or coffee and music?", ["Alcohol", "Music"]),
        ("shoes or music?", ["Shoes", "Music"]),
        ("dogs and hills, any tips?", ["Dogs", "Hills"]),
    ],
)
def test_between_two_the_person_chooses(text: str, names: list[str]) -> None:
    said = answer(text)
    assert said.words == ("card_which",)
    assert set(names) <= set(render(said, TODAY, "Europe/London").labels)
    assert 2 <= len(said.choices) <= 3


@pytest.mark.parametrize("text", ["can I bring my parrot?", "what is the capital of Peru?", "how do I file my taxes"])
def test_what_no_card_answers_is_said(text: str) -> None:
    said = answer(text, known(coach=None))
    assert (said.kind, said.words) == (Kind.NOT_READ, ("card_none",))
    assert "ask my coach" not in [choice.text for choice in said.choices]


def test_what_no_card_answers_is_offered_to_the_coach() -> None:
    said = answer("can I bring my parrot?")
    assert said.words == ("card_none_coach",)
    assert said.choices[0].text == "ask my coach"
    assert answer("ask my coach").kind is Kind.PASSED_ON


@pytest.mark.parametrize(
    "text",
    [
        "chest pain, should I drink water?",
        "I can't breathe, do I need my inhaler?",
        "what shoes? I don't want to live any more",
        "I fainted at the gym, is it my blood pressure?",
    ],
)
def test_danger_goes_first_and_alone(text: str) -> None:
    said = answer(text)
    assert said.kind in (Kind.URGENT, Kind.CARE)
    assert cards_in(said) == []


@pytest.mark.parametrize("text", ["knee hurts 6/10, which shoes?", "ankle swollen, what should I wear?"])
def test_a_complaint_is_looked_at_instead(text: str) -> None:
    said = answer(text)
    assert said.kind is Kind.TRIAGE
    assert cards_in(said) == []


@pytest.mark.parametrize("text", ["did 20, which shoes?", "walked 15, is the treadmill ok?"])
def test_a_log_is_kept_instead(text: str) -> None:
    said = answer(text)
    assert said.kind is Kind.LOGGED
    assert cards_in(said) == []


def test_a_why_with_a_card_is_no_question_about_the_plan() -> None:
    assert answer("why am I so slow?").words == ("card_slow",)
    assert answer("why?").kind is Kind.WHY


def test_shouts_on_a_bad_day_get_a_warm_word_and_the_card() -> None:
    said = answer("some lads laughed at me, feeling low")
    assert said.kind is Kind.CARE
    assert cards_in(said) == ["card_stared", "card_stared_see"]


def test_on_hold_a_card_says_that_it_stands() -> None:
    held = replace(known(), holds=(Hold((Danger.CHEST,), TODAY, "m-1"),))
    assert answer("what shoes should I get?", held).words == ("card_shoes", "card_on_hold")


@pytest.mark.parametrize("text", ["why am I not losing weight?", "am I too heavy to run?"])
def test_while_pregnant_nobody_is_told_about_weight(text: str) -> None:
    """Common practice, no source: pregnancy or a birth within 12 months holds no talk of weight."""
    person = known()
    assert person.profile is not None
    expecting = replace(person, profile=replace(person.profile, screen=Screen(pregnant=True)))
    assert answer(text, expecting).words[0] == "card_pregnancy"


def test_a_bare_word_answers_the_open_question_first() -> None:
    open_question = replace(known(), question=Question(Asks.WHY_MISSED, TODAY))
    assert answer("blisters", known()).words
    assert cards_in(answer("treadmill", open_question)) == []
    assert cards_in(answer("does the treadmill count?", open_question)) == ["card_treadmill"]


def test_a_card_names_the_number_of_the_country() -> None:
    text = render(answer("can I run with asthma?", known(tz="America/Chicago")), TODAY, "America/Chicago").text
    assert "call 911" in text


def test_in_a_group_no_card_is_told() -> None:
    heard = Heard("t-1", read("can I run on my period?", NOW.replace(tzinfo=None), "Europe/London"), private=False)
    assert converse(known(), heard, NOW).says == ()


def test_a_card_comes_over_the_wire_as_help(tmp_path: Path) -> None:
    wire = OnTheWire.on(tmp_path / "a.db", ada(), kim())
    wire.feed({"at": "2026-03-02T06:00:00+00:00"})
    about = wire.says("2026-03-02T08:00:00+00:00", "ibuprofen first?")
    assert about["kind"] == "help"


def test_a_pressed_button_brings_the_chosen_card(tmp_path: Path) -> None:
    wire = OnTheWire.on(tmp_path / "a.db", ada(), kim())
    wire.feed({"at": "2026-03-02T06:00:00+00:00"})
    line = {"at": "2026-03-02T08:00:00+00:00", "id": "q-1", "chat": "ada", "text": "shoes or music?"}
    shoes = next(each for each in wire.feed(line)[-1]["buttons"] if each["label"] == "Shoes")
    told = wire.feed({"at": "2026-03-02T08:01:00+00:00", "id": "q-2", "chat": "ada", "press": shoes["id"]})
    assert str(told[-1]["text"]).startswith("Any running shoe that feels good")


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=200))
def test_any_text_gives_the_same_cards_each_time(text: str) -> None:
    found = find(text)
    assert found == find(text)
    assert len(found.cards) <= 3
