"""Minutes a week and those still going, as a picture with its own paper: the same on dark and light screens."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from bot.reports.chart import BAR, INK, LONGEST, PAPER
from bot.trial.totals import WeekTotals

COLOURS = (BAR, LONGEST)
STYLES = ("-", "--")
"""Two lines differ in more than colour."""


@dataclass(frozen=True, slots=True)
class Line:
    """The weeks of one trial, and by which rules its people were spoken to."""

    name: str
    weeks: tuple[WeekTotals, ...]


def draw(lines: Sequence[Line]) -> Figure:
    """The picture, not yet written anywhere."""
    figure = Figure(figsize=(7, 6), dpi=140, facecolor=PAPER, layout="constrained")
    upper, lower = figure.subplots(2, 1, sharex=True)
    for line, colour, style in zip(lines, COLOURS, STYLES, strict=False):
        numbers = [each.number for each in line.weeks]
        told = {"color": colour, "linestyle": style, "linewidth": 2, "label": line.name}
        upper.plot(numbers, [each.minutes for each in line.weeks], **told)
        lower.plot(numbers, [each.going for each in line.weeks], **told)
    _dress(upper, "minutes a week, a person who began")
    _dress(lower, "still going, of 100")
    lower.set_ylim(0, 102)
    upper.legend(frameon=False, labelcolor=INK)
    lower.set_xlabel("week (invented people: says nothing about real ones)", color=INK)
    return figure


def _dress(axes: Axes, title: str) -> None:
    axes.set_facecolor(PAPER)
    axes.set_title(title, color=INK, loc="left")
    axes.set_ylim(bottom=0)
    axes.tick_params(colors=INK)
    axes.grid(axis="y", color=INK, alpha=0.15)
    for side in axes.spines.values():
        side.set_visible(False)


def save(lines: Sequence[Line], name: str) -> None:
    """Write the picture to the file *name*, as PNG or SVG by its ending; the same lines give the same bytes."""
    kind = Path(name).suffix[1:].lower()
    metadata = {"Date": None} if kind == "svg" else {"Software": None}
    with rc_context({"svg.hashsalt": "lamppost"}):
        draw(lines).savefig(name, format=kind, metadata=metadata)
