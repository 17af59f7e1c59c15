"""Records whose process dies at a chosen commit, before it took effect or after it did."""

from enum import Enum

from sqlalchemy.orm import Session

from bot.store.unit import Store


class Crash(BaseException):
    """The process died here. No handler of ours may catch it."""


class When(Enum):
    BEFORE = "before"
    AFTER = "after"


class DyingStore(Store):
    """Dies at the *at*-th commit, counted from 1."""

    at: int
    when: When
    count = 0

    def commit(self, tx: Session) -> None:
        self.count += 1
        if self.count == self.at and self.when is When.BEFORE:
            raise Crash
        super().commit(tx)
        if self.count == self.at and self.when is When.AFTER:
            raise Crash


def dying(url: str, at: int, when: When) -> DyingStore:
    store = DyingStore.open(url)
    assert isinstance(store, DyingStore)
    store.at, store.when = at, when
    return store
