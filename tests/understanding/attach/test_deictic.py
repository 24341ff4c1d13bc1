"""Clauses that only point at the part spoken of."""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement

Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "pointed"),
    [
        ("Radiator. This one you could take home to mother.", ["radiator"]),
        ("Radiator. You could eat off it.", ["radiator"]),
        ("Fan belt is cracked, this one had a hard life.", ["fan belt"]),
        ("Radiator. Is that what you meant?", []),  # a question says nothing of the machine
        ("Radiator. My uncle had a boat once.", []),  # points at nothing
        ("This one had a hard life.", []),  # nothing was spoken of
        ("Radiator. No fluff in it.", ["radiator"]),  # what it has not
        ("Radiator. No problem.", []),  # has no name of anything
        ("Radiator. No, the left one.", []),  # puts right
        ("Joysticks. These go home.", ["control levers"]),  # "go" and "home" count right beside a part only
        (
            "Radiator. He came on Monday. It rained. It rained again.",
            ["radiator"],
        ),  # no farther than two sentences
    ],
)
def test_pointed(statements: Statements, text: str, pointed: list[str]) -> None:
    """A statement of the part before, for the weighing to tell what it is."""
    made = statements(text)
    assert pointed == [s.subject.part.name for s in made if "pointed" in s.marks]
