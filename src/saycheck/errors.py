"""The one base class of everything that can go wrong for a user.

A message is one sentence: what failed, the value, what to do next. The command line prints it on
standard error without a traceback and leaves with status 2.
"""


class SaycheckError(Exception):
    """Base of all errors a user can meet; ``str(error)`` is the sentence to show."""


class SoundError(SaycheckError):
    """A recording that cannot be read, is empty, or holds nothing to hear."""


class EarError(SaycheckError):
    """A recogniser whose model or package is missing or wrong."""


class VocabularyError(SaycheckError):
    """A vocabulary file that does not say what it should; names file and line."""


class MachineError(SaycheckError):
    """A machine kind that no vocabulary describes."""


class WalkError(SaycheckError):
    """A walk folder that is missing, unreadable, already taken or of another version."""


class SumError(SaycheckError):
    """A sum asked for outside the range in which it holds, or from values that cannot be."""


class ReviewError(SaycheckError):
    """An edit, a photograph or a request that cannot be taken as it is."""


class HistoryError(SaycheckError):
    """A history that cannot be answered: no such unit, no such folder, a database that refuses."""


class WriteUpError(SaycheckError):
    """A write-up that cannot be made, or would take the place of a file that someone may need."""
