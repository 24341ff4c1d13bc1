"""The pipeline: one registered spaCy component for each question, on ``spacy.blank("en")``.

``understand`` runs it on a transcript and returns findings and the disposition of every character.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from typing import cast

import spacy
from spacy.language import Language
from spacy.tokens import Doc
from spacy.vocab import Vocab

from saycheck.models.walk import Finding, Span, Word
from saycheck.understanding.antecedent import settle
from saycheck.understanding.asked import weight_of
from saycheck.understanding.attach.attacher import Attacher
from saycheck.understanding.attach.joined import joined
from saycheck.understanding.attach.outdone import without_outdone
from saycheck.understanding.boundaries import lacks_marks, marked
from saycheck.understanding.conditions import ConditionFinder, stuff
from saycheck.understanding.cues import CueFinder
from saycheck.understanding.dispositions import (
    cover,
    of_doubted,
    of_findings,
    of_orphans,
    of_read_trouble,
    of_taken_back,
    of_talk,
)
from saycheck.understanding.findings import FindingMaker
from saycheck.understanding.hours import readings
from saycheck.understanding.judge import judge
from saycheck.understanding.names import NameFinder
from saycheck.understanding.one_breath import in_one_breath
from saycheck.understanding.parts import PartFinder
from saycheck.understanding.place import Places
from saycheck.understanding.play import measure_play
from saycheck.understanding.quantities import Quantities
from saycheck.understanding.resolve import Resolver
from saycheck.understanding.said_anew import said_anew
from saycheck.understanding.sentences import cut
from saycheck.understanding.statements import Statement
from saycheck.understanding.talk import end_before_story
from saycheck.understanding.text import Mention, Reading, split, tokens_of, with_neighbours
from saycheck.understanding.told_limits import hold, told_limits
from saycheck.understanding.unspoken import Unspoken
from saycheck.understanding.untold_side import side_of
from saycheck.understanding.volts import join_tenths
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load, shared_tables
from saycheck.vocabulary.schema import Clues, Conditions, Cues, Nouns, Units

# A statement is taken for talk above this probability; best F1 on the tuning narrations, writers left out.
TALK_ABOVE = 0.44
# A finding less likely right than this is none where no words say so plainly: a person is asked what was meant.
ENTERED_FROM = 0.5
MAKER = FindingMaker()

if not Doc.has_extension("reading"):
    Doc.set_extension("reading", default=None)


@dataclass
class Understood:
    """What a transcript says: findings in order of speech, and spans that cover the whole text."""

    findings: list[Finding] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    hours: float | None = None
    reading: Reading | None = None


class Tokenizer:
    """Cuts text as ``text.split`` does, into a spaCy ``Doc`` whose text is unchanged."""

    def __init__(self, vocab: Vocab) -> None:
        self.vocab = vocab

    def __call__(self, text: str) -> Doc:
        """Cut ``text``; white space becomes words of its own."""
        words, at = [], 0
        cut = list(split(text))
        for word, start, end in cut:
            if start > at:
                words.append(text[at:start])
            words.append(word)
            at = end
        if at < len(text):
            words.append(text[at:])
        doc = Doc(self.vocab, words=words, spaces=[False] * len(words))
        # A ``Doc`` puts its text together from all its words each time it is asked for it.
        doc.user_data |= {"text": text, "cut": cut}
        return doc


class Component:
    """A pipeline component that works on the reading of a ``Doc``."""

    def __init__(self, work: Callable[[Reading], None]) -> None:
        self.work = work

    def __call__(self, doc: Doc) -> Doc:
        """Add to the reading what this component finds."""
        self.work(doc._.reading)
        return doc


@Language.component("saycheck_reading")
def begin(doc: Doc) -> Doc:
    """Set up the reading: tokens without hesitations."""
    text = doc.user_data["text"]
    doc._.reading = Reading(text, tokens_of(text, doc.user_data["pauses"], doc.user_data["cut"]))
    return doc


class Clauses:
    """Component: sentences; sets marks first where the transcript has none, and reads it anew."""

    def __init__(self, kind: str, unit: str | None) -> None:
        self.kind = kind
        self.unit = unit

    def __call__(self, reading: Reading) -> None:
        """Leave ``reading.sentences``."""
        if reading.tokens and lacks_marks(reading):
            reading.tokens = marked(reading)
            reading.mentions = {}
            mentions(reading, self.kind, self.unit)
        reading.sentences = cut(reading)


@Language.factory("saycheck_clauses", default_config={"kind": "wheel-loader", "unit": None})
def clauses_factory(nlp: Language, name: str, kind: str, unit: str | None) -> Component:
    """Sentences."""
    return Component(Clauses(kind, unit))


def mentions(reading: Reading, kind: str, unit: str | None) -> None:
    """Find all mentions on the tokens of a reading."""
    nlp = pipeline(kind, unit)
    for name in ("saycheck_quantities", "saycheck_parts", "saycheck_conditions", "saycheck_cues"):
        cast(Component, nlp.get_pipe(name)).work(reading)


@Language.factory("saycheck_quantities")
def quantities_factory(nlp: Language, name: str) -> Component:
    """Numbers with their units."""
    return Component(Quantities([u for t in shared_tables("units.toml", Units) for u in t.unit]))


@Language.factory("saycheck_parts", default_config={"kind": "wheel-loader", "unit": None})
def parts_factory(nlp: Language, name: str, kind: str, unit: str | None) -> Component:
    """Parts, by the vocabulary of the machine."""
    return Component(PartFinder(load(kind, unit=unit)))


@Language.factory("saycheck_conditions")
def conditions_factory(nlp: Language, name: str) -> Component:
    """What is said of parts."""
    return Component(
        ConditionFinder([c for t in shared_tables("conditions.toml", Conditions) for c in t.condition])
    )


@Language.factory("saycheck_cues")
def cues_factory(nlp: Language, name: str) -> Component:
    """Words that tell how a clause is meant."""
    return Component(CueFinder([c for t in shared_tables("cues.toml", Cues) for c in t.cue]))


@Language.factory("saycheck_anew")
def anew_factory(nlp: Language, name: str) -> Component:
    """Numbers that are said without their point or their unit, or anew."""

    def complete(reading: Reading) -> None:
        join_tenths(reading)
        measure_play(reading)
        said_anew(reading)

    return Component(complete)


@Language.factory("saycheck_told")
def told_factory(nlp: Language, name: str) -> Component:
    """Numbers that tell how much it should be."""
    return Component(told_limits)


@Language.factory("saycheck_names", default_config={"kind": "wheel-loader", "unit": None})
def names_factory(nlp: Language, name: str, kind: str, unit: str | None) -> Component:
    """Which words name a part here."""
    nouns = [noun for table in shared_tables("nouns.toml", Nouns) for noun in table.noun]
    return Component(NameFinder(PartFinder(load(kind, unit=unit)), nouns))


class Statements:
    """Component: leaves ``reading.data["statements"]``."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        conditions = [c for t in shared_tables("conditions.toml", Conditions) for c in t.condition]
        clues = [c for t in shared_tables("clues.toml", Clues) for c in t.clue]
        self.attacher = Attacher(Resolver(vocabulary), Places(vocabulary), stuff(conditions), clues)

    def __call__(self, reading: Reading) -> None:
        """Attach what is said to the parts it is said of."""
        statements = self.attacher(reading)
        settle(reading, statements)
        statements = joined(statements)
        without_outdone(reading, statements)
        reading.data["statements"] = statements


