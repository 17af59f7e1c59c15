"""The limits of a plan read literally from its JSON, by somebody who knows nothing of how plans are made.

Each function yields a line for each place where the JSON object goes beyond a limit. Minutes are compared as fractions,
so that an exact 10 % stays within 10 %.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise
from typing import Any

from planning.terms.person import Profile

Json = dict[str, Any]


def minutes(value: float) -> Fraction:
    """Minutes as an exact fraction of whole seconds."""
    return Fraction(round(value * 60), 60)


def day(value: str) -> date:
    """A date."""
    return date.fromisoformat(value)


def sessions(plan: Json, *, race: bool = False) -> list[Json]:
    """Sessions in order, races only if asked for."""
    found = [each for week in plan["weeks"] for each in week["sessions"]]
    return [each for each in found if race or each["purpose"] != "race"]


def running(session: Json) -> Fraction:
    """Minutes of running."""
    return sum((minutes(each["minutes"]) for each in session["segments"] if each["do"] == "run"), Fraction(0))


def week_running(week: Json) -> Fraction:
    """Minutes of running in a week without its race."""
    return sum((running(each) for each in week["sessions"] if each["purpose"] != "race"), Fraction(0))


def week_minutes(week: Json) -> Fraction:
    """Minutes of a week without its race."""
    return sum((minutes(each["minutes"]) for each in week["sessions"] if each["purpose"] != "race"), Fraction(0))


def shape(plan: Json) -> Iterator[str]:
    """Sums, order, weeks from Monday."""
    for week in plan["weeks"]:
        if day(week["monday"]).weekday() or minutes(week["minutes"]) != week_minutes(week):
            yield f"week {week['number']}: {week['minutes']}"
    days = [each["date"] for each in sessions(plan, race=True)]
    if days != sorted(set(days)):
        yield "days not in order"
    for each in sessions(plan, race=True):
        if sum(minutes(part["minutes"]) for part in each["segments"]) != minutes(each["minutes"]):
            yield f"{each['date']}: segments"
        if any(part["minutes"] <= 0 for part in each["segments"]) or each["minutes"] <= 0:
            yield f"{each['date']}: empty"


def given_days(plan: Json, profile: Profile) -> Iterator[str]:
    """Walks and runs on given days only, a free day each week, a stretch after each."""
    given = {each.day for each in profile.days}
    for each in sessions(plan):
        if day(each["date"]).weekday() not in given or day(each["date"]) < profile.begin:
            yield f"{each['date']}: not given"
        if each["after"] != [{"do": "stretch", "minutes": 5}]:
            yield f"{each['date']}: no stretch"
    for week in plan["weeks"]:
        used = {each["date"] for each in (*week["sessions"], *week["strength"])}
        if len(used) > 6:
            yield f"week {week['number']}: no free day"


def beginning(plan: Json, profile: Profile) -> Iterator[str]:
    """Week 0 and week 1."""
    first = [week for week in plan["weeks"] if week["number"] <= 1]
    allowed = max(Fraction(100), minutes(profile.week_min) * Fraction(11, 10))
    if sum(map(week_minutes, first)) > allowed:
        yield "too much at first"
    for week in first:
        for each in week["sessions"]:
            if each["purpose"] == "race":
                continue
            if each["minutes"] > max(20, profile.longest_min):
                yield f"{each['date']}: too long"
            for part in each["segments"]:
                if part["do"] == "run" and part["minutes"] > profile.jog_min:
                    yield f"{each['date']}: run too long"
                if (
                    part["do"] == "walk"
                    and profile.walk_min < 20
                    and part["minutes"] > max(0.5, min(2, profile.walk_min))
                ):
                    yield f"{each['date']}: walk too long"
        races = any(each["purpose"] == "race" for other in plan["weeks"][:2] for each in other["sessions"])
        if week["number"] == 1 and not races and len(week["sessions"]) != min(4, len(profile.days)):
            yield "not four days"


def growth(plan: Json, profile: Profile) -> Iterator[str]:
    """Limit 2."""
    weeks = {week["number"]: week_minutes(week) for week in plan["weeks"]}
    for number, total in weeks.items():
        before = [weeks[each] for each in range(number - 4, number) if each >= 1 and each in weeks]
        base = max([*before, minutes(profile.week_min) if number <= 4 else Fraction(0)], default=Fraction(0))
        if number >= 2 and total > base + max(base / 10, 10):
            yield f"week {number}: {total} after {base}"
    found = sessions(plan)
    for each in found:
        on = day(each["date"])
        before = [minutes(other["minutes"]) for other in found if 0 < (on - day(other["date"])).days <= 30]
        if (on - profile.begin).days < 30:
            before.append(max(Fraction(20), minutes(profile.longest_min)))
        base = max(before, default=Fraction(0))
        late = on >= day(plan["weeks"][0]["monday"]) + timedelta(days=7)
        if late and minutes(each["minutes"]) > base + max(base / 10, 5):
            yield f"{each['date']}: {each['minutes']} after {base}"


def rhythm(plan: Json, profile: Profile) -> Iterator[str]:
    """Limit 3."""
    weeks = [week for week in plan["weeks"] if week["number"] >= 1]
    for before, week in pairwise(weeks):
        ratio = week_minutes(week) / week_minutes(before) if week_minutes(before) else Fraction(0)
        if week["kind"] == "easier" and not Fraction(70, 100) <= ratio <= Fraction(85, 100):
            yield f"week {week['number']}: easier by {float(ratio):.3f}"
    for start in range(len(weeks) - 3):
        if all(week["kind"] in ("build", "hold") for week in weeks[start : start + 4]):
            yield f"weeks from {weeks[start]['number']}: none easier"
    late = [week["number"] for week in weeks if week["kind"] == "build"][-8:]
    for week in plan["weeks"]:
        count = sum(each["purpose"] != "race" for each in week["sessions"])
        share = Fraction(2, 3) if count == 2 else Fraction(3, 5) if week["number"] in late else Fraction(1, 2)
        for each in week["sessions"]:
            if each["purpose"] == "long" and minutes(each["minutes"]) > week_minutes(week) * share:
                yield f"{each['date']}: long share"
    yield from neighbours(plan)
    if len(profile.days) == 1 and profile.race and profile.race.km > 10 and plan["fits"]:
        yield "one day a week"


def neighbours(plan: Json) -> Iterator[str]:
    """Never two of long or brisk in a row, nothing over 60 minutes beside a long one."""
    found = sessions(plan, race=True)
    for first, second in pairwise(found):
        if (day(second["date"]) - day(first["date"])).days > 1:
            continue
        hard = ("long", "brisk", "race")
        if first["purpose"] in hard and second["purpose"] in hard:
            yield f"{second['date']}: two hard days"
        for one, other in ((first, second), (second, first)):
            if one["purpose"] == "long" and other["purpose"] != "race" and other["minutes"] > 60:
                yield f"{other['date']}: over an hour beside the long one"


def run_entry(plan: Json, profile: Profile) -> Iterator[str]:
    """How running enters: limit 4, first half."""
    wanted, walked, first = min(3, len(profile.days)), [], None
    heavy = profile.bmi is None or profile.bmi >= 35
    for week in plan["weeks"]:
        runs = week_running(week)
        training = [each for each in week["sessions"] if each["purpose"] != "race"]
        parts = [part for each in training for part in each["segments"] if part["do"] == "run"]
        longest = max((minutes(part["minutes"]) for part in parts), default=Fraction(0))
        strides = 0 < runs <= 2 and longest <= Fraction(1, 3) and week["number"] >= 3 and not heavy
        if runs and not strides and first is None:
            first = week["number"]
            if not profile.jog_min and walked[-2:] != [True, True]:
                yield f"week {first}: runs too soon"
            if (profile.bmi is None or profile.bmi > 30) and runs * 12 >= 3 * 60:
                yield f"week {first}: {runs} minutes of running"
        plain = [each for each in week["sessions"] if [part["do"] for part in each["segments"]] == ["walk"]]
        walked.append(sum(each["minutes"] >= 30 for each in plain) >= wanted)


def run_growth(plan: Json, profile: Profile) -> Iterator[str]:
    """How running grows, and the days between: limit 4, second half."""
    found = sessions(plan)
    for each in found:
        on = day(each["date"])
        before = [running(other) for other in found if 0 < (on - day(other["date"])).days <= 30]
        if (on - profile.begin).days < 30:
            before.append(minutes(profile.jog_min))
        base = max(before, default=Fraction(0))
        if running(each) > base + max(base / 10, 3):
            yield f"{each['date']}: runs {running(each)} after {base}"
    weeks = {week["number"]: week_running(week) for week in plan["weeks"]}
    for number, total in weeks.items():
        bases = [weeks.get(number - 1, Fraction(0)), weeks.get(number - 2, Fraction(0))]
        if number <= 2:
            bases.append(minutes(profile.jog_min) * len(profile.days))
        if total > max(bases) + max(max(bases) * Fraction(3, 10), 10):
            yield f"week {number}: runs {total} after {bases}"
    days = [day(each["date"]) for each in sessions(plan, race=True) if running(each)]
    if any((after - before).days < 2 for before, after in pairwise(days)):
        yield "running on days in a row"
    ten = [week for week in plan["weeks"] if week["number"] <= 10]
    may = profile.bmi is not None and profile.bmi < 30 and len(profile.days) >= 4 and not profile.milestones
    screen = profile.screen
    walks = (
        (profile.race and profile.race.mode == "walk") or screen.pregnant or (screen.disease and not profile.cleared)
    )
    whole = len(ten) >= 10 and ten[-1]["kind"] not in ("race", "taper", "recover")
    if may and not walks and whole and not any(running(each) for week in ten for each in week["sessions"]):
        yield "not running by week 10"


def before_race(plan: Json, profile: Profile) -> Iterator[str]:
    """Limit 5, and the week after."""
    race = profile.race
    if race is None:
        if any(each["minutes"] > 180 for each in sessions(plan)):
            yield "over 180 minutes"
        return
    top = 210 if race.mode == "walk" else 180
    training = [each for each in sessions(plan) if day(each["date"]) < race.on]
    if race.km >= 15 and any(each["minutes"] > top for each in training):
        yield "longest over the top"
    if plan["fits"]:
        longest = max(training, key=lambda each: float(each["minutes"]))
        left = (race.on - day(longest["date"])).days
        wanted = min(Fraction(7, 10) * minutes(plan["race_day"]["expected_min"]), top)
        if not 14 <= left <= 28 or minutes(longest["minutes"]) < wanted:
            yield f"longest {longest['minutes']} of {float(wanted)}, {left} days before"
    yield from taper(plan, profile, training)
    last = plan["weeks"][-1]
    if last["kind"] != "recover" or any(running(each) for each in sessions(plan) if day(each["date"]) > race.on):
        yield "no week of recovery"


def taper(plan: Json, profile: Profile, training: list[Json]) -> Iterator[str]:
    """Days 14-8 and 7-1, where there are full weeks before them."""
    race = profile.race
    if race is None or (race.on - profile.begin).days < 28:
        return
    peak = max((week_minutes(week) for week in plan["weeks"] if week["number"] >= 1), default=Fraction(0))
    counts = []
    for first, last, share in ((14, 8, Fraction(7, 10)), (7, 1, Fraction(3, 5))):
        inside = [each for each in training if last <= (race.on - day(each["date"])).days <= first]
        counts.append(len(inside))
        if sum(minutes(each["minutes"]) for each in inside) > peak * share:
            yield f"taper {first}-{last}"
    if counts != [min(4, len(profile.days))] * 2:
        yield f"days of the taper: {counts}"


def strength(plan: Json) -> Iterator[str]:
    """Limit 8."""
    hard = {day(each["date"]) for each in sessions(plan, race=True) if each["purpose"] in ("long", "race")}
    for week in plan["weeks"]:
        wanted = 0 if week["number"] < 2 or week["kind"] == "race" else 2
        if len(week["strength"]) != wanted:
            yield f"week {week['number']}: strength {len(week['strength'])}"
        for each in week["strength"]:
            if day(each["date"]) + timedelta(days=1) in hard:
                yield f"{each['date']}: eve"
            if week["number"] == 2 and not (5 <= each["minutes"] <= 8 and len(each["moves"]) == 2):
                yield f"{each['date']}: too much"


def broken_limits(plan: Json, profile: Profile) -> list[str]:
    """Every line of every limit."""
    if not plan["may_start"]:
        return ["weeks though not cleared"] if plan["weeks"] else []
    return [
        *shape(plan),
        *given_days(plan, profile),
        *beginning(plan, profile),
        *growth(plan, profile),
        *rhythm(plan, profile),
        *run_entry(plan, profile),
        *run_growth(plan, profile),
        *before_race(plan, profile),
        *strength(plan),
    ]
