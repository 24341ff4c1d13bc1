"""Walks that the ear learns from."""

from pathlib import Path

from saycheck.hearing.language.phrasing import parsed
from saycheck.hearing.language.sentences import Spelling
from saycheck.hearing.language.talk import Talk
from saycheck.hearing.language.walks import commonness, read_walks, stretches

SPELLING = Spelling(Talk({"okay": parsed("okay")}, (), {"tire": "tyre", "p s i": "psi"}))


def test_read(tmp_path: Path) -> None:
    """Remarks are left out, an empty line parts two walks, spelling is made one."""
    (tmp_path / "a.txt").write_text("# mine\nleft tire\nforty p s i\n\nright tyre\n", encoding="utf-8")
    walks = read_walks([tmp_path / "a.txt"], SPELLING)
    assert [[["left", "tyre"], ["forty", "psi"]], [["right", "tyre"]]] == walks


def test_stretches_keep_order_and_walks_apart() -> None:
    """Each round says all breaths in their order; no stretch runs from one walk into the next."""
    walks = [[["a"], ["b"], ["c"]], [["d"]]]
    said = list(stretches(walks))
    assert ["a", "b", "c", "d"] * 2 == [word for stretch in said for word in stretch]
    assert not any("c" in stretch and "d" in stretch for stretch in said)


def test_common_sayings_weigh_more() -> None:
    """A saying that walks hold often is likelier to be made up than one they never hold."""
    common = commonness([[["left", "tyre"], ["tyre", "dry"]]], SPELLING)
    assert common("tire") > common("left tyre") > common("gudgeon") > 0
