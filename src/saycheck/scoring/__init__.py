"""How well a walk was understood: walks against labelled narrations, heard words against said ones.

Nothing else in saycheck imports this; it serves ``bench/`` and the tests, and a shop that labels walks
of its own.
"""

from saycheck.scoring.count import Detail, score
from saycheck.scoring.figures import Counts, figures
from saycheck.scoring.labels import Labels, read_labels
from saycheck.scoring.words import WordErrors, word_errors

__all__ = ["Counts", "Detail", "Labels", "WordErrors", "figures", "read_labels", "score", "word_errors"]
