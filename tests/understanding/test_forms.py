"""Forms of verbs and nouns made by rule."""

import pytest

from saycheck.understanding.forms import noun_forms, verb_forms


@pytest.mark.parametrize(
    ("verb", "expected"),
    [
        ("crack", "crack cracks cracked cracking"),
        ("drip", "drip drips dripped dripping"),  # doubles its last letter
        ("chafe", "chafe chafes chafed chafing"),
        ("bulge", "bulge bulges bulged bulging"),
        ("corrode", "corrode corrodes corroded corroding"),
        ("smash", "smash smashes smashed smashing"),
        ("weep", "weep weeps wept weeping"),
        ("break", "break breaks broke breaking"),
        ("tear", "tear tears tore tearing"),
        ("loosen", "loosen loosens loosened loosening"),
    ],
)
def test_verb_forms(verb: str, expected: str) -> None:
    """A verb gives its base, third person, past and -ing form."""
    assert expected.split() == list(verb_forms(verb))


@pytest.mark.parametrize(
    ("noun", "expected"),
    [
        ("leak", ["leak", "leaks"]),
        ("oil leak", ["oil leak", "oil leaks"]),  # only the head changes
        ("patch", ["patch", "patches"]),
        ("star crack", ["star crack", "star cracks"]),
    ],
)
def test_noun_forms(noun: str, expected: list[str]) -> None:
    """A noun gives its singular and plural."""
    assert expected == list(noun_forms(noun))
