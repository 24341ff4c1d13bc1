"""What a statement means for the owner, by the rules alone: on conditions made by hand."""

import pytest

from saycheck.understanding.conditions import Said
from saycheck.understanding.judge import Verdict, judge, state_of
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.resolve import Resolved
from saycheck.understanding.statements import Claim, Statement, Subject
from saycheck.understanding.text import Mention
from saycheck.vocabulary.schema import Condition

CONDITIONS = {
    "leak": Condition(name="leak", form="fault", state="writeup", slight="watch"),
    "weep": Condition(name="leak", form="fault", state="watch", strong="writeup"),
    "worn": Condition(name="worn", form="fault", state="watch", strong="writeup", wear=True),
    "good": Condition(name="good", form="fine", state="good", slight="watch"),
    "works": Condition(name="works", form="fine", state="good"),
    "due": Condition(name="due", form="fault", state="watch", denial="watch"),
}
HERE = Mention("condition", 0, 1)


def claim(name: str, denied: bool = False, degree: str | None = None) -> Claim:
    """A condition as said."""
    return Claim(Said(CONDITIONS[name], "adjective"), HERE, denied, degree)


def statement(*claims: Claim, marks: str = "", quantity: bool = False) -> Statement:
    """A statement about a part without name, with marks and perhaps a number."""
    made = Statement(Subject(Resolved("part", None, "front"), None, 0, 1), 0, 0, 1, list(claims))
    made.marks = set(marks.split())
    made.quantities = [(Quantity(5, "mm", 0.5), HERE)] if quantity else []
    return made


@pytest.mark.parametrize(
    ("given", "state"),
    [
        (claim("leak"), "writeup"),
        (claim("leak", degree="slight"), "watch"),  # "a touch of a leak"
        (claim("leak", degree="strong"), "writeup"),  # no heavier state given: its own stays
        (claim("weep"), "watch"),
        (claim("weep", degree="strong"), "writeup"),  # "really weeping"
        (claim("weep", degree="slight"), "watch"),
        (claim("leak", denied=True), "good"),  # "no leaks"
        (claim("leak", denied=True, degree="slight"), "good"),
        (claim("good"), "good"),
        (claim("works", denied=True), "writeup"),  # "doesn't work"
        (claim("due", denied=True), "watch"),  # what a denial means is in the table
    ],
)
def test_one_claim(given: Claim, state: str) -> None:
    """A condition means what its table says: flatly, made little or much of, or denied."""
    assert state == state_of(given)


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (statement(claim("leak")), Verdict("writeup", "leak")),
        (statement(claim("good")), Verdict("good", "good")),
        (statement(claim("leak", denied=True)), Verdict("good", "leak", denied=True)),
        (statement(claim("works", denied=True)), Verdict("writeup", "not works")),
        (statement(claim("good"), claim("leak")), Verdict("writeup", "leak")),  # the worst counts
        (statement(claim("leak"), claim("weep")), Verdict("writeup", "leak")),
        (statement(claim("leak", denied=True), claim("weep")), Verdict("watch", "leak")),
        (statement(claim("worn")), Verdict("watch", "worn", worn=True)),  # asks for a number
        (statement(claim("worn", denied=True)), Verdict("good", "worn", denied=True)),
    ],
)
def test_claims(given: Statement, expected: Verdict) -> None:
    """The worst of what is said decides; a defect that is denied is known to be denied."""
    assert expected == judge(given)


@pytest.mark.parametrize(
    ("marks", "state"),
    [
        ("keep-an-eye", "watch"),  # "leaking, keep an eye on it"
        ("needs-work", "writeup"),
        ("keep-an-eye needs-work", "writeup"),  # the heavier word wins
        ("hidden", "writeup"),  # what was seen was seen
        ("later", "writeup"),
    ],
)
def test_marks_on_a_fault(marks: str, state: str) -> None:
    """What the walker says of a fault weighs more than the word for it."""
    assert state == judge(statement(claim("leak"), marks=marks)).state


@pytest.mark.parametrize(
    ("marks", "state"),
    [
        ("keep-an-eye", "watch"),  # "good, but keep an eye on it"
        ("hidden", "hidden"),  # what could not be seen is never good
        ("later", "later"),
        ("", "good"),
    ],
)
def test_marks_on_what_is_fine(marks: str, state: str) -> None:
    """Good with a "but" is not good."""
    assert state == judge(statement(claim("good"), marks=marks)).state


def test_work_wanted_makes_a_watch_a_writeup() -> None:
    """A small fault that needs doing is written up."""
    assert "writeup" == judge(statement(claim("weep"), marks="needs-work")).state


@pytest.mark.parametrize(
    ("marks", "expected"),
    [
        ("later", Verdict("later", "later")),
        ("hidden", Verdict("hidden", "hidden")),
        ("absent", Verdict("writeup", "missing")),  # "no fire extinguisher"
        ("needs-work", Verdict("writeup", "needs work")),
        ("keep-an-eye", Verdict("watch", "watch")),
        ("exception", Verdict("writeup", "needs work")),
        ("", Verdict("good", "mentioned")),
    ],
)
def test_marks_alone(marks: str, expected: Verdict) -> None:
    """A statement without a condition is judged by its marks."""
    assert expected == judge(statement(marks=marks))


def test_exception_turns_the_word_round() -> None:
    """ "All tight except two": the two are not tight, and that is a fault."""
    assert Verdict("writeup", "not good") == judge(statement(claim("good"), marks="exception"))


def test_number_alone() -> None:
    """A number alone says that it was measured; whether it is within a limit is decided elsewhere."""
    assert Verdict("good", "measured") == judge(statement(quantity=True))
