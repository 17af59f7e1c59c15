"""The word lists: one meaning for each phrase, and the signs made of groups that exist."""

from importlib import resources

from bot.reading import lexicon
from bot.reading.lexicon import FILES, SIGN_FILES, expand, load, words_of


def test_no_phrase_has_two_meanings() -> None:
    seen: dict[tuple[str, ...], tuple[str, str]] = {}
    double = []
    for name in FILES:
        for table, meanings in load(name).items():
            for value, phrases in meanings.items():
                for phrase in (words_of(each) for listed in phrases for each in expand(listed)):
                    if seen.setdefault(phrase, (table, value)) != (table, value):
                        double.append((phrase, seen[phrase], (table, value)))
    assert not double


def test_signs_are_made_of_known_groups() -> None:
    groups = {group: listed for name in SIGN_FILES for group, listed in load(name)["group"].items()}
    assert len(groups) == sum(len(load(name)["group"]) for name in SIGN_FILES)
    assert {each[1:] for listed in groups.values() for each in listed if each.startswith("@")} <= set(groups)
    for name in SIGN_FILES:
        assert not [sign.name for sign in lexicon.signs(name) if not set(sign.groups + sign.unless) <= set(groups)]


def test_choices_and_options_open_up() -> None:
    assert sorted(expand("(a|b) c [d]")) == ["a c", "a c d", "b c", "b c d"]


def test_words_are_listed_once_and_as_tokens_have_them() -> None:
    lists = [words for table in load("words").values() for words in table.values()]
    assert [words for words in lists if len(words) != len(set(words))] == []
    assert [word for words in lists for word in words if words_of(word) != (word,)] == []


def test_a_line_of_a_list_fits_the_page_or_holds_one_phrase() -> None:
    texts = resources.files(lexicon).iterdir()
    lines = [line for each in texts if each.name.endswith(".toml") for line in each.read_text().splitlines()]
    assert [line for line in lines if len(line) > 120 and line.count('"') != 2] == []
