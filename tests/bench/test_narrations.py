"""Narrations in a recogniser's style: what ``bench/score_walks.py --raw`` scores."""

import pytest

from narrations import raw, spoken
from saycheck.scoring import Labels


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ("11,482", "eleven thousand four hundred and eighty two"),
        ("12.6", "twelve point six"),
        ("3/16", "three sixteenths"),
        ("1/2", "one half"),
        ("3/2", "three halves"),
        ("0", "zero"),
    ],
)
def test_spoken_numbers(figures: str, words: str) -> None:
    """Figures are written out as they are read out."""
    assert words == spoken(figures)


def test_quotes_move_with_the_text() -> None:
    """Text and quotes lose capitals and marks together, so that each quote still stands in the text."""
    item = {"quote": "Edge: 17 mm", "part": "cutting edge", "side": "none", "state": "good"}
    given = Labels.model_validate(
        {
            "machine": "wheel loader",
            "text": "Right-hand tyre's fine. Edge: 17 mm, \u201cokay\u201d.",
            "gold": [item],
            "distractors": ["\u201cokay\u201d"],
        }
    )
    heard = raw(given)
    assert heard.text == "right hand tyre's fine edge seventeen millimetres okay"
    assert heard.gold[0].quote == "edge seventeen millimetres"
    assert heard.distractors == ["okay"]
