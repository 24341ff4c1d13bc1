"""Finds what is said of a part: the words of the condition table, in all their forms."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from saycheck.understanding.forms import noun_forms, verb_forms
from saycheck.understanding.phrases import PhraseTable, as_usual
from saycheck.understanding.text import Mention, Reading
from saycheck.vocabulary.schema import Condition


@dataclass(frozen=True)
class Said:
    """A condition as said: its table and whether the word is a noun, adjective, verb or phrase.

    ``narrowed`` is what the same word means of the parts that another table keeps it to: a dry ram is good, a dry
    pin wants grease.
    """

    condition: Condition
    form: str
    narrowed: "Said | None" = None

    @property
    def attributive(self) -> bool:
        """Whether the word may stand before the part it is said of ("a loose bolt")."""
        return self.form == "adjective"


def sayings(condition: Condition) -> Iterator[tuple[str, str]]:
    """Every wording of a condition with its word class."""
    for noun in condition.nouns:
        for form in noun_forms(noun):
            yield form, "noun"
    for verb in condition.verbs:
        for form in verb_forms(verb):
            yield form, "adjective" if form.endswith(("ed", "ing")) else "verb"
    for adjective in condition.adjectives:
        yield adjective, "adjective"
    for phrase in condition.phrases:
        yield phrase, "phrase"


class ConditionFinder:
    """Finds conditions in a row of tokens."""

    def __init__(self, conditions: Sequence[Condition]) -> None:
        usual = as_usual(saying for condition in conditions for saying, _ in sayings(condition))
        self.table: PhraseTable[Said] = PhraseTable(usual)
        for condition in conditions:
            for saying, form in sayings(condition):
                self.table.add(saying, Said(condition, form))

    def __call__(self, reading: Reading) -> None:
        """Put a ``condition`` mention on the reading for each; the first table in the file wins a tie."""
        words = reading.all_words
        reading.mentions["condition"] = [
            Mention("condition", a, b, meant(values))
            for a, b, values in self.table.find(words)
            if not (b == a + 1 and is_name(reading, a))
        ]


def meant(values: Sequence[Said]) -> Said:
    """What a word of several tables means, and what of the parts that a table with checks narrows it to."""
    narrow = next((said for said in values[1:] if said.condition.checks), None)
    return replace(values[0], narrowed=narrow) if narrow else values[0]


def is_name(reading: Reading, at: int) -> bool:
    """Whether a word belongs to the name of a place: "Holland Scar", "Dent Farm", but not "LEAKING"."""
    if not is_capital(reading, at):
        return False
    named = {i for m in reading.of("part") for i in range(m.start, m.end)}
    beside = [i for i in (at - 1, at + 1) if 0 <= i < len(reading.tokens)]
    return any(is_capital(reading, i) and i not in named for i in beside)


def is_capital(reading: Reading, at: int) -> bool:
    """Whether a word is written with a capital and goes on small."""
    token = reading.tokens[at]
    return reading.text[token.start : token.end].istitle()


def stuff(conditions: Sequence[Condition]) -> dict[str, Said]:
    """Single nouns that are a condition only beside a part ("oil", "mud"), by word."""
    return {noun: Said(c, "noun") for c in conditions if not c.alone for noun in c.nouns}
