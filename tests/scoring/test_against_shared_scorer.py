"""Our scorer against the shared one (``../shared/score.py``): the same counts on any pair.

Walks and labels are generated at random, with the ties, overlaps, odd units and empty lists that real
ones have only now and then.
"""

import importlib.util
import random
from dataclasses import asdict
from itertools import pairwise
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from saycheck.models.walk import Walk
from saycheck.scoring import Labels, figures, score

SHARED = Path(__file__).resolve().parents[3] / "shared" / "score.py"

WORDS = ["left", "right", "lift", "cylinder", "gland", "weeps", "tyre", "bucket", "pin", "loose"]
WORDS += ["no", "cracks", "fine", "the", "oil", "twelve", "mil", "hose", "4", "don't"]
PARTS = ["lift cylinder", "bucket pin", "front tyre", "rear tyre", "engine oil", "hose", "wheel nuts"]
PARTS += ["seat-belt"]
ZONES = ["bucket", "left-side", "engine bay", ""]
SIDES = ["left", "right", "both", "none"]
STATES = ["good", "watch", "writeup", "hidden", "later"]
AMOUNTS = [(12, "mm"), (1.2, "cm"), (0.5, "in"), (12.7, "mm"), (12.05, "mm"), (40, "psi"), (2.75, "bar")]
AMOUNTS += [(5, "count"), (9, ""), (3, "finger"), (50, "percent"), (50, "%"), (20, "degC"), (68, "degF")]
AMOUNTS += [(2, "gal"), (7.57, "L"), (1, "lbf ft"), (1.356, "N m"), (0, "V"), (12.6, "V"), (4, "1//")]


@pytest.fixture(scope="module")
def shared() -> ModuleType:
    """The shared scorer as a module."""
    if not SHARED.is_file():
        pytest.skip("the shared scorer, ../shared/score.py, is not here")
    spec = importlib.util.spec_from_file_location("shared_score", SHARED)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def labels(chance: random.Random) -> dict[str, Any]:
    """Labels as the format has them, quotes cut from the text."""
    text = " ".join(chance.choices(WORDS, k=chance.randint(0, 80)))

    def quote() -> str:
        start = chance.randint(0, len(text))
        return text[start : start + chance.randint(1, 40)]

    def item() -> dict[str, Any]:
        amounts = chance.choices(AMOUNTS, k=chance.choice([0, 0, 1, 2]))
        none: list[Any] = [[], None]  # both are met in labels
        return {
            "quote": quote() or "left",
            "part": chance.choice(PARTS),
            "side": chance.choice(SIDES),
            "state": chance.choice(["good", "watch", "fault", "hidden", "later"]),
            "condition": "leak",
            "negated": chance.choice([True, False, None]),
            "measures": [{"value": v, "unit": u} for v, u in amounts] or chance.choice(none),
            "corrects": None,
        }

    return {
        "machine": "wheel loader",
        "text": text,
        "gold": [item() for _ in range(chance.randint(0, 12))],
        "distractors": [quote() or "the" for _ in range(chance.randint(0, 4))],
        "unsaid": chance.sample(PARTS, k=chance.randint(0, 4)),
    }


def heard(chance: random.Random, text: str) -> str:
    """The text itself, or as a recogniser might give it: words swapped, dropped and added."""
    if chance.random() < 0.5:
        return text
    words = [chance.choice(WORDS) if chance.random() < 0.2 else word for word in text.split()]
    return " ".join(word for word in words if chance.random() > 0.1) + chance.choice(["", " hose pin"])


def walk(chance: random.Random, text: str) -> Walk:
    """A walk of random findings, spans and checklist lines over a text."""
    cuts = sorted(chance.choices(range(len(text) + 1), k=6))
    fates = ["talk", "unclear", "finding"]

    def place() -> dict[str, int]:
        start = chance.randint(0, len(text))
        return {"char_start": start, "char_end": min(len(text), start + chance.randint(0, 40))}

    def measurement() -> dict[str, Any]:
        value, unit = chance.choice(AMOUNTS)
        return {"value": value, "unit": unit, "text": "", "value_si": value, "unit_si": unit}

    def finding(number: int) -> dict[str, Any]:
        return {
            "id": f"f{number}",
            "zone": chance.choice(ZONES),
            "part": chance.choice(PARTS),
            "side": chance.choice(SIDES),
            "check": "leaking",
            "state": chance.choice(STATES),
            "condition": "leak",
            "denied": chance.random() < 0.3,
            "heard_as": chance.choice(["", "ram", "the lift cylinder", "pin"]),
            "confidence": 0.5,
            "needs_review": chance.random() < 0.3,
            "measurements": [measurement() for _ in range(chance.choice([0, 0, 1, 2]))],
            "evidence": [place() for _ in range(chance.randint(0, 2))],
        }

    def line() -> dict[str, Any]:
        return {
            "zone": chance.choice(ZONES),
            "part": chance.choice(PARTS),
            "side": chance.choice(SIDES),
            "state": chance.choice([*STATES, "unsaid"]),
        }

    return Walk.model_validate(
        {
            "id": "w",
            "machine": {"kind": "wheel-loader"},
            "source": {"name": "text", "sha256": ""},
            "transcript": {
                "text": text,
                "words": [],
                "spans": [
                    {"char_start": a, "char_end": b, "disposition": chance.choice(fates)}
                    for a, b in pairwise(cuts)
                ],
            },
            "findings": [finding(n) for n in range(chance.randint(0, 14))],
            "checklist": [line() for _ in range(chance.randint(0, 8))],
            "made_by": {"version": "0", "vocabulary": "0"},
        }
    )


@pytest.mark.parametrize("batch", range(20))
def test_same_counts_as_shared_scorer(shared: ModuleType, batch: int) -> None:
    """Source: the shared scorer itself; 20 random pairs a batch, every count and figure equal."""
    for seed in range(batch * 20, batch * 20 + 20):
        chance = random.Random(seed)
        given = labels(chance)
        made = walk(chance, heard(chance, given["text"]))

        expected, _ = shared.score(given, made.model_dump(by_alias=True))
        actual, _ = score(Labels.model_validate(given), made)

        assert expected == asdict(actual), f"seed {seed}"
        assert shared.figures(expected) == figures(actual), f"seed {seed}"


def test_random_pairs_reach_every_count(shared: ModuleType) -> None:
    """The comparison above means something: over its pairs no count stays at zero."""
    sums: dict[str, int] = {}
    for seed in range(200):
        chance = random.Random(seed)
        given = labels(chance)
        counts, _ = score(Labels.model_validate(given), walk(chance, heard(chance, given["text"])))
        for name, number in asdict(counts).items():
            sums[name] = sums.get(name, 0) + number

    assert not [name for name, number in sums.items() if number == 0]
