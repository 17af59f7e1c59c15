"""A plan as a picture: weeks as bars of walking, running and strength, long sessions and races marked."""

from pathlib import Path

from matplotlib.figure import Figure

from planning.terms.choices import Purpose
from planning.terms.plan import Plan, Week

COLOURS = ("#4c78a8", "#f58518", "#b279a2")
SIZE_INCHES = (11, 4.5)


def parts_of(week: Week) -> tuple[float, float, float]:
    """Minutes of walking, running and strength."""
    strength = sum(each.seconds for each in week.strength)
    return (week.seconds - week.run_seconds) / 60, week.run_seconds / 60, strength / 60


def longest_of(week: Week) -> float:
    """Minutes of the long session, 0 without one."""
    return max((each.minutes for each in week.sessions if each.purpose is Purpose.LONG), default=0)


def draw_plan(plan: Plan) -> Figure:
    """The picture of *plan*, not yet written anywhere."""
    figure = Figure(figsize=SIZE_INCHES, layout="constrained")
    axes = figure.add_subplot()
    numbers = [week.number for week in plan.weeks]
    floor = [0.0] * len(numbers)
    for index, label in enumerate(("walk", "run", "strength")):
        heights = [parts_of(week)[index] for week in plan.weeks]
        axes.bar(numbers, heights, bottom=floor, label=label, color=COLOURS[index])
        floor = [low + height for low, height in zip(floor, heights, strict=True)]
    long = [(week.number, longest_of(week)) for week in plan.weeks if longest_of(week)]
    axes.plot([number for number, _ in long], [each for _, each in long], "k.", label="long session")
    for week in plan.weeks:
        for each in week.sessions:
            if each.purpose is Purpose.RACE:
                axes.axvline(week.number + each.on.weekday() / 7, color="#54a24b", label=f"race {each.on}")
    axes.set(xlabel="week", ylabel="minutes", title=f"Plan for {plan.who}".replace("$", r"\$"))
    axes.legend(loc="upper left")
    return figure


def save_chart(plan: Plan, name: str) -> None:
    """Write the picture to the file *name*, as PNG or SVG by its ending."""
    draw_plan(plan).savefig(name, format=Path(name).suffix[1:].lower())
