"""Word errors against jiwer and against NIST's sclite (Debian ``sctk``)."""

import random
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from saycheck.scoring import WordErrors, word_errors

TRADE = ["left", "right", "tyre", "gland", "weeps", "dry", "four", "eight", "psi", "no", "pin", "the", "a"]


def spoilt(chance: random.Random, words: list[str], share: float) -> list[str]:
    """The words with a share of them swapped, dropped or followed by another."""
    heard: list[str] = []
    for word in words:
        if chance.random() >= share:
            heard.append(word)
            continue
        heard += chance.choice([[chance.choice(TRADE)], [], [word, chance.choice(TRADE)]])
    return heard


def pairs(share: float) -> list[tuple[list[str], list[str]]]:
    """Two hundred pairs of said and heard word lists, never empty."""
    chance = random.Random(round(share * 100))
    said = [chance.choices(TRADE, k=chance.randint(3, 60)) for _ in range(200)]
    return [(words, spoilt(chance, words, share) or ["a"]) for words in said]


@pytest.mark.parametrize("share", [0.05, 0.2, 0.6])
def test_same_as_jiwer(share: float) -> None:
    """Source: jiwer, whose word error rate is the least-errors one."""
    jiwer = pytest.importorskip("jiwer", reason="jiwer is not installed")
    cases = pairs(share)
    total = sum((word_errors(*case) for case in cases), WordErrors(0, 0, 0, 0))

    said = [" ".join(case[0]) for case in cases]
    heard = [" ".join(case[1]) for case in cases]
    expected = jiwer.process_words(said, heard)

    assert expected.wer == pytest.approx(total.rate)
    assert expected.substitutions + expected.deletions + expected.insertions == total.errors


def sclite(cases: list[tuple[list[str], list[str]]], folder: Path) -> list[tuple[int, int, int]]:
    """Substitutions, deletions and insertions of each pair as sclite counts them."""
    program = shutil.which("sctk")
    if program is None:
        pytest.skip("sclite is not here; it comes with Debian's package sctk")
    for name, side in (("said", 0), ("heard", 1)):
        lines = [f"{' '.join(case[side])} (w_{number})" for number, case in enumerate(cases)]
        (folder / name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    options = ["-r", "said", "trn", "-h", "heard", "trn", "-i", "rm", "-o", "pra", "stdout"]
    report = subprocess.run(
        [program, "sclite", *options], cwd=folder, check=True, capture_output=True, text=True
    ).stdout
    rows = re.findall(r"id: \(w_(\d+)\)\s+Scores: \(#C #S #D #I\) \d+ (\d+) (\d+) (\d+)", report)
    found = {int(number): (int(s), int(d), int(i)) for number, s, d, i in rows}
    return [found[number] for number in range(len(cases))]


@pytest.mark.parametrize("share", [0.05, 0.2, 0.6])
def test_close_to_sclite(share: float, tmp_path: Path) -> None:
    """Source: sclite 2.10 (NIST SCTK), which weighs a swap 4 and a dropped or added word 3.

    It may therefore trade swaps for drops and additions, and then counts more errors than the least.
    So: never fewer than ours, the same total but in a few of a hundred texts, and always the least
    weighted cost, which rapidfuzz finds on its own.
    """
    from rapidfuzz.distance import Levenshtein

    cases = pairs(share)
    ours = [word_errors(said, heard).errors for said, heard in cases]
    costs = [Levenshtein.distance(said, heard, weights=(3, 3, 4)) for said, heard in cases]

    expected = sclite(cases, tmp_path)

    assert costs == [4 * s + 3 * (d + i) for s, d, i in expected]
    assert all(sum(theirs) >= mine for theirs, mine in zip(expected, ours, strict=True))
    same = sum(sum(theirs) == mine for theirs, mine in zip(expected, ours, strict=True))
    assert same >= 0.97 * len(cases)
