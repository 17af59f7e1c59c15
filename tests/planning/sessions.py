"""Builders and strategies of sessions for the tests of planning."""

from datetime import date, time

from hypothesis import strategies as st

from planning.terms.choices import Do, Purpose
from planning.terms.person import Profile, Screen
from planning.terms.plan import Segment, Session

WEDNESDAY = date(2026, 3, 4)
STRETCH = (Segment(Do.STRETCH, 300),)
LETTERS = {"w": Do.WALK, "r": Do.RUN, "s": Do.REST, "c": Do.CROSS}


def segments(text: str) -> tuple[Segment, ...]:
    """ "w5 r1 w2" as segments: a letter of the kind (s: standing rest) and its minutes."""
    return tuple(Segment(LETTERS[word[0]], round(float(word[1:]) * 60)) for word in text.split())


def a_session(
    text: str = "w20",
    *,
    on: date = WEDNESDAY,
    purpose: Purpose = Purpose.EASY,
    effort: tuple[int, int] = (2, 3),
) -> Session:
    """A session at 07:00, the stretch after it."""
    return Session(on, time(7), purpose, effort, segments(text), STRETCH)


def a_person(*, bmi: float | None = 28.0, age: int | None = 40, screen: Screen = Screen()) -> Profile:  # noqa: B008
    """Somebody two metres tall, so that BMI times four is the weight."""
    weight = None if bmi is None else bmi * 4
    return Profile("sam", "Europe/London", (), WEDNESDAY, age=age, height_cm=200, weight_kg=weight, screen=screen)


def spelled(session: Session) -> str:
    """The segments of *session* as `segments` reads them."""
    letters = {do: letter for letter, do in LETTERS.items()}
    return " ".join(f"{letters[each.do]}{each.minutes:g}" for each in session.segments)


@st.composite
def run_walks(draw: st.DrawFn) -> Session:
    """A walk in, runs with walks between them, a walk out."""
    run = draw(st.sampled_from([20, 30, 60, 90, 120, 180, 300, 600]))
    walk = draw(st.sampled_from([60, 90, 120, 180]))
    turns = draw(st.integers(1, 10))
    core = (Segment(Do.RUN, run), Segment(Do.WALK, walk)) * turns
    first, last = (Segment(Do.WALK, 60 * draw(st.integers(1, 10))) for _ in range(2))
    effort = draw(st.sampled_from([(1, 2), (2, 3), (3, 4)]))
    purpose = draw(st.sampled_from([Purpose.EASY, Purpose.LONG, Purpose.BRISK]))
    return Session(WEDNESDAY, time(7), purpose, effort, (first, *core[:-1], last), STRETCH)


def walks() -> st.SearchStrategy[Session]:
    """One walk of 5 to 180 minutes."""
    return st.integers(5, 180).map(lambda minutes: a_session(f"w{minutes}"))


def rested_walks() -> st.SearchStrategy[Session]:
    """Two minutes of walking and one of standing by turns."""
    return st.integers(2, 20).map(lambda turns: a_session("w2 s1 " * turns + "w2"))


def sessions() -> st.SearchStrategy[Session]:
    """Any session that a plan holds."""
    return st.one_of(run_walks(), walks(), rested_walks())
