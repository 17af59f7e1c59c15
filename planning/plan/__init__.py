"""The whole way: starting levels, ladder, long sessions, strength, taper, race day, and what comes after."""
