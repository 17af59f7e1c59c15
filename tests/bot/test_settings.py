"""What a host sets: read from three places, all that is wrong told at once, no secret shown."""

from pathlib import Path

import pytest

from bot.settings import BadSettings, load

TOKEN = "a-token-of-our-own-making"
WIRE = {"LAMPPOST_WIRE": "127.0.0.1:8765", "LAMPPOST_WIRE_TOKEN": TOKEN}


@pytest.fixture(autouse=True)
def _bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("CREDENTIALS_DIRECTORY", str(tmp_path / "secrets"))


def given(monkeypatch: pytest.MonkeyPatch, settings: dict[str, str]) -> None:
    for name, value in settings.items():
        monkeypatch.setenv(name, value)


def test_the_environment_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    given(monkeypatch, WIRE | {"LAMPPOST_WIRE_ORIGINS": "https://a.example, https://b.example"})
    settings = load()
    assert settings.wire == "127.0.0.1:8765"
    assert settings.wire_token is not None
    assert settings.wire_token.get_secret_value() == TOKEN
    assert settings.wire_origins == ("https://a.example", "https://b.example")


def test_a_file_is_read_and_the_environment_goes_before_it(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    lines = [f"{name}={value}" for name, value in WIRE.items()]
    (tmp_path / ".env").write_text("\n".join([*lines, "LAMPPOST_LEASE_SECONDS=9", "OTHER=1"]), encoding="utf-8")
    monkeypatch.setenv("LAMPPOST_WIRE", "127.0.0.1:1")
    assert (load().wire, load().lease_seconds) == ("127.0.0.1:1", 9)


def test_a_secret_may_stand_in_a_file_of_its_own(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "secrets").mkdir()
    (tmp_path / "secrets/lamppost_wire_token").write_text(TOKEN + "\n", encoding="utf-8")
    monkeypatch.setenv("LAMPPOST_WIRE", "127.0.0.1:8765")
    token = load().wire_token
    assert token is not None
    assert token.get_secret_value() == TOKEN


WRONG: list[tuple[str, dict[str, str], str]] = [
    ("a name that is no setting", {"LAMPPOST_WIER": "x"}, "LAMPPOST_WIER: is no setting"),
    ("no port", WIRE | {"LAMPPOST_WIRE": "localhost"}, "LAMPPOST_WIRE: is no host and port"),
    ("no host", WIRE | {"LAMPPOST_WIRE": ":80"}, "LAMPPOST_WIRE: is no host and port"),
    ("a port that is none", WIRE | {"LAMPPOST_WIRE": "a:99999"}, "LAMPPOST_WIRE: is no host and port"),
    ("no token", {"LAMPPOST_WIRE": "a:1"}, "LAMPPOST_WIRE_TOKEN: the wire needs a token"),
    ("a short token", WIRE | {"LAMPPOST_WIRE_TOKEN": "secret"}, "LAMPPOST_WIRE_TOKEN: the wire needs a token"),
    ("no number", {"LAMPPOST_LEASE_SECONDS": "long"}, "LAMPPOST_LEASE_SECONDS: "),
    ("no time at all", {"LAMPPOST_TAKEOVER_SECONDS": "0"}, "LAMPPOST_TAKEOVER_SECONDS: "),
]


@pytest.mark.parametrize(("what", "settings", "told"), WRONG, ids=[row[0] for row in WRONG])
def test_what_is_wrong_is_one_line(
    monkeypatch: pytest.MonkeyPatch, what: str, settings: dict[str, str], told: str
) -> None:
    given(monkeypatch, settings)
    with pytest.raises(BadSettings) as wrong:
        load()
    assert wrong.value.lines[0].startswith(told), what
    assert len(wrong.value.lines) == 1
    assert "secret" not in str(wrong.value)


def test_all_that_is_wrong_is_told_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    given(monkeypatch, {"LAMPPOST_X": "1", "LAMPPOST_WIRE": "a", "LAMPPOST_LEASE_SECONDS": "-1"})
    with pytest.raises(BadSettings) as wrong:
        load()
    assert len(wrong.value.lines) == 3


def test_nothing_set_is_fine() -> None:
    assert (load().wire, load().db) == (None, None)


def test_no_secret_is_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    given(monkeypatch, WIRE | {"LAMPPOST_DB": f"postgresql://u:{TOKEN}@h/d"})
    assert TOKEN not in repr(load())
