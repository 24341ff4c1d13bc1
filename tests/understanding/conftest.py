"""What the tests of understanding share: a sentence read with one machine kind's vocabulary."""

from collections.abc import Callable

import pytest

from saycheck.understanding.judge import judge
from saycheck.understanding.pipeline import Understood, prepared, understand
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

KIND = "wheel-loader"

Read = Callable[..., Reading]
Statements = Callable[..., list[Statement]]
Rows = Callable[..., list[tuple[str, ...]]]
Understand = Callable[..., Understood]


@pytest.fixture(scope="session")
def read() -> Read:
    """Reads a text: tokens, sentences and all that is named in it."""

    def reading(text: str, kind: str = KIND) -> Reading:
        return prepared(text, kind)[0]

    return reading


@pytest.fixture(scope="session")
def statements() -> Statements:
    """Reads a text and returns its statements, as the rules make them, before they are weighed."""

    def made(text: str, kind: str = KIND) -> list[Statement]:
        return prepared(text, kind)[1]

    return made


@pytest.fixture(scope="session")
def ruled(statements: Statements) -> Rows:
    """Reads a text and returns (part, side, state, condition) of each statement by the rules alone."""

    def rows(text: str, kind: str = KIND) -> list[tuple[str, ...]]:
        out = []
        for statement in statements(text, kind):
            verdict = judge(statement)
            name = f"no {verdict.condition}" if verdict.denied else verdict.condition
            subject = statement.subject
            out.append((subject.part.name, subject.side or "none", verdict.state, name))
        return out

    return rows


@pytest.fixture(scope="session")
def understood() -> Understand:
    """Understands a text from beginning to end, with the shipped weights."""

    def result(text: str, kind: str = KIND) -> Understood:
        return understand(text, kind)

    return result


@pytest.fixture(scope="session")
def found(understood: Understand) -> Rows:
    """Understands a text and returns (part, side, state) of each finding."""

    def rows(text: str, kind: str = KIND) -> list[tuple[str, ...]]:
        return [(f.part, f.side, f.state) for f in understood(text, kind).findings]

    return rows
