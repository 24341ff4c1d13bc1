"""What a user could put together alone: medspaCy with our word lists, its own ConText, sides by keyword.

medspaCy (Eyre et al. 2021) finds parts and conditions with its target matcher and decides with ConText
(Harkema et al. 2009) what is denied, hypothetical, historical or somebody else's. A condition goes to the
nearest part of its sentence, a side to the word "left" or "right" nearest to that part. Its rules for ConText
are those it ships; nothing is tuned.
"""

from collections.abc import Iterable
from functools import cache
from typing import Any

from spacy.language import Language

from narrations import vocabulary_of
from saycheck.models.walk import (
    SCHEMA,
    ChecklistLine,
    Evidence,
    Finding,
    Machine,
    MadeBy,
    Side,
    Source,
    Span,
    Transcript,
    Walk,
)
from saycheck.understanding.conditions import sayings
from saycheck.understanding.phrases import plural
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Condition, Conditions

OWN_SENTENCES = "medspacy_pyrush"
"""medspaCy's sentence splitter; spaCy's ``sentencizer`` is three times as fast in this pipeline."""

CONTEXT = ("is_hypothetical", "is_historical", "is_family")


def read_walk(text: str, kind: str, sentences: str = OWN_SENTENCES) -> Walk:
    """A walk as this peer understands the text; the shape is ``walk.json``, nothing is ever flagged.

    ``sentences`` names the spaCy component that cuts the text into sentences.
    """
    vocabulary = vocabulary_of(kind)
    doc = pipeline(vocabulary.kind, sentences)(text)
    findings = [found for sentence in doc.sents for found in _findings(sentence, vocabulary)]
    for number, finding in enumerate(findings, 1):
        finding.id = f"f{number}"
    named = {finding.part for finding in findings}
    return Walk(
        schema=SCHEMA,
        id="peer",
        machine=Machine(kind=vocabulary.kind),
        source=Source(name="text", sha256=""),
        transcript=Transcript(
            text=text,
            words=[],
            spans=[Span(char_start=0, char_end=len(text), disposition="talk")] if text else [],
        ),
        findings=findings,
        checklist=[
            ChecklistLine(zone=line.zone, part=line.part, side=line.side, state="unsaid")
            for line in vocabulary.lines
            if line.part not in named and line.option is None
        ],
        made_by=MadeBy(version="medspacy", vocabulary=vocabulary.version),
    )


@cache
def pipeline(kind: str, sentences: str) -> Language:
    """The medspaCy pipeline for one machine kind: sentences, targets, ConText."""
    import spacy
    from loguru import logger
    from medspacy.target_matcher import TargetRule

    logger.disable("PyRuSH")  # it logs every token, which would cost the peer its speed
    nlp = spacy.blank("en")
    nlp.add_pipe(sentences)
    matcher: Any = nlp.add_pipe("medspacy_target_matcher")
    matcher.add(
        [
            TargetRule(words, "PART", metadata={"part": name})
            for words, name in part_names(vocabulary_of(kind))
        ]
    )
    matcher.add(
        [TargetRule(words, "CONDITION", metadata={"condition": table}) for words, table in condition_words()]
    )
    nlp.add_pipe("medspacy_context")
    return nlp


def part_names(vocabulary: Vocabulary) -> list[tuple[str, str]]:
    """Every name of every part with the part, singular and plural; where two parts share one, the first."""
    names: dict[str, str] = {}
    for part in vocabulary.parts:
        for saying in (*part.sayings, *part.heads):
            *front, head = saying.split()
            names.setdefault(saying, part.name)
            names.setdefault(" ".join([*front, plural(head)]), part.name)
    for shared in vocabulary.shared.values():
        for head in (shared.name, *shared.heads):
            names.setdefault(head, shared.name)
            names.setdefault(plural(head), shared.name)
    return list(names.items())


def condition_words() -> list[tuple[str, Condition]]:
    """Every form of every condition word with its table; where two tables share one, the first."""
    words: dict[str, Condition] = {}
    for table in shared_tables("conditions.toml", Conditions):
        for condition in table.condition:
            for saying, _ in sayings(condition):
                words.setdefault(saying, condition)
    return list(words.items())


def _findings(sentence: Any, vocabulary: Vocabulary) -> Iterable[Finding]:
    parts = [entity for entity in sentence.ents if entity.label_ == "PART"]
    for entity in sentence.ents:
        if entity.label_ != "CONDITION" or not parts or any(getattr(entity._, mark) for mark in CONTEXT):
            continue
        part = min(parts, key=lambda other: _gap(entity, other))
        yield _finding(entity, part, sentence, vocabulary)


def _finding(entity: Any, part: Any, sentence: Any, vocabulary: Vocabulary) -> Finding:
    condition: Condition = entity._.target_rule.metadata["condition"]
    name: str = part._.target_rule.metadata["part"]
    denied = bool(entity._.is_negated)
    state = condition.denial if denied else condition.state
    if denied and condition.form == "fine":
        state = "writeup"
    return Finding(
        id="",
        zone=next((line.zone for line in vocabulary.lines if line.part == name), ""),
        part=name,
        side=_side(part, sentence),
        check=condition.name,
        state=state,
        condition=condition.name,
        denied=denied,
        heard_as=part.text,
        confidence=1.0,
        evidence=[
            Evidence(
                char_start=min(entity.start_char, part.start_char),
                char_end=max(entity.end_char, part.end_char),
            )
        ],
    )


def _gap(one: Any, other: Any) -> int:
    """Tokens between two entities."""
    return int(max(one.start - other.end, other.start - one.end))


def _side(part: Any, sentence: Any) -> Side:
    """The side named nearest to a part in its sentence."""
    near = [token for token in sentence if token.lower_ in ("left", "right", "both", "nearside", "offside")]
    if not near:
        return "none"
    word = min(near, key=lambda token: abs(token.i - part.start)).lower_
    sides: dict[str, Side] = {"left": "left", "nearside": "left", "right": "right", "offside": "right"}
    return sides.get(word, "both")
