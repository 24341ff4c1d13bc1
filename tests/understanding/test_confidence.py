"""How sure a finding is, and why a person should look at it."""

import pytest

from saycheck.understanding import confidence as surety
from saycheck.understanding.confidence import REVIEW_BELOW, confidence, features, reasons, step
from saycheck.understanding.judge import Verdict
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.weigh import Weight

SURE = Weight({"good": 0.97, "watch": 0.01, "writeup": 0.01, "talk": 0.01})
DOUBT = Weight({"good": 0.6, "watch": 0.1, "writeup": 0.2, "talk": 0.1})
TALK = Weight({"good": 0.1, "writeup": 0.5, "talk": 0.4})


def statement(carried: bool = False, known: bool = True) -> Statement:
    """A statement about a part of the list, or of none; named here or a sentence ago."""
    if known:
        made = prepared("Bucket is good.", "wheel-loader")[1][0]
        made.subject.carried = carried
        return made
    return Statement(Subject(Resolved("spice rack", None, "cab"), None, 0, 1, carried=carried), 0, 0, 1)


@pytest.mark.parametrize(("value", "size", "expected"), [(0.97, 0.1, 9), (0.0, 0.1, 0), (0.97, 0.05, 19)])
def test_step(value: float, size: float, expected: int) -> None:
    """A share falls into a step of the given size."""
    assert expected == step(value, size)


@pytest.mark.parametrize(
    ("subject", "verdict", "weight", "ruled", "sure", "expected"),
    [
        # nothing to look at
        ({}, Verdict("good", "good"), SURE, "good", 0.95, []),
        # the costly mistake: called good where trouble is likely, or where the rules say trouble
        ({}, Verdict("good", "good"), DOUBT, "good", 0.95, ["said to be good, or is it?"]),
        ({}, Verdict("good", "good"), SURE, "writeup", 0.95, ["said to be good, or is it?"]),
        ({}, Verdict("writeup", "crack"), TALK, "writeup", 0.4, ["a finding, or only talk?"]),
        ({"known": False}, Verdict("good", "good"), SURE, "good", 0.4, ["part is not on the list"]),
        ({"carried": True}, Verdict("good", "good"), SURE, "good", 0.4, ["part was named earlier"]),
        ({}, Verdict("watch", "worn"), SURE, "writeup", 0.4, ["watch, or writeup?"]),
        # unsure for no reason that can be named
        ({}, Verdict("good", "good"), SURE, "good", 0.4, ["not sure of the state"]),
    ],
)
def test_reasons(
    subject: dict[str, bool], verdict: Verdict, weight: Weight, ruled: str, sure: float, expected: list[str]
) -> None:
    """Each reason to look is told in plain words."""
    assert expected == reasons(statement(**subject), verdict, weight, ruled, sure)


@pytest.mark.parametrize("sure", [0.0, REVIEW_BELOW - 0.01])
def test_below_the_threshold_somebody_looks(sure: float) -> None:
    """A finding less likely right than the threshold is never passed without a look."""
    assert reasons(statement(), Verdict("good", "good"), SURE, "good", sure)


def test_without_weights_the_share_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing was fitted the probability of the weighing itself is the confidence."""
    monkeypatch.setattr(surety, "trained", lambda name: None)
    assert 0.97 == confidence([], SURE, "good")


def test_surer_is_surer() -> None:
    """A plain statement that the rules and the weighing agree on is surer than one in doubt."""
    made, verdict = statement(), Verdict("good", "good")
    plain = confidence(features(made, verdict, SURE, "good", None), SURE, "good")
    doubted = confidence(features(made, verdict, DOUBT, "writeup", "hypothesis"), DOUBT, "good")
    assert 1 >= plain > doubted >= 0
