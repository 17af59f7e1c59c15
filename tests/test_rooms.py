"""The rooms keep their size and their silence: budgets, no clock in the pure rooms, no heavy starts."""

import ast
import subprocess
import sys
from statistics import median, quantiles

import pytest

from tests.support.shell import bot, tracked
from tests.support.trees import Source, is_annotated, one, sources

OURS = ("bot", "planning")
PURE = ("planning", "bot/reading", "bot/conversation", "bot/words")
WRITTEN_OUT = ("planning", "bot/reading", "bot/conversation")
"""Rooms in which every public name has a docstring."""

ASKS_OUTSIDE = frozenset({"now", "today", "utcnow", "open", "print", "input", "getenv"})
WAITS = frozenset({"sleep", "now", "today", "utcnow"})
HEAVY = ("telegram", "nio", "matplotlib", "apscheduler", "alembic", "rich", "prompt_toolkit", "sqlalchemy", "pydantic")

JOINTS = {
    "bot/conversation/order.py": "the one list of all topics",
    "bot/turn/turns.py": "the one place that calls every room",
    "bot/conversation/coach/turn.py": "the one list of all that a coach can say",
    "bot/wiring.py": "builds the running program",
    "planning/plan/build.py": "joins all parts of a plan and checks it",
    "planning/plan/journey.py": "walks the way week by week, with the rule for each part of it",
}
"""Modules that may know more than ten others, and why."""

WORDS = {
    "planning.terms": "planning.terms",
    "bot.conversation.changes": "bot.conversation",
    "bot.conversation.events": "bot.conversation",
    "bot.conversation.known": "bot.conversation",
    "bot.conversation.says": "bot.conversation",
}
"""Modules that hold the words of a room and no rules: those of one room count as one."""


def test_files_fit_on_a_few_screens() -> None:
    lengths = [len(each.code_lines) for each in sources(*OURS)]
    assert median(lengths) <= 120
    assert [each.name for each in sources(*OURS) if len(each.code_lines) > 400] == []


def test_functions_fit_on_a_screen() -> None:
    lengths = {(each.name, node.name): each.length(node) for each in sources(*OURS) for node in each.functions()}
    assert median(lengths.values()) <= 10
    assert quantiles(lengths.values(), n=10)[-1] <= 30
    assert [place for place, length in lengths.items() if length > 60] == []


def test_every_function_has_types() -> None:
    assert [
        (each.name, node.name) for each in sources(*OURS) for node in each.functions() if not is_annotated(node)
    ] == []


@pytest.mark.parametrize("room", WRITTEN_OUT)
def test_every_public_name_says_what_it_gives(room: str) -> None:
    assert [(each.name, name) for each in sources(room) for name, node in each.public() if is_silent(node)] == []


def test_most_public_names_say_what_they_give() -> None:
    told = [not is_silent(node) for each in sources(*OURS) for _, node in each.public()]
    assert sum(told) >= 0.8 * len(told)


def is_silent(node: ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) -> bool:
    return ast.get_docstring(node) is None


def test_a_module_knows_few_others() -> None:
    many = {each.name: sorted(neighbours(each)) for each in sources(*OURS) if len(neighbours(each)) > 10}
    assert {name: known for name, known in many.items() if name not in JOINTS} == {}
    assert JOINTS.keys() - many.keys() == set(), "no longer a joint"


def neighbours(source: Source) -> set[str]:
    """Modules of ours that a file imports; the words of a room count as one."""
    ours = {name for name in source.imported() if name.partition(".")[0] in OURS}
    return {next((room for start, room in WORDS.items() if name.startswith(start)), name) for name in ours}


@pytest.mark.parametrize("room", PURE)
def test_a_pure_room_asks_nothing_outside(room: str) -> None:
    assert [
        (each.name, line, name) for each in sources(room) for line, name in each.calls() if name in ASKS_OUTSIDE
    ] == []


def test_nothing_else_takes_the_time_deep_inside() -> None:
    clock = one("bot/clock/system.py").name
    inside = [each for each in sources("bot") if each.name != clock]
    taken = frozenset({"utcnow", "today"})
    assert [(each.name, line) for each in inside for line, name in each.calls() if name in taken] == []


def test_tests_are_short() -> None:
    assert median(each.length(node) for each in sources("tests") for node in each.functions() if is_test(node)) <= 12


def test_names_of_tests_read_as_sentences() -> None:
    words = [len(node.name.split("_")) - 1 for each in sources("tests") for node in each.functions() if is_test(node)]
    assert 3 <= median(words) <= 8
    assert max(words) <= 18


def is_test(node: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    return node.name.startswith("test_")


def test_tests_neither_sleep_nor_look_at_the_clock() -> None:
    assert [(each.name, line, name) for each in sources("tests") for line, name in each.calls() if name in WAITS] == []


def test_every_test_folder_is_a_package() -> None:
    folders = {each.path.parent for each in sources("tests")}
    assert [folder.name for folder in folders if not (folder / "__init__.py").exists()] == []


def loaded_by(code: str, *arguments: str) -> set[str]:
    """Which of the heavy libraries are loaded after that code, with nothing on standard input."""
    report = f"import sys\n{code}\nprint(*{{name.partition('.')[0] for name in sys.modules}}, file=sys.stderr)"
    run = subprocess.run(
        [sys.executable, "-c", report, *arguments], input="", capture_output=True, text=True, check=True
    )
    return set(run.stderr.split()) & set(HEAVY)


def test_the_command_line_loads_nothing_heavy() -> None:
    assert loaded_by("import bot.cli") == set()


def test_reading_loads_neither_records_nor_chat_libraries() -> None:
    assert loaded_by("from bot.cli import main; main(['read'])") <= {"pydantic"}


def test_the_wire_loads_only_the_records(blank_url: str) -> None:
    talk = "from bot.cli import main; main(['wire', '--db', sys.argv[1]])"
    assert loaded_by(talk, blank_url) <= {"pydantic", "sqlalchemy"}


TALK_TO_ONESELF = """
import prompt_toolkit
from bot.cli.chat import Talk

class Prompt:
    def __init__(self):
        self.app = type("App", (), {"after_render": prompt_toolkit.utils.Event(self)})()

    def prompt(self, _shown):
        raise EOFError

prompt_toolkit.PromptSession = Prompt
Talk(lambda: None).run()
"""
"""The chat at a terminal whose owner leaves at the first prompt."""


def test_the_first_prompt_waits_for_no_records() -> None:
    assert loaded_by(TALK_TO_ONESELF) <= {"prompt_toolkit"}


def test_no_tracked_file_names_a_machine() -> None:
    folder = "/" + "work" + "/"
    places = [name for name, text in tracked() if folder in text]
    locked = [name for name, text in tracked() if name.startswith("requirements") and "://" in text]
    assert places + locked == []


def test_the_program_runs_as_a_module() -> None:
    assert bot("--help").returncode == 0
