"""A plan as a table for people: one line a week, the days below each other; plain text when piped."""

from datetime import date

from rich.console import Console
from rich.table import Table
from rich.text import Text

from bot.forms.texts import care_text, caution_text, limit_text, warning_text
from bot.words.moves import move_text
from planning.plan.care import Care, beside, race_of
from planning.plan.why import choices
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Plan, RaceDay, Session, Week, total_seconds

PIPED_WIDTH = 120


def whole(minutes: float) -> str:
    """Minutes as text, whole ones: nobody walks by the half minute."""
    return str(int(minutes + 0.5))


def session_text(session: Session) -> str:
    """One session in a few words: day, minutes, what for, how much of it is run."""
    run = total_seconds(session.segments, Do.RUN)
    parts = [session.on.strftime("%a %d %b"), f"{whole(session.minutes):>3} min"]
    if session.purpose is not Purpose.EASY:
        parts.append(session.purpose.value)
    if run:
        reps = [each for each in session.segments if each.do is Do.RUN]
        parts.append(f"run {len(reps)} x {clock(reps[0].seconds)}")
    elif total_seconds(session.segments, Do.REST):
        parts.append("walk and stand")
    return "  ".join(parts)


SHORT = {Care.REHEARSE_KIT: "kit", Care.REHEARSE_FOOD: "food", Care.SKIN: "skin", Care.FEET: "feet"}
"""What to mind, as it stands in the table; the lines below it say more."""


def care_words(session: Session, race: date | None) -> str:
    """What to mind on the day of *session*, in brackets; nothing if there is nothing."""
    words = ", ".join(SHORT[each] for each in beside(session, race).care)
    return f"  ({words})" if words else ""


def clock(seconds: int) -> str:
    """Seconds as minutes and seconds."""
    return f"{seconds // 60}:{seconds % 60:02}"


def strength_text(week: Week) -> str:
    """The strength sessions of a week in a few words."""
    return ", ".join(f"{each.on.strftime('%a')} {whole(each.minutes)}" for each in week.strength)


def plan_table(plan: Plan) -> Table:
    """The weeks of *plan* as a table."""
    table = Table(title=Text(f"Plan for {plan.who}"), title_justify="left", pad_edge=False)
    for name, side in (("week", "right"), ("monday", "left"), ("kind", "left"), ("min", "right"), ("sessions", "left")):
        table.add_column(name, justify="right" if side == "right" else "left")
    table.add_column("strength")
    race = race_of(plan)
    for week in plan.weeks:
        sessions = "\n".join(session_text(each) + care_words(each, race) for each in week.sessions)
        row = (str(week.number), str(week.monday), week.kind.value, whole(week.minutes), sessions, strength_text(week))
        table.add_row(*(Text(each) for each in row))
    return table


def race_lines(day: RaceDay) -> list[str]:
    """Race day in a few lines."""
    low, high = day.band_min
    food = day.carbohydrate_g_per_hour
    rhythm = f"run {clock(day.run_seconds)}, walk {clock(day.walk_seconds)}" if day.run_seconds else "walk"
    return [
        f"race day: about {whole(day.expected_min)} min, somewhere from {whole(low)} to {whole(high)}; {rhythm}",
        "splits: " + ", ".join(f"{each.km:g} km {whole(each.minutes)}" for each in day.splits),
        f"food: {food[0]}-{food[1]} g of carbohydrate an hour" if food else "food: none needed on the way",
        *(f"- {caution_text(each)}" for each in day.cautions),
    ]


def care_lines(plan: Plan) -> list[str]:
    """What the words in brackets mean, as far as they stand in *plan*."""
    race = race_of(plan)
    there = {care for session in plan.sessions for care in beside(session, race).care}
    return [f"{SHORT[each]}: {care_text(each)}" for each in Care if each in there]


def move_lines(plan: Plan) -> list[str]:
    """Every stretch and every strength move of *plan*: how, and when not."""
    race = race_of(plan)
    parts = dict.fromkeys(part for session in plan.sessions for part in beside(session, race).stretches)
    moves = dict.fromkeys(move for week in plan.weeks for each in week.strength for move in each.moves)
    names = (*(f"stretch_{part.value}" for part in parts), *moves)
    return [f"{name.replace('_', ' ')}: {move_text(name)}" for name in names]


def print_plan(plan: Plan) -> None:
    """Print *plan* on standard output."""
    console = Console(width=None if Console().is_terminal else PIPED_WIDTH, highlight=False)
    if plan.weeks:
        console.print(plan_table(plan))
    fits = "fits" if plan.fits else "does not fit"
    earliest = f"; earliest sensible race: {plan.earliest_race}" if plan.earliest_race else ""
    console.print(Text(f"{fits}{earliest}" if plan.may_start else "waits for clearance"), soft_wrap=True)
    for line in (*(race_lines(plan.race_day) if plan.race_day else ()), *care_lines(plan)):
        console.print(Text(line), soft_wrap=True)
    for name in plan.warnings:
        console.print(Text(f"note: {warning_text(name)}"), soft_wrap=True)


def print_why(plan: Plan) -> None:
    """Print every choice of *plan* with the limit behind it and its source, then how each move and stretch is done."""
    for each in choices(plan):
        print(f"{each.on}  {each.what}: {limit_text(each.rule.name)} ({each.rule.name}; {each.rule.source})")
    for line in move_lines(plan):
        print(line)
