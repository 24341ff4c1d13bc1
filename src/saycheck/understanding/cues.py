"""Finds the words that tell how a clause is meant: denied, put off, taught, hidden, taken back ..."""

from collections.abc import Sequence

from saycheck.understanding.phrases import PhraseTable, Row, as_usual
from saycheck.understanding.text import Mention, Reading
from saycheck.vocabulary.schema import Cue

# Cues that switch a cue of another category off where they cover it.
GUARDS = (
    ("not-denial", "deny"), ("not-denial", "deny-after"), ("not-hypothesis", "hypothesis"), ("not-story", "story"),
    ("not-correct", "correct"),
)  # fmt: skip


class CueFinder:
    """Finds cues; each category has a table of its own, so that categories may overlap."""

    def __init__(self, cues: Sequence[Cue]) -> None:
        self.tables: dict[str, PhraseTable[bool]] = {}
        self.form = as_usual(phrase for cue in cues for phrase in cue.phrases)
        for cue in cues:
            self.tables.setdefault(cue.category, PhraseTable(self.form)).add_all(cue.phrases, True)

    def __call__(self, reading: Reading) -> None:
        """Put the mentions of each category on the reading, under the category's name."""
        row = Row(reading.all_words, self.form)
        for category, table in self.tables.items():
            reading.mentions[category] = [Mention(category, a, b) for a, b, _ in table.find_in(row)]
        for guard, guarded in GUARDS:
            shields = reading.of(guard)
            reading.mentions[guarded] = [
                m
                for m in reading.of(guarded)
                if not any(s.start <= m.start and m.end <= s.end for s in shields)
            ]