@Language.factory("saycheck_statements", default_config={"kind": "wheel-loader", "unit": None})
def statements_factory(nlp: Language, name: str, kind: str, unit: str | None) -> Component:
    """What is said of which part."""
    return Component(Statements(load(kind, unit=unit)))


def pipeline(kind: str, unit: str | None = None) -> Language:
    """The pipeline for one machine kind, or one unit, built once for each state of the vocabulary."""
    vocabulary = load(kind, unit=unit)
    return _built(vocabulary.kind, unit, vocabulary.version)


@lru_cache(maxsize=32)
def _built(kind: str, unit: str | None, version: str) -> Language:
    named = {"kind": kind, "unit": unit}
    nlp = spacy.blank("en")
    nlp.tokenizer = Tokenizer(nlp.vocab)
    nlp.add_pipe("saycheck_reading")
    nlp.add_pipe("saycheck_quantities")
    nlp.add_pipe("saycheck_parts", config=named)
    nlp.add_pipe("saycheck_conditions")
    nlp.add_pipe("saycheck_cues")
    nlp.add_pipe("saycheck_clauses", config=named)
    nlp.add_pipe("saycheck_anew")
    nlp.add_pipe("saycheck_told")
    nlp.add_pipe("saycheck_names", config=named)
    nlp.add_pipe("saycheck_statements", config=named)
    return nlp


def pauses_of(words: Sequence[Word]) -> dict[int, float]:
    """Silence before each word in seconds, by the offset where the word begins."""
    out = {}
    for before, word in pairwise(words):
        if before.end_s is not None and word.start_s is not None:
            out[word.char_start] = max(0.0, word.start_s - before.end_s)
    return out


