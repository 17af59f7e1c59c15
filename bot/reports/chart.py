"""Four weeks as one picture: readable on a phone, on a dark screen and on a light one."""

from collections.abc import Sequence
from io import BytesIO

from bot.messages import Bar
from bot.words.catalogue import catalogue

PAPER, INK, BAR, LONGEST = "#fbfaf6", "#22303c", "#3f7f93", "#d9822b"
"""The picture brings its own paper, so that it reads the same on dark and light screens."""


def weeks_png(weeks: Sequence[Bar], language: str = "en") -> bytes:
    """A PNG with one bar a week: minutes, and a mark at the longest session. The drawing library loads here."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(4.5, 3.2), dpi=160, facecolor=PAPER, layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot(facecolor=PAPER)
    words = catalogue(language)
    names = [f"{week.monday.day} {words.months[week.monday.month - 1]}" for week in weeks]
    bars = axes.bar(names, [week.minutes for week in weeks], color=BAR, width=0.6)
    axes.bar_label(bars, [f"{week.minutes:.0f}" for week in weeks], color=INK, fontsize=13, padding=2)
    longest = [week.longest_min or float("nan") for week in weeks]
    axes.scatter(names, longest, color=LONGEST, zorder=3, s=40, label=words.picture["longest"])
    axes.set_title(words.picture["minutes"], color=INK, fontsize=14, loc="left")
    axes.legend(frameon=False, labelcolor=INK, fontsize=11, loc="upper left")
    axes.set_ylim(0, max(20.0, *(week.minutes * 1.35 for week in weeks)))
    axes.tick_params(colors=INK, labelsize=12, length=0)
    axes.set_yticks([])
    for side in axes.spines.values():
        side.set_visible(False)
    picture = BytesIO()
    figure.savefig(picture, format="png", metadata={"Software": None})
    return picture.getvalue()
