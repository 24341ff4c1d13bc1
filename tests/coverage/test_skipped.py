"""Questions about what was not looked at."""

import pytest

from saycheck.coverage.checklist import checklist
from saycheck.coverage.skipped import not_seen, skipped
from saycheck.vocabulary.compiled import Vocabulary

from .conftest import Say


@pytest.mark.parametrize(
    ("spoken", "zone", "text"),
    [
        (
            ["counterweight"],
            "rear",
            "Rear: rear hoses not mentioned. Looked at?",
        ),
        (
            [],
            "rear",
            "Rear: nothing mentioned (rear hoses and counterweight). Looked at?",  # what can hurt first
        ),
        (
            ["headlight"],  # both
            "lights",
            "Lights: work lights and beacon not mentioned. Looked at?",
        ),
        (
            [],
            "left side",  # no need to say left six times
            "Left side: nothing mentioned (front tyre, front wheel nuts, rear tyre, rear wheel nuts, "
            "lift cylinder and articulation joint). Looked at?",
        ),
        (
            ["horn", "seat belt"],
            "cab",
            "Cab: left and right mirrors, cab glass, rear screen and hour meter not mentioned. Looked at?",
        ),
        (
            [],
            "cab",
            "Cab: nothing mentioned (seat belt, horn, left and right mirrors, cab glass, rear screen and "
            "hour meter). Looked at?",
        ),
    ],
)
def test_skipped(toy: Vocabulary, say: Say, spoken: list[str], zone: str, text: str) -> None:
    """One question names what was skipped in a zone, the dangerous parts first."""
    asked = {q.about.zone: q for q in skipped(toy, checklist(toy, [say(part) for part in spoken]))}

    assert (text, "skipped", None) == (asked[zone].text, asked[zone].kind, asked[zone].about.part)


def test_skipped_in_walking_order(toy: Vocabulary) -> None:
    """Zones come in the order in which one walks."""
    assert [zone.name for zone in toy.zones] == [q.about.zone for q in skipped(toy, checklist(toy, []))]


def test_nothing_skipped(toy: Vocabulary, say: Say) -> None:
    """A zone of which all was spoken is not asked about."""
    lines = checklist(toy, [say("counterweight"), say("rear hoses")])

    assert "rear" not in [q.about.zone for q in skipped(toy, lines)]


@pytest.mark.parametrize(
    ("state", "side", "text"),
    [
        ("hidden", "left", "Left lift cylinder: could not be seen. Uncover and look again?"),
        ("later", "none", "Lift cylinder: put off. Done now?"),
    ],
)
def test_not_seen(say: Say, state: str, side: str, text: str) -> None:
    """What could not be seen or was put off is asked for, with its evidence."""
    found = say("lift cylinder", state, side=side)
    (asked,) = not_seen([found])

    assert (text, state, found.evidence) == (asked.text, asked.kind, asked.evidence)


@pytest.mark.parametrize(
    ("after", "asked"),
    [
        ({"state": "good", "side": "left"}, 0),
        ({"state": "good", "side": "both"}, 0),
        ({"state": "good", "side": "right"}, 1),  # the other one
        ({"state": "hidden", "side": "left"}, 1),  # asked once, not twice
        ({"part": "lift cylinder rod", "side": "left"}, 1),  # the rod is not the cylinder
    ],
)
def test_settled(say: Say, after: dict[str, str], asked: int) -> None:
    """What was looked at after all is not asked for."""
    said = [
        say("lift cylinder", "hidden", side="left"),
        say(**{"part": "lift cylinder", "line": "lift cylinder", **after}),
    ]

    assert asked == len(list(not_seen(said)))
