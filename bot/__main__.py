"""`python -m bot`: the same as the command `lamppost`."""

import sys

from bot.cli import main

sys.exit(main())
