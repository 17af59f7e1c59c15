"""Play one seed again: `python -m tests.simulation SEED [PEOPLE DAYS]`."""

import sys
import tempfile
from pathlib import Path

from tests.simulation.run import play

seed, people, days = (int(each) for each in (*sys.argv[1:], *("5", "7")[len(sys.argv) - 2 :]))
with tempfile.TemporaryDirectory() as folder:
    for what, count in play(seed, people, days, Path(folder)).items():
        print(f"{count:6}  {what}")
