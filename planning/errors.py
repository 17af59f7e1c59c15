"""What planning refuses.

PlanningError
├── ProfileError    what a person gave does not hold together
└── LimitBroken     our own fault: a plan outside its limits was about to leave
"""


class PlanningError(Exception):
    """Anything that planning refuses to go on with."""


class ProfileError(PlanningError):
    """A profile that does not hold together. *lines*: one for each wrong field, with its place and what to write."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        super().__init__("\n".join(lines))
        self.lines = lines


class LimitBroken(PlanningError):
    """A plan outside its limits, with the breaches. It never leaves `planning`: a more careful plan takes its place."""

    def __init__(self, breaches: tuple[object, ...]) -> None:
        super().__init__("; ".join(map(str, breaches)))
        self.breaches = breaches
