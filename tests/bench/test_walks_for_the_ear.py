"""What the ears learn from narrations."""

import json
from pathlib import Path

import pytest

from narrations import ASIDE, TUNE, narrations
from walks_for_the_ear import HEAD, HEARD, lines, main, runs, told, written

ROOT = Path(__file__).parents[2]
LONG = 12
"""Words of a breath that two people do not say alike by chance."""


def narration(folder: Path, name: str, text: str) -> None:
    """Keep a narration without labels."""
    labels = {"machine": "wheel loader", "text": text, "gold": [], "distractors": [], "unsaid": []}
    (folder / f"{name}.json").write_text(json.dumps(labels), encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("tyre is good", ["tyre is good"]),
        ("Brindle tyre is good", ["tyre is good"]),
        ("tyre at Brindle is good", ["tyre at", "is good"]),
        ("Brindle", []),
    ],
)
def test_a_breath_ends_where_a_word_is_left_out(words: str, expected: list[str]) -> None:
    """What stood on both sides of it was not said one behind the other."""
    assert expected == list(runs(words.split(), {"tyre", "is", "at", "good"}))


def test_told(tmp_path: Path) -> None:
    """Words that two narrations say are learned, one breath a line, nothing of writers that hearing is tuned on."""
    narration(tmp_path, "w50-01", "Tyre's good. Pin is loose at Brindle.")
    narration(tmp_path, "w51-01", "Pin is loose. Tyre's good.")
    narration(tmp_path, "w9-01", "Hose is wet.")
    assert [["tyre's good", "pin is loose"], ["pin is loose", "tyre's good"]] == told(tmp_path)


def test_written() -> None:
    """An empty line ends a walk; the first line tells where the file comes from."""
    assert HEAD + "tyre's good\npin is loose\n\nhose is wet\n" == written(
        [["tyre's good", "pin is loose"], ["hose is wet"]]
    )


def test_usage(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a folder and a file it says how it is used."""
    monkeypatch.setattr("sys.argv", ["walks_for_the_ear.py"])
    assert 2 == main()
    assert "FOLDER OUT.txt" in capsys.readouterr().err


def test_nothing_that_hearing_is_measured_on() -> None:
    """No long breath of a narration kept aside, or of a writer that hearing is tuned on, is what the ears learned."""
    learned = (ROOT / "vocab" / "shared" / "talk" / "narrated.txt").read_text(encoding="utf-8")
    kept = [
        *narrations(ASIDE),
        *(one for one in narrations(TUNE) if one.writer in HEARD),
    ]
    breaths = {line for one in kept for line in lines(one.labels.text) if len(line.split()) >= LONG}
    assert len(breaths) > len(kept)
    assert not breaths & set(learned.splitlines())
