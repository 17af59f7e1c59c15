"""While all that stays is loaded nothing is looked for that could go."""

import gc

import pytest

from bot.post.loading import undisturbed


@pytest.mark.parametrize("before", [True, False])
def test_garbage_is_looked_for_again_afterwards_as_it_was_before(before: bool) -> None:
    looked = gc.isenabled()
    (gc.enable if before else gc.disable)()
    try:
        with undisturbed():
            assert not gc.isenabled()
        assert gc.isenabled() is before
        assert gc.get_freeze_count() > 0
    finally:
        (gc.enable if looked else gc.disable)()
        gc.unfreeze()
