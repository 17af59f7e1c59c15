"""The catalogue and the code agree: each name has its words, no words are left over, and their tone is kept."""

import ast
import re
import string
from collections.abc import Iterator

import pytest

from bot.conversation.cards import deck
from bot.conversation.says import Asks, Kind
from bot.forms.texts import warning_text
from bot.words.catalogue import catalogue
from planning.plan.warnings import Warn
from planning.safety.danger import first_aid
from planning.terms.choices import Activity, Alarm, Colour, Danger, Do, Part
from planning.terms.reasons import Reason
from planning.terms.steps import WeatherDo
from planning.terms.triage import See, TriageDo
from tests.support.trees import Source, sources
from tests.support.wording import BANNED, BODY, CLAIMS

WORDS = catalogue()
CODE = [each for each in sources("bot/conversation", "bot/turn", "bot/words") if "/survey/" not in each.name]
SAY = {name: texts for name, texts in WORDS.say.items() if not name.startswith("survey_")}

BUILT = {
    *(f"triage_{colour}_{do}" for colour in Colour for do in TriageDo),
    *(f"see_{each}" for each in See),
    *(f"weather_{each}" for each in WeatherDo),
    *(f"aid_{first_aid(code)}" for code in (*Danger, *Alarm)),
    *(f"ask_{each}" for each in Asks),
    *(f"card_{each.name}" for each in deck()),
    *(f"card_{each.name}_see" for each in deck()),
    *(f"{name}_none" for name in ("this_session", "next_step")),
}
"""Names that are put together from a value."""

NEEDED = {
    *(f"see_{each}" for each in See),
    *(f"weather_{each}" for each in WeatherDo),
    *(f"aid_{first_aid(code)}" for code in (*Danger, *Alarm) if first_aid(code)),
    *(f"triage_{Colour.GREEN}_{each}" for each in TriageDo),
    *(f"triage_{Colour.AMBER}_{each}" for each in TriageDo),
    *(f"triage_{Colour.RED}_{each}" for each in (TriageDo.REST, TriageDo.SEE_SOMEONE)),
    *(f"card_{each.name}" for each in deck()),
    *(f"card_{each.name}_see" for each in deck() if each.see),
}
"""Names of them that can come up whatever is said."""


def literals(node: ast.AST) -> Iterator[str]:
    """All plain texts in a piece of code that could be a name."""
    for each in ast.walk(node):
        if (
            isinstance(each, ast.Constant)
            and isinstance(each.value, str)
            and re.fullmatch(r"[a-z0-9](_?[a-z0-9])*", each.value)
        ):
            yield each.value


def said_in(source: Source) -> Iterator[str]:
    """Names that stand where a message gets its paragraphs: the third argument of a say, or a variable called words."""
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Say" and len(node.args) > 2:
            yield from literals(node.args[2])
        if isinstance(node, ast.Assign) and any(getattr(each, "id", "") == "words" for each in node.targets):
            yield from literals(node.value)


def labels_in(source: Source) -> Iterator[str]:
    """Names of the labels of buttons."""
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Choice" and node.args:
            yield from literals(node.args[0])


def test_every_name_in_the_code_has_its_words() -> None:
    assert {name for each in CODE for name in said_in(each)} - SAY.keys() == set()
    assert NEEDED - SAY.keys() == set()


def test_no_words_are_left_over() -> None:
    used = {name for each in CODE for name in literals(each.tree)}
    assert SAY.keys() - used - BUILT == set()


def test_every_button_has_a_label_and_none_is_left_over() -> None:
    used = {name for each in CODE for name in labels_in(each)}
    built = {f"card_{each.name}" for each in deck()}
    own = {name for name in WORDS.button if not name.startswith("survey_")}
    assert used - own == set()
    assert own - used - built - survey_labels() == set()


def survey_labels() -> set[str]:
    return {name for each in sources("bot/conversation/survey") for name in literals(each.tree)}


@pytest.mark.parametrize(
    ("table", "names"),
    [("why", Reason), ("part", Part), ("do", Do), ("do", Activity)],
    ids=["reasons", "parts of the body", "segments", "activities"],
)
def test_every_value_has_its_words(table: str, names: type[Reason | Part | Do | Activity]) -> None:
    words = getattr(WORDS, table)
    assert [each.value for each in names if not words.get(each.value)] == []


