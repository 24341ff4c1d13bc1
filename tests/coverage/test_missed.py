"""What to walk back for, and in which order."""

import pytest

from saycheck.coverage.checklist import checklist
from saycheck.coverage.missed import missed
from saycheck.coverage.questions import questions
from saycheck.models.walk import Finding, Machine
from saycheck.vocabulary.compiled import Vocabulary

from .conftest import Say, Walked


def all_but(toy: Vocabulary, say: Say, left_out: list[str], last: str) -> list[Finding]:
    """Everything is good but some parts; the walk ends with the part ``last``."""
    parts = [part for part in toy.parts if not part.option and part.name not in (*left_out, last)]
    return [say(p.name, side="both" if p.sided else "none") for p in [*parts, toy.part(last)]]


@pytest.mark.parametrize(
    ("left_out", "last", "zones"),
    [
        ([], "horn", []),
        (["bucket"], "horn", ["front"]),
        (["bucket", "counterweight"], "fuel filter", ["rear", "front"]),  # at the rear already
        (["bucket", "counterweight"], "bucket", ["rear"]),
        (["horn", "hydraulic tank"], "cutting edge", ["cab", "right side"]),
        (["horn", "hydraulic tank", "counterweight"], "cutting edge", ["cab", "rear", "right side"]),
        (["bucket", "hydraulic tank"], "horn", ["front", "right side"]),  # back past the front
        (["counterweight", "engine", "coolant"], "horn", ["rear", "engine bay", "fluids"]),  # one stop
        (["front tyre"], "horn", ["left side", "right side"]),
    ],
)
def test_way(
    toy: Vocabulary, say: Say, walked: Walked, left_out: list[str], last: str, zones: list[str]
) -> None:
    """Stops come by the shortest way from where the walk ended."""
    assert zones == [stop.zone for stop in missed(toy, walked(all_but(toy, say, left_out, last)))]


@pytest.mark.parametrize("state", ["unsaid", "hidden", "later"])
def test_lines(toy: Vocabulary, say: Say, walked: Walked, state: str) -> None:
    """What was skipped, hidden or put off is to be looked at."""
    found = all_but(toy, say, ["fan belt"], "horn")
    if state != "unsaid":
        found.append(say("fan belt", state))
    (stop,) = missed(toy, walked(found))

    assert ("engine bay", "none", [("fan belt", state)]) == (
        stop.zone,
        stop.side,
        [(line.part, line.state) for line in stop.lines],
    )


def test_questions_of_a_stop(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """A stop has the questions of its zone, without that for the skipped parts its lines name."""
    found = [
        *all_but(toy, say, ["bucket", "cutting edge"], "horn"),
        say("cutting edge", "watch", condition="worn"),
    ]
    (stop,) = missed(toy, walked(found))

    assert (["bucket"], ["How thick is the cutting edge?"]) == (
        [line.part for line in stop.lines],
        [question.text for question in stop.questions],
    )


def test_whole_walk_has_no_stop(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """Nobody walks back for the name of the unit."""
    found = all_but(toy, say, [], "horn")

    assert [] == missed(toy, walked(found, machine=Machine(kind=toy.kind, hours=1.0)))


def test_answered_questions_stay_answered(toy: Vocabulary, say: Say, walked: Walked) -> None:
    """A walk whose checklist is made keeps the questions it has, even where that is none."""
    found = [*all_but(toy, say, ["cutting edge"], "horn"), say("cutting edge", "watch", condition="worn")]
    walk = walked(found)
    asked = questions(toy, walk)

    assert 1 == len(asked)
    assert ["front"] == [stop.zone for stop in missed(toy, walk)]
    assert [] == missed(toy, walked(found, checklist=checklist(toy, found), questions=[]))


def test_nothing_said(toy: Vocabulary, walked: Walked) -> None:
    """A walk without a finding is walked from the start."""
    assert "front" == missed(toy, walked())[0].zone
    assert {zone.name for zone in toy.zones} == {stop.zone for stop in missed(toy, walked())}
