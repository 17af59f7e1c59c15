"""What can be wrong with the records, told for people.

StoreError
|- NewerRecords   the file was written by a newer version of the program
|- NoRecords      nothing stands at that place, or it can't be opened
"""


class StoreError(Exception):
    """The records can't be used; the message says why and what to do."""


class NewerRecords(StoreError):
    """The file was written by a newer version: upgrade the program, or restore the backup taken before."""


class NoRecords(StoreError):
    """The place named by the URL can't be opened."""
