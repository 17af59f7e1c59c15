"""Where the present comes from: the system, or the system moved to another start for trying things out."""

from datetime import UTC, datetime, timedelta


class SystemClock:
    """The computer's clock; with *ahead*, a clock that runs that much later."""

    def __init__(self, ahead: timedelta = timedelta()) -> None:
        """*ahead*: how much later than the computer's clock this one runs."""
        self.ahead = ahead

    @classmethod
    def starting(cls, at: datetime) -> "SystemClock":
        """A clock that shows *at* now and goes on from there."""
        return cls(at - datetime.now(UTC))

    def now(self) -> datetime:
        """The present, in UTC."""
        return datetime.now(UTC) + self.ahead