def reading_of(text: str, kind: str) -> Reading:
    """The reading of a text, before anything in it is attached to a part."""
    nlp = pipeline(kind)
    doc = nlp.make_doc(text)
    doc.user_data["pauses"] = {}
    return cast(Reading, nlp(doc, disable=["saycheck_statements"])._.reading)


def attached(text: str, kind: str) -> tuple[Reading, list[Statement]]:
    """The reading of a text and its statements as the rules attach them, each to the part that stands nearest."""
    reading = reading_of(text, kind)
    statements = cast(Statements, cast(Component, pipeline(kind).get_pipe("saycheck_statements")).work)
    return reading, statements.attacher(reading)


def prepared(
    text: str, kind: str, words: Sequence[Word] = (), unit: str | None = None
) -> tuple[Reading, list[Statement]]:
    """The reading of a text and its statements with numbers settled, before they are weighed."""
    nlp = pipeline(kind, unit)
    if not text.strip():
        return Reading(text, []), []
    doc = nlp.make_doc(text)
    doc.user_data["pauses"] = pauses_of(words)
    reading: Reading = nlp(doc)._.reading
    unspoken = Unspoken()
    meter = {m for m, _ in readings(reading)}
    kept = []
    for statement in reading.data["statements"]:
        statement.quantities = [(q, m) for q, m in statement.quantities if m not in meter]
        end_before_story(reading, statement)
        unspoken(reading, statement)
        says_nothing = not statement.quantities and not statement.claims
        # How much it should be is no finding of its own: "It should be five and a half."
        only_limit = statement.count is None and bool(reading.inside("told", statement.start, statement.end))
        empty = says_nothing and (only_limit or not statement.marks)
        if not empty and not statement.taken_back and not only_reads(reading, statement, meter):
            kept.append(statement)
    hold(reading, kept)
    return reading, kept


def is_told(statement: Statement, finding: Finding) -> bool:
    """Whether a finding says what its words say plainly: a number, what is not there, that it is put off or could not
    be seen, or a condition of that state.
    """
    if finding.state in statement.marks:
        return True
    if finding.denied and "pointed" in statement.marks:
        return True
    name = finding.condition.removeprefix("not ")
    said = any(claim.said.condition.name == name for claim in statement.claims)
    return bool(finding.measurements) or (said and judge(statement).state == finding.state)


def only_reads(reading: Reading, statement: Statement, meter: set[Mention]) -> bool:
    """Whether the statement says no more of the hour meter than its reading, which is a finding of its own.

    What only the encoder sees told ("the clock says nine thousand hours") is no more than that either.
    """
    if "read" in statement.marks and any(statement.start <= m.start < statement.end for m in meter):
        return True
    start, end = reading.sentences[statement.sentence]
    faulty = any(claim.said.condition.form == "fault" for claim in statement.claims)
    return (
        "hour meter" in statement.subject.part.name
        and not faulty
        and any(start <= m.start < end for m in meter)
    )


def understand(
    text: str, kind: str, words: Sequence[Word] = (), unit: str | None = None, asked: Sequence[int] = ()
) -> Understood:
    """Read a transcript of a walk round a machine of ``kind``, of ``unit`` where that has words of its own.

    ``asked`` are the characters behind which someone asked for the same again, by a command.
    """
    reading, statements = prepared(text, kind, words, unit)
    found = Understood(reading=reading)
    talk, doubted = [], list[Statement]()
    for before, statement, after in with_neighbours(statements):
        weight = weight_of(reading, statement, statements, asked)
        if weight.shares.get("talk", 0.0) > TALK_ABOVE:
            talk.append((statement, weight))
        else:
            side = side_of(reading, statement, before, after)
            finding = MAKER(reading, statement, list(words), weight, side)
            if finding.confidence < ENTERED_FROM and not is_told(statement, finding):
                doubted.append(statement)
            else:
                found.findings.append(finding)
    for mention, value in readings(reading):
        found.hours = value
        found.findings.append(MAKER.hour_meter(reading, mention, value, list(words)))
    found.findings.sort(key=lambda f: f.evidence[0].char_start)
    found.findings = in_one_breath(text, found.findings)
    for number, finding in enumerate(found.findings, 1):
        finding.id = f"f{number:03}"
    pieces = of_findings(found.findings)
    if reading.tokens:
        pieces += of_talk(reading, talk, statements)
        pieces += of_doubted(reading, doubted, statements)
        pieces += of_orphans(reading, reading.data["orphans"])
        pieces += of_taken_back(reading, reading.data["statements"], reading.data["taken"])
        pieces += of_read_trouble(reading, pieces)
    found.spans = cover(text, pieces)
    return found
