"""A walk with a question of every kind, and what answers are tried on."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck import walkfolder
from saycheck.asking.matter import Matter
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.models.walk import (
    SCHEMA,
    About,
    Evidence,
    Finding,
    Machine,
    MadeBy,
    Measurement,
    Question,
    Side,
    Source,
    Span,
    State,
    Transcript,
    Walk,
    Word,
)  # fmt: skip
from saycheck.standing import after
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

TEXT = (
    "Right, at the front. Bucket is good. Cutting edge is worn. Bucket teeth are fine. "
    "Bellcrank has three mil of play. Articulation joint, couldn't see it, full of mud. "
    "Left lift cylinder is dry. Left lift cylinder is leaking. Headlight is cracked. "
    "Battery, I'll do that later. Flimmer the wobbled thing."
)
UNCLEAR = "Flimmer the wobbled thing."


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    """That of a wheel loader."""
    return load("wheel-loader")


FOUND: tuple[tuple[str, str, str, str, str, Side, str, State], ...] = (
    ("f001", "Bucket is good", "bucket", "bucket", "front", "none", "good", "good"),
    ("f002", "Cutting edge is worn", "cutting edge", "cutting edge", "front", "none", "worn", "watch"),
    ("f003", "Bucket teeth are fine", "bucket teeth", "bucket teeth", "front", "none", "good", "good"),
    ("f004", "Bellcrank has three mil", "bellcrank", "bellcrank", "front", "none", "play", "watch"),
    ("f005", "Articulation joint, couldn't see it", "articulation joint", "articulation joint", "left side",
     "none", "hidden", "hidden"),
    ("f006", "Left lift cylinder is dry", "lift cylinder", "lift cylinder", "left side", "left", "dry", "good"),
    ("f007", "Left lift cylinder is leaking", "lift cylinder", "lift cylinder", "left side", "left", "leak",
     "writeup"),
    ("f008", "Headlight is cracked", "headlight", "headlight", "lights", "none", "crack", "writeup"),
    ("f009", "Battery, I'll do that later", "batteries", "batteries", "engine bay", "none", "later", "later"),
)  # fmt: skip
"""Id, words, part, line, zone, side, condition and state of what was found."""


def finding(
    name: str, words: str, part: str, line: str, zone: str, side: Side, condition: str, state: State
) -> Finding:
    """One of ``FOUND`` as understanding would leave it, so that these tests do not hang on its weights."""
    start = TEXT.index(words)
    three = Measurement(
        value=3,
        unit="mm",
        text="three mil",
        value_si=0.003,
        unit_si="m",
        plus_minus=0.5,
        other_units=["thou"],
    )
    return Finding(
        id=name, zone=zone, part=part, side=side, check=condition, state=state, condition=condition,
        heard_as=part, confidence=0.9, line=line, measurements=[three] if "three mil" in words else [],
        evidence=[Evidence(char_start=start, char_end=start + len(words))],
    )  # fmt: skip


@pytest.fixture(scope="session")
def walk(vocabulary: Vocabulary) -> Walk:
    """A walk over ``TEXT``, with one question from an earlier walk; its last words were not understood."""
    words = [
        Word(text=one.group(), char_start=one.start(), char_end=one.end())
        for one in re.finditer(r"\S+", TEXT)
    ]
    place = TEXT.index(UNCLEAR)
    spans = [
        Span(char_start=0, char_end=place, disposition="talk"),
        Span(char_start=place, char_end=len(TEXT), disposition="unclear", why="wind"),
    ]
    again = Question(
        id="again-rear-none-tow-hitch-worn",
        about=About(zone="rear", part="tow hitch"),
        kind="again",
        text="Tow hitch: worn on 3 March at 8,100 h, not mentioned today. How is it now?",
    )
    found = [finding(*one) for one in FOUND]
    made = Walk(
        schema=SCHEMA, id="2025-03-09-00000000", machine=Machine(kind=vocabulary.kind),
        source=Source(name="yard.txt", sha256="0" * 64),
        transcript=Transcript(text=TEXT, words=words, spans=spans), findings=found,
        checklist=checklist(vocabulary, found), walked_at="2025-03-09T07:40",
        made_by=MadeBy(version="0.1.0", vocabulary=vocabulary.version),
    )  # fmt: skip
    return made.model_copy(update={"questions": questions(vocabulary, made, [again])})


@pytest.fixture(scope="session")
def matter(walk: Walk, vocabulary: Vocabulary) -> Callable[[str], Matter]:
    """Gives the question whose id begins so."""
    standing = after(walk, [], vocabulary)

    def of(name: str) -> Matter:
        found = [one for one in walk.questions if one.id.startswith(name)]
        assert found, f"{name} is not among {[one.id for one in walk.questions]}"
        return Matter(found[0], standing, vocabulary)

    return of


@pytest.fixture
def folder(walk: Walk, tmp_path: Path) -> Path:
    """The walk as a folder."""
    path = tmp_path / "walk"
    with walkfolder.writing(path) as draft:
        draft.write(walk)
    return path
