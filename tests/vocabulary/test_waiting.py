"""What waiting would mean, as shipped: every name in it is one, and nothing is left without a sentence."""

import pytest

from saycheck.vocabulary.load import load, shared_tables
from saycheck.vocabulary.schema import Conditions
from saycheck.vocabulary.waiting import Waiting, sentences, waiting_for

CHECKS = load("wheel-loader").checks
CONDITIONS = {one.name for table in shared_tables("conditions.toml", Conditions) for one in table.condition}
FAULTS = sorted(
    {
        one.name
        for table in shared_tables("conditions.toml", Conditions)
        for one in table.condition
        if one.form == "fault"
    }
)


def test_its_names_are_known() -> None:
    """A check or condition that is not there would never be found."""
    told = sentences()
    assert len(told) > 40
    assert set() == {name for one in told for name in one.checks} - set(CHECKS)
    assert set() == {name for one in told for name in one.conditions} - CONDITIONS


@pytest.mark.parametrize("condition", FAULTS)
def test_every_fault_has_a_sentence(condition: str) -> None:
    """Whatever the part, something is said."""
    assert waiting_for(["condition"], condition, sentences()) is not None


def test_each_is_a_short_sentence_with_a_source() -> None:
    """One sentence, no number in it, and where it is from."""
    for one in sentences():
        assert one.text.endswith("."), one.text
        assert 1 == one.text.count("."), one.text
        assert len(one.text) < 140, one.text
        assert not any(letter.isdigit() for letter in one.text), one.text
        assert one.source


@pytest.mark.parametrize(
    ("checks", "condition", "wanted"),
    [
        (["steps"], "leak", "any leak"),
        (["hose"], "leak", "hose"),  # the check is more particular than the condition
        (["hose"], "chafed", "chafed hose"),  # both are more particular than either
        (["tyre", "hose"], "leak", "tyre"),  # the first check counts
        (["hose"], "not works", "hose"),  # a good word denied
        (["steps"], "odd", None),
    ],
)
def test_the_most_particular_sentence_counts(checks: list[str], condition: str, wanted: str | None) -> None:
    """Check and condition before check before condition."""
    known = [
        Waiting(conditions=["leak"], text="any leak"),
        Waiting(checks=["hose"], text="hose"),
        Waiting(checks=["hose"], conditions=["chafed"], text="chafed hose"),
        Waiting(checks=["tyre"], text="tyre"),
    ]
    found = waiting_for(checks, condition, known)
    assert wanted == (found.text if found else None)
