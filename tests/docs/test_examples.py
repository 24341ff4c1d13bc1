"""The examples of DEVELOPERS.md do what it says they do: its own blocks are run in a copy of the checkout."""

import json
from pathlib import Path
from typing import Any

import pytest

import check_labels

from .conftest import Block, Document, Run

PART = "Add a part or a saying"
MORE = "Add something else"
LABELS = "The trained parts"

UNDERSTOOD = [
    ("Lever holds her on the slope.", "parking brake", "good", "works", []),
    ("The fan belt is delaminated.", "fan belt", "writeup", "delaminated", []),
    ("Radiator is a bit delaminated.", "radiator", "watch", "delaminated", []),
    ("The cutting edge is coming apart in layers.", "cutting edge", "writeup", "delaminated", []),
    ("Wipers, on the long finger.", "windscreen wiper", "later", "later", []),
    ("Left front tyre is three atmospheres.", "front tyre", "good", "measured", [[3.0, "atm"]]),
]
"""A sentence with each thing added, and part, state, condition and measurements of its one finding."""

ASK = """
import json, sys
from saycheck.understanding.pipeline import understand
for text in json.loads(sys.argv[1]):
    print(json.dumps([
        [f.part, f.state, f.condition, [[m.value, m.unit] for m in f.measurements]]
        for f in understand(text, sys.argv[2]).findings
    ]))
"""


def add(checkout: Path, block: Block) -> None:
    """Put a block at the end of the file that its first line names."""
    with (checkout / block.file).open("a", encoding="utf-8") as file:
        file.write(f"\n{block.text}")


def understood(run: Run, texts: list[str], machine: str = "wheel-loader") -> list[Any]:
    """The findings of each text as part, state, condition and measurements."""
    done = run(f"python - '{json.dumps(texts)}' {machine} <<'PYTHON'\n{ASK}\nPYTHON\n")
    assert 0 == done.returncode, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def told(run: Run, block: Block) -> str:
    """What a block of shell prints."""
    done = run(block.text)
    assert 0 == done.returncode, done.stderr
    return done.stdout


def plain(text: str) -> list[str]:
    """The lines of a text without the spaces and rules that only set it out."""
    return [" ".join(line.strip("─ ").split()) for line in text.splitlines()]


def test_add_a_part(developers: Document, checkout: Path, run: Run) -> None:
    """The part is added, found and shown; the shop's folder is read; each output is as printed there."""
    part, check, find, found, say, shown, shop, read, paper, unplaced = developers.blocks(PART)
    assert "nail magnet" not in told(run, find)
    add(checkout, part)
    assert "wheel-loader" in told(run, check)
    assert told(run, find).startswith(found.text)
    assert "called 'road magnet'  [vocab/machines/wheel-loader.toml:" in told(run, find)
    view = plain(told(run, say))
    assert [] == [line for line in plain(shown.text) if not any(one.startswith(line) for one in view)]
    assert (checkout / "walk" / "walk.json").is_file()
    assert read.text.strip() in plain(told(run, shop))
    units = run('saycheck vocab show wheel-loader --shop our-words --unit "loader seven"').stdout
    assert "wheel loader, loader seven" in units
    assert "coupler, from the shared part coupler" in units
    assert "cab door (cab), cab" in units
    assert told(run, paper).startswith(unplaced.text)
    assert "bucket teeth" in (checkout / "yard.csv").read_text(encoding="utf-8-sig")
    assert (checkout / "card.pdf").read_bytes().startswith(b"%PDF")


def test_a_slip_in_the_part_is_told(developers: Document, checkout: Path, run: Run) -> None:
    """`vocab check`, silent about the example, refuses it with a misspelt check."""
    (block,) = developers.blocks(PART, "toml")
    add(checkout, block)
    right = run("saycheck vocab check")
    assert (0, "") == (right.returncode, right.stderr)
    file = checkout / block.file
    file.write_text(file.read_text(encoding="utf-8").replace('"loose", "damaged"', '"lose", "damaged"'))
    wrong = run("saycheck vocab check")
    assert 2 == wrong.returncode
    assert "there is no check 'lose'; did you mean 'loose'?" in wrong.stderr


def test_add_something_else(developers: Document, checkout: Path, run: Run) -> None:
    """Condition, check, cue, clue and unit are understood as told, and were not before."""
    texts = [text for text, *_ in UNDERSTOOD]
    wanted = [[[part, state, condition, measures]] for _, part, state, condition, measures in UNDERSTOOD]
    before = understood(run, texts)
    assert [] == [text for text, was, now in zip(texts, before, wanted, strict=True) if was == now]
    for block in developers.blocks(MORE, "toml"):
        add(checkout, block)
    assert wanted == understood(run, texts)
    assert [[["hopper cylinder", "watch", "leak", []]]] == understood(
        run, ["Hopper ram is weeping."], "mobile-crusher"
    )


def test_add_a_pronunciation(developers: Document, checkout: Path, run: Run) -> None:
    """The word has the sounds that the block gives it, and had others before."""
    pytest.importorskip("pocketsphinx")
    ask = "python -c 'from saycheck.hearing.sounds import pronunciations as p; print(p(\"fairlead\"))'"
    before = run(ask)
    (block,) = [one for one in developers.blocks(MORE, "toml") if one.file == "vocab/shared/sounds.toml"]
    add(checkout, block)
    after = run(ask)
    assert (0, 0) == (before.returncode, after.returncode), before.stderr + after.stderr
    assert "('F', 'EH', 'R', 'L', 'IY', 'D')" in after.stdout
    assert before.stdout != after.stdout


def test_the_labelled_narration_is_right(developers: Document) -> None:
    """The example of a labelled narration has no slip that check_labels.py knows."""
    (block,) = developers.blocks(LABELS, "json")
    assert [] == list(check_labels.slips(json.loads(block.text)))
