"""Loading what stays as long as the process: a tenth of the time goes into a search for garbage that isn't there."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def undisturbed() -> Iterator[None]:
    """No garbage is looked for meanwhile, and never again among what was loaded."""
    looked = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        if looked:
            gc.enable()
