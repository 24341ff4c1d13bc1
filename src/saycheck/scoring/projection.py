"""Where the labelled words stand in a text that was heard from sound and may differ from the labels."""

import re

from saycheck.scoring.labels import Place

WORD = re.compile(r"[A-Za-z0-9']+")


class Projection:
    """Maps places in the labelled text to places in the heard one, by aligning their words.

    Words are aligned at the least number of changes (Levenshtein 1966). A word replaced by another
    maps to it, a run of words to its share of the run it became; a place of which no word was heard
    maps to the empty place (0, 0).
    """

    def __init__(self, labelled: str, heard: str) -> None:
        """Align the words of the two texts."""
        self._same = labelled == heard
        self._from: list[Place] = []
        self._to: list[Place] = []
        self._index: dict[int, int] = {}
        if not self._same:
            self._align(labelled, heard)

    def __call__(self, place: Place) -> Place:
        """The place in the heard text of the words that ``place`` touches in the labelled one."""
        if self._same:
            return place
        start, end = place
        hits = [
            self._index[number]
            for number, (first, last) in enumerate(self._from)
            if first < end and last > start and number in self._index
        ]
        if not hits or not self._to:
            return 0, 0
        return self._to[min(hits)][0], self._to[max(hits)][1]

    def _align(self, labelled: str, heard: str) -> None:
        from rapidfuzz.distance import Levenshtein

        said, got = list(WORD.finditer(labelled)), list(WORD.finditer(heard))
        self._from, self._to = [m.span() for m in said], [m.span() for m in got]
        changes = Levenshtein.opcodes([m.group().lower() for m in said], [m.group().lower() for m in got])
        for change in changes:
            length = change.src_end - change.src_start
            for offset in range(length):
                share = int(offset / length * max(change.dest_end - change.dest_start, 1))
                self._index[change.src_start + offset] = min(change.dest_start + share, len(got) - 1)
