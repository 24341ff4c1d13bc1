"""What the scorer counts, on one short walk at a time."""

from pathlib import Path
from typing import Any

import pytest

from saycheck.models.walk import Walk
from saycheck.scoring import Labels, figures, read_labels, score
from saycheck.scoring.figures import Counts, total
from saycheck.scoring.labels import LabelsError

TEXT = "Lift cylinder left weeps a touch. Front tyre forty psi. You always look for cracks."
TEXT += " No play in the bucket pin."


def labels(**changes: Any) -> Labels:
    """Three statements and a word of teaching."""
    gold = [
        {"quote": "Lift cylinder left weeps", "part": "lift cylinder", "side": "left", "state": "watch"},
        {
            "quote": "Front tyre forty psi",
            "part": "front tyre",
            "side": "none",
            "state": "good",
            "measures": [{"value": 40, "unit": "psi"}],
        },
        {
            "quote": "No play in the bucket pin",
            "part": "bucket pin",
            "side": "none",
            "state": "good",
            "negated": True,
        },
    ]
    whole = {
        "machine": "wheel loader",
        "text": TEXT,
        "gold": gold,
        "distractors": ["You always look for cracks"],
        "unsaid": ["horn"],
    }
    return Labels.model_validate(whole | changes)


def finding(words: str, part: str, state: str, **more: Any) -> dict[str, Any]:
    """A finding made from words of the text."""
    start = TEXT.index(words)
    return {
        "id": words,
        "zone": "front",
        "part": part,
        "side": "none",
        "check": "",
        "state": state,
        "condition": "",
        "heard_as": part,
        "confidence": 1,
        "evidence": [{"char_start": start, "char_end": start + len(words)}],
    } | more


WEEPS = finding("Lift cylinder left weeps", "lift cylinder", "watch", side="left")
TYRE = finding(
    "Front tyre forty psi",
    "front tyre",
    "good",
    measurements=[{"value": 275.8, "unit": "kPa", "text": "forty psi", "value_si": 275_790, "unit_si": "Pa"}],
)
PIN = finding("No play in the bucket pin", "bucket pin", "good", denied=True)
FORTY_KPA = [TYRE["measurements"][0] | {"value": 40}]


def walk(*findings: dict[str, Any], spans: list[dict[str, Any]] | None = None) -> Walk:
    """A walk of these findings whose checklist misses the horn."""
    return Walk.model_validate(
        {
            "id": "w",
            "machine": {"kind": "wheel-loader"},
            "source": {"name": "text", "sha256": ""},
            "transcript": {"text": TEXT, "words": [], "spans": spans or []},
            "findings": list(findings),
            "checklist": [{"zone": "cab", "part": "horn", "side": "none", "state": "unsaid"}],
            "made_by": {"version": "0", "vocabulary": "0"},
        }
    )


def test_all_right() -> None:
    """A walk that says what the labels say has F1 1; a pressure in another unit is the same pressure."""
    found = figures(score(labels(), walk(WEEPS, TYRE, PIN))[0])
    for figure in ("F1", "side", "measure", "denial", "unsaid_recall"):
        assert found[figure] == 1, figure
    for figure in ("lost_silently", "called_good", "invented", "wrong_numbers", "false_unsaid"):
        assert found[figure] == 0, figure


@pytest.mark.parametrize(
    ("made", "counted"),
    [
        ([TYRE, PIN], {"lost_silently": 1}),
        ([TYRE, PIN, finding("weeps a touch", "belt", "good", needs_review=True)], {"lost_silently": 0}),
        ([WEEPS | {"state": "good"}], {"called_good": 1}),
        ([WEEPS | {"state": "good", "needs_review": True}], {"called_good": 0, "wrong_flagged": 1}),
        ([PIN | {"state": "writeup"}], {"invented": 1}),
        ([finding("look for cracks", "frame", "writeup")], {"from_talk": 1, "invented": 1}),
        ([WEEPS | {"side": "right"}], {"sided": 1, "side_right": 0}),
        ([TYRE | {"measurements": FORTY_KPA}], {"wrong_numbers": 1, "measures_right": 0}),
        ([WEEPS, WEEPS], {"found": 1, "right": 1}),  # said again, not a second finding
    ],
)  # fmt: skip
def test_kinds_of_wrong(made: list[dict[str, Any]], counted: dict[str, int]) -> None:
    """Each kind of wrong is counted as such, and a flag for review takes the silence out of it."""
    counts, _ = score(labels(), walk(*made))
    assert counted == {name: getattr(counts, name) for name in counted}


@pytest.mark.parametrize(("end", "lost"), [(32, 0), (10, 1)])
def test_unclear_words_are_not_lost(end: int, lost: int) -> None:
    """Words marked as unclear are shown to the reviewer, when at least half of them are."""
    unclear = {"char_start": 0, "char_end": end, "disposition": "unclear"}
    assert lost == score(labels(), walk(spans=[unclear]))[0].lost_silently


def test_heard_text_is_aligned() -> None:
    """Labels of the spoken text find their words in a heard text that differs."""
    given = labels(text=TEXT.replace("Lift cylinder", "Um the lift cylinder"), gold=[])
    given.gold.append(labels().gold[0].model_copy(update={"quote": "lift cylinder left weeps"}))
    assert score(given, walk(WEEPS))[0].right == 1


def test_total() -> None:
    """Counts of several walks add up, those of none are zero."""
    assert Counts(gold=3, found=2) == total([Counts(gold=1), Counts(gold=2, found=2)])
    assert Counts() == total([])


def test_no_labels(tmp_path: Path) -> None:
    """A file that is no labelled narration is refused in one sentence."""
    path = tmp_path / "walk.json"
    path.write_text("{", encoding="utf-8")
    with pytest.raises(LabelsError, match=r"walk\.json is no labelled narration \(.*\); see the format"):
        read_labels(path)