def test_no_reason_or_part_is_left_over() -> None:
    assert WORDS.why.keys() - {each.value for each in Reason} == set()
    assert WORDS.part.keys() - {each.value for each in Part} == set()
    assert WORDS.do.keys() - {each.value for each in (*Do, *Activity)} == set()


@pytest.mark.parametrize("name", list(Warn), ids=str)
def test_every_warning_of_a_plan_has_its_words(name: Warn) -> None:
    assert BANNED.search(warning_text(name)) is None
    assert warning_text(name)


TYPICAL = {
    "session": "35 min: walk 5, 8 x (run 1 min, walk 2 min), walk 5 min",
    "next": "Wed 30 Sep 18:30, 35 min: walk 5 min, 5 x (run 1, walk 2)",
    "day": "Wed 30 Sep",
    "time": "18:30",
    "at_time": "18:30",
    "done": "run-walk 35 min, 4.25 km",
    "minutes": "35",
    "was": "35",
    "sessions_done": "16",
    "minutes_done": "480",
    "longest_done": "60",
    "weight": "103.2",
    "trend": "103.2",
    "effort_said": "7",
    "parts": "The lower back",
    "parts_said": "the lower back",
    "called": "Maximilian",
    "emergency": "112",
    "crisis": "116 123",
    "eating": "0808 801 0677",
}
"""Values as they come up on an ordinary day; others count ten characters."""

FOLLOWS = ("this_session", "next_step", "ask_", "see_", "aid_", "urgent_", "care_", "card_", "rescue_", "shrunk_")
"""How the names of paragraphs begin that stand below another one, or have their own tests with real numbers."""


def filled(text: str) -> str:
    names = {name for _, name, _, _ in string.Formatter().parse(text) if name}
    return text.format_map({name: TYPICAL.get(name, "x" * 10) for name in names})


FIRST = [(name, text) for name, texts in SAY.items() for text in texts if text and not name.startswith(FOLLOWS)]


@pytest.mark.parametrize(("name", "text"), FIRST, ids=[f"{name}-{place}" for place, (name, _) in enumerate(FIRST)])
def test_the_first_line_fits_a_lock_screen(name: str, text: str) -> None:
    assert len(filled(text).splitlines()[0]) <= 80


EVERY = [*((name, text) for name, texts in SAY.items() for text in texts)]
EVERY += [(name, text) for table in (WORDS.button, WORDS.why, WORDS.how) for name, text in table.items()]


def test_no_words_shame_or_promise_too_much() -> None:
    quoted = re.compile(r"\"[^\"]*\"")
    broken = [(name, quoted.sub("", text)) for name, text in EVERY]
    assert [(name, text) for name, text in broken if BANNED.search(text) or CLAIMS.search(text)] == []


def test_nothing_is_shouted() -> None:
    assert [name for name, text in EVERY if "!" in text] == []


def test_only_one_question_is_asked_in_a_paragraph() -> None:
    several = {name for name, text in EVERY if re.sub(r"\"[^\"]*\"", "", text).count("?") > 1}
    assert {name for name in several if not name.startswith("card_")} == set()


ON_A_LOCK_SCREEN = [
    (name, text)
    for name, texts in SAY.items()
    for text in texts
    if name.startswith(("today", "nudge", "notice", "review"))
]


@pytest.mark.parametrize(("name", "text"), ON_A_LOCK_SCREEN, ids=[name for name, _ in ON_A_LOCK_SCREEN])
def test_no_word_of_the_body_shows_on_a_lock_screen(name: str, text: str) -> None:
    assert BODY.search(text.splitlines()[0]) is None


def test_no_message_has_more_than_four_buttons() -> None:
    rows = [node for each in CODE for node in ast.walk(each.tree) if isinstance(node, ast.Tuple)]
    counts = [sum(getattr(getattr(item, "func", None), "id", "") == "Choice" for item in row.elts) for row in rows]
    assert max(counts) <= 4


def test_every_label_fits_a_button() -> None:
    assert [label for label in WORDS.button.values() if not 1 <= len(label) <= 40] == []


def test_every_kind_of_message_has_a_rank() -> None:
    assert list(Kind)[:4] == [Kind.URGENT, Kind.CARE, Kind.TRIAGE, Kind.RESCUE]
