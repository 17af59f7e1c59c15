"""What to do after one event: each function gives a session, or what is left of it, and the names of its reasons."""

from planning.step.allowance import allowance
from planning.step.cap import stretch_only
from planning.step.come_back import Fever, come_back, may_start_again
from planning.step.larger import ceiling, step_up
from planning.step.move import move
from planning.step.next_step import Today, next_step
from planning.step.rescue import rescue
from planning.step.resize import resize
from planning.step.smaller import ease, shrink, soften, step_down, swap
from planning.step.weather import is_hot, weather_step

__all__ = [
    "Fever",
    "Today",
    "allowance",
    "ceiling",
    "come_back",
    "ease",
    "is_hot",
    "may_start_again",
    "move",
    "next_step",
    "rescue",
    "resize",
    "shrink",
    "soften",
    "step_down",
    "step_up",
    "stretch_only",
    "swap",
    "weather_step",
]
