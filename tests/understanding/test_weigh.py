"""The weighing of a statement: probabilities of each state and of talk."""

import pytest

from saycheck.understanding import weigh as weighing
from saycheck.understanding.judge import TROUBLE
from saycheck.understanding.linear import STANDING_IN, Linear, trained
from saycheck.understanding.pipeline import prepared, understand
from saycheck.understanding.statements import region_end
from saycheck.understanding.text import plain_word
from saycheck.understanding.weigh import STATES, Weight, features, is_plain, weigh

KIND = "wheel-loader"


@pytest.mark.parametrize(
    ("shares", "best", "state"),
    [
        ({"talk": 0.6, "good": 0.3, "writeup": 0.1}, "talk", "good"),  # talk is no state
        ({"talk": 0.1, "good": 0.2, "writeup": 0.7}, "writeup", "writeup"),
        ({"talk": 0.0, "hidden": 1.0}, "hidden", "hidden"),
    ],
)
def test_weight(shares: dict[str, float], best: str, state: str) -> None:
    """The likeliest of all, and the likeliest state."""
    weight = Weight(shares)
    assert (best, state) == (weight.best, weight.state)


@pytest.mark.parametrize(("word", "expected"), [("48", "0"), ("3/16", "0"), ("cracked", "cracked")])
def test_figures_are_one_word(word: str, expected: str) -> None:
    """Which number was said tells nothing of the state: all figures are one feature."""
    assert expected == plain_word(word)


def test_region_ends_at_the_next_statement() -> None:
    """Words behind a statement count for it up to the next one, or the end of the sentence."""
    reading, made = prepared("Horn works loud and clear, seat belt is torn badly.", KIND)
    assert [made[1].start, reading.sentences[0][1]] == [region_end(reading, s, made) for s in made]


def test_features_hold_what_the_rules_say() -> None:
    """The model sees the verdict of the rules and the kind of talk beside the words."""
    reading, made = prepared("If the bucket is cracked we stop.", KIND)
    found = set(features(reading, made[0], made))
    assert {"rule=writeup", "talk=hypothesis", "w=cracked", "pre=if", "hypothesis:before"} <= found


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bucket is good.", {"good": 1.0}),
        ("If the bucket is cracked we stop.", {"talk": 1.0}),
        ("Fan belt is cracked.", {"writeup": 1.0}),
    ],
)
def test_without_weights_the_rules_decide(
    monkeypatch: pytest.MonkeyPatch, text: str, expected: dict[str, float]
) -> None:
    """Where nothing was trained the verdict of the rules stands."""
    monkeypatch.setattr(weighing, "trained", lambda name: None)
    reading, made = prepared(text, KIND)
    assert expected == weigh(reading, made[0], made).shares


@pytest.mark.parametrize(
    ("text", "state"),
    [
        ("Bucket is good.", "good"),
        ("Fan belt is cracked.", "writeup"),
        ("Tilt cylinder is weeping.", "watch"),
        ("Can't see the articulation joint for mud.", "hidden"),
        ("I'll do the horn later.", "later"),
    ],
)
def test_plain_statements(text: str, state: str) -> None:
    """What is said plainly weighs as it is said, and the shares sum to one."""
    reading, made = prepared(text, KIND)
    weight = weigh(reading, made[0], made)
    assert state == weight.state
    assert pytest.approx(1.0) == sum(weight.shares.values())
    assert {*STATES, "talk"} >= set(weight.shares)


@pytest.mark.parametrize(
    "text", ["Left front tyre is three bar.", "Rear tyre, thirty-six psi.", "Edge twenty mm."]
)
def test_a_bare_reading_is_no_write_up(text: str) -> None:
    """A number that nobody judged is not written up."""
    reading, made = prepared(text, KIND)
    assert "writeup" != weigh(reading, made[0], made).state


@pytest.mark.parametrize("text", ["Bucket pins are dry.", "Horn, nothing."])
def test_a_fault_of_this_part_alone(text: str) -> None:
    """What is good of most parts and a fault of this one weighs as a fault."""
    reading, made = prepared(text, KIND)
    assert "writeup" == weigh(reading, made[0], made).state


def test_a_condition_that_no_narration_had_leans_on_the_tables(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a table has and nothing was learned of, as a shop's own word, is not outvoted by the words around it."""
    model = trained("statements")
    assert model is not None
    rest = {name: list(model.table[row]) for name, row in model.rows.items() if "too tight" not in name}
    assert len(rest) < len(model.rows)
    monkeypatch.setitem(STANDING_IN, "statements", Linear(model.classes, list(model.bias), rest))
    (finding,) = understand("Fan belt is too tight.", "wheel-loader").findings
    assert finding.state in TROUBLE
    assert finding.condition == "too tight"


@pytest.mark.parametrize(
    "chat", ["It was a long and quiet week up here. ", "On we go round to the next one now. "]
)
def test_trouble_said_plainly_is_not_dropped(chat: str) -> None:
    """ "Bucket is cracked" among small talk may be meant or not: it is entered, for a person to look at."""
    for turns in (1, 4):
        text = ("Bucket is cracked. Seat belt works. Horn is fine. " + chat * 8) * turns
        found = understand(text, KIND).findings
        assert ["writeup"] * turns == [f.state for f in found if f.part == "bucket"]


def test_trouble_in_a_story_is_not_plain() -> None:
    """What words say is of another time or another machine is talk, and nobody is asked."""
    reading, (statement, *_) = prepared("Years ago the bucket was cracked.", KIND)
    assert not is_plain(reading, statement, 0.05)
    reading, (statement,) = prepared("Bucket is cracked.", KIND)
    assert is_plain(reading, statement, 0.05)
    assert not is_plain(reading, statement, 0.3)
