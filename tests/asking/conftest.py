"""A walk with a question of every kind, and what answers are tried on."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck import walkfolder
from saycheck.asking.matter import Matter
from saycheck.models.walk import About, Question, Source, Span, Transcript, Walk, Word
from saycheck.run import Asked, Heard, walk_of
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


@pytest.fixture(scope="session")
def walk(vocabulary: Vocabulary) -> Walk:
    """A walk read from ``TEXT``, with one question from an earlier walk; its last words were not understood."""
    words = [
        Word(text=one.group(), char_start=one.start(), char_end=one.end())
        for one in re.finditer(r"\S+", TEXT)
    ]
    place = TEXT.index(UNCLEAR)
    unclear = Span(char_start=place, char_end=len(TEXT), disposition="unclear", why="wind")
    heard = Heard(
        Transcript(text=TEXT, words=words, spans=[unclear]), Source(name="yard.txt", sha256="0" * 64)
    )
    again = Question(
        id="again-rear-none-tow-hitch-worn",
        about=About(zone="rear", part="tow hitch"),
        kind="again",
        text="Tow hitch: worn on 3 March at 8,100 h, not mentioned today. How is it now?",
    )
    return walk_of(
        heard, vocabulary, Asked("wheel-loader", walked="2025-03-09T07:40", again=lambda _: [again])
    )


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
