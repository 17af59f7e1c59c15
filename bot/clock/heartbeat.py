"""The one heartbeat. Who is due is data in an indexed table; the scheduler only asks again and again."""

from collections.abc import Callable

from apscheduler.schedulers.background import BackgroundScheduler

EVERY_SECONDS = 15


class Heartbeat:
    """Calls *beat* every few seconds on a thread of its own, never twice at once, however late."""

    def __init__(self, beat: Callable[[], None], seconds: float = EVERY_SECONDS) -> None:
        """*beat*: does what is due; *seconds*: time between two calls."""
        self.scheduler = BackgroundScheduler(timezone="UTC")
        self.scheduler.add_job(
            beat, "interval", seconds=seconds, coalesce=True, max_instances=1, misfire_grace_time=None
        )

    def start(self) -> None:
        """Begin to beat."""
        self.scheduler.start()

    def stop(self) -> None:
        """Finish the beat in hand and stop."""
        self.scheduler.shutdown(wait=True)
