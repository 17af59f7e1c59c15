"""Days that hold no session, or no running: breaks, flags, and the days around a race."""

from dataclasses import dataclass

Days = tuple[tuple[int, int], ...]
"""Spans of days as ordinals, first and last of each."""


@dataclass(frozen=True, slots=True)
class Off:
    """*closed*: no session; *walking*: no running; *gentle*: walking that is short and light; *back*: the first days
    after an illness, smaller than those before it; *level*: nothing grows, for pain, a fever or too much work."""

    closed: Days = ()
    walking: Days = ()
    gentle: Days = ()
    back: Days = ()
    level: Days = ()

    def closes(self, on: int) -> bool:
        """The day *on* holds no session."""
        return any(first <= on <= last for first, last in self.closed)

    def walks(self, on: int) -> bool:
        """The day *on* holds no running."""
        return any(first <= on <= last for first, last in self.walking)

    def eases(self, on: int) -> bool:
        """The day *on* holds a gentle walk at most."""
        return any(first <= on <= last for first, last in self.gentle)

    def keeps(self, on: int) -> bool:
        """Nothing grows on the day *on*."""
        return any(first <= on <= last for first, last in self.level)

    def well_since(self, on: int) -> int | None:
        """The day from which on an illness is over, if the day *on* is one of the first after it."""
        return next((first for first, last in self.back if first <= on <= last), None)

    def touches(self, first: int, last: int) -> bool:
        """Some day from *first* to *last* is closed, or kept level."""
        return any(start <= last and first <= end for start, end in (*self.closed, *self.level))


NOTHING_OFF = Off()
