"""Narrations in a recogniser's style: what ``bench/score_walks.py --raw`` scores."""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from saycheck.scoring import Labels

BENCH = Path(__file__).resolve().parents[2] / "bench"


@pytest.fixture(scope="module")
def narrations() -> ModuleType:
    """The module ``bench/narrations.py``."""
    spec = importlib.util.spec_from_file_location("narrations", BENCH / "narrations.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["narrations"] = module
    spec.loader.exec_module(module)
    return module


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
def test_spoken_numbers(narrations: ModuleType, figures: str, words: str) -> None:
    """Figures are written out as they are read out."""
    assert words == narrations.spoken(figures)


def test_quotes_move_with_the_text(narrations: ModuleType) -> None:
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
    heard = narrations.raw(given)
    assert heard.text == "right hand tyre's fine edge seventeen millimetres okay"
    assert heard.gold[0].quote == "edge seventeen millimetres"
    assert heard.distractors == ["okay"]
