"""Denial against the NegEx annotations, beside medspaCy's ConText on the same sentences in the same run.

    python bench/denial.py [--wrong] [--json]

Source: 1,200 hospital sentences with one marked term each, affirmed or negated (Chapman et al. 2001), in
``../shared/outside/negex-annotations.txt``. The set's terms stand in for our conditions: what is tested
is how far a denial reaches, not what the words mean. A term called denied counts as found; precision,
recall and F1 are those of the negated ones. The published figures are those of the tools' own authors,
whose rules may have been tuned on this very set; ours are not made for hospital language.
"""

import argparse
import json
import re
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from saycheck.scoring.figures import share

ANNOTATIONS = Path(__file__).resolve().parents[2] / "shared" / "outside" / "negex-annotations.txt"

PUBLISHED = {"NegEx, published": (0.935, 0.959, 0.947), "ConText, published": (0.984, 0.978, 0.981)}
"""Precision, recall and F1 as their README files give them."""

Place = tuple[int, int]
Denies = Callable[[str, Place], bool]
"""Sentence and place of the marked term in, whether the sentence denies it out."""


@dataclass(frozen=True)
class Annotated:
    """A sentence, the place of its marked term and whether an annotator called that negated."""

    text: str
    term: str
    place: Place
    negated: bool


def annotated(path: Path = ANNOTATIONS) -> Iterator[Annotated]:
    """The sentences of the set; the marked term stands in capitals, as a rule."""
    for line in path.read_text(encoding="utf-8", errors="replace").splitlines():
        columns = line.split("\t")
        if len(columns) == 4:
            _, term, text, verdict = map(_unquoted, columns)
            yield Annotated(text, term, _place(text, term), verdict == "Negated")


def _unquoted(cell: str) -> str:
    cell = cell.strip()
    if len(cell) > 1 and cell[0] == cell[-1] == '"':
        return cell[1:-1].replace('""', '"').strip()
    return cell


def _place(text: str, term: str) -> Place:
    """Where the term stands in capitals, else anywhere; spaces may differ, its last words be cut off."""
    words = term.split()
    for count in range(len(words), 0, -1):
        pattern = r"\s+".join(map(re.escape, words[:count]))
        match = re.search(_capitals(words[:count]), text) or re.search(pattern, text, re.IGNORECASE)
        if match is not None:
            return match.span()
    raise ValueError(f"the term '{term}' is not in its sentence: {text}")


def _capitals(words: Sequence[str]) -> str:
    return r"\s+".join(re.escape(word.upper()) for word in words)


def ours(terms: Sequence[str]) -> Denies:
    """Saycheck's denial, with the terms of the set for conditions and our own cues."""

    from saycheck.understanding.conditions import Said
    from saycheck.understanding.cues import CueFinder
    from saycheck.understanding.denial import denied
    from saycheck.understanding.phrases import PhraseTable
    from saycheck.understanding.sentences import cut
    from saycheck.understanding.text import Mention, Reading, tokens_of
    from saycheck.vocabulary.load import shared_tables
    from saycheck.vocabulary.schema import Condition, Cues

    cues = CueFinder([cue for table in shared_tables("cues.toml", Cues) for cue in table.cue])
    found: PhraseTable[bool] = PhraseTable()
    found.add_all(terms, True)
    said = Said(Condition(name="term", form="fault", state="writeup"), "noun")

    def denies(text: str, place: Place) -> bool:
        reading = Reading(text, tokens_of(text))
        cues(reading)
        inside = [i for i, t in enumerate(reading.tokens) if t.start < place[1] and t.end > place[0]]
        marked = Mention("condition", inside[0], inside[-1] + 1, said)
        words = [token.text for token in reading.tokens]
        others = [Mention("condition", a, b, said) for a, b, _ in found.find(words)]
        events = [*(m for m in others if not m.overlaps(marked)), marked]
        reading.mentions["condition"] = sorted(events, key=lambda m: m.start)
        reading.sentences = cut(reading)
        return denied(reading, marked, reading.mentions["condition"]) is not None

    return denies


def context() -> Denies:
    """medspaCy's ConText with the rules it ships, on sentences cut by medspaCy."""
    import spacy
    from loguru import logger

    logger.disable("PyRuSH")

    @cache
    def pipes() -> tuple[Any, Any, Any]:
        import medspacy.context
        import medspacy.sentence_splitting  # noqa: F401 (registers the factories)

        nlp = spacy.blank("en")
        return nlp, nlp.add_pipe("medspacy_pyrush"), nlp.add_pipe("medspacy_context")

    def denies(text: str, place: Place) -> bool:
        nlp, sentences, rules = pipes()
        doc = sentences(nlp.make_doc(text))
        doc.ents = [doc.char_span(*place, label="TERM", alignment_mode="expand")]
        return bool(rules(doc).ents[0]._.is_negated)

    return denies


@dataclass(frozen=True)
class Result:
    """Counts of the negated terms: found, missed, and affirmed ones called denied."""

    found: int
    missed: int
    false: int

    @property
    def figures(self) -> tuple[float, float, float]:
        """Precision, recall and F1."""
        precision = share(self.found, self.found + self.false) or 0.0
        recall = share(self.found, self.found + self.missed) or 0.0
        return precision, recall, share(2 * self.found, 2 * self.found + self.false + self.missed) or 0.0


def judge(sentences: Sequence[Annotated], denies: Denies) -> tuple[Result, list[Annotated]]:
    """Count, and give back the sentences that were judged wrongly."""
    verdicts = [(one, denies(one.text, one.place)) for one in sentences]
    result = Result(
        found=sum(one.negated and verdict for one, verdict in verdicts),
        missed=sum(one.negated and not verdict for one, verdict in verdicts),
        false=sum(verdict and not one.negated for one, verdict in verdicts),
    )
    return result, [one for one, verdict in verdicts if verdict != one.negated]


def main(argv: Sequence[str]) -> int:
    """Print precision, recall and F1 of each; exit status 2 where the set is not there."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--wrong", action="store_true", help="print the sentences that we judge wrongly")
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args(argv)
    if not ANNOTATIONS.is_file():
        print("../shared/outside/negex-annotations.txt is not here", file=sys.stderr)
        return 2
    sentences = list(annotated())
    result, wrong = judge(sentences, ours(sorted({one.term for one in sentences})))
    rows = {"saycheck": result.figures}
    try:
        rows["medspaCy ConText"] = judge(sentences, context())[0].figures
    except ImportError as error:
        print(f"medspaCy is not here ({error}); install bench/requirements-peer.txt", file=sys.stderr)
    rows |= PUBLISHED
    if asked.json:
        print(
            json.dumps(
                {
                    name: dict(zip(("precision", "recall", "F1"), row, strict=True))
                    for name, row in rows.items()
                }
            )
        )
    else:
        print(f"{'':<20}{'prec':>7}{'rec':>7}{'F1':>7}")
        for name, row in rows.items():
            print(f"{name:<20}" + "".join(f"{value:>7.3f}" for value in row))
    for one in wrong if asked.wrong else []:
        print(f"{'missed' if one.negated else 'false '} [{one.term}] {one.text[-160:]}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
