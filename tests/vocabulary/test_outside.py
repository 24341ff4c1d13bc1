"""Limits in the shipped vocabulary against the public lists they come from (``../shared/outside``)."""

import json
from pathlib import Path

import pytest

from saycheck.vocabulary.compiled import Part
from saycheck.vocabulary.load import load

LISTS = Path(__file__).resolve().parents[3] / "shared" / "outside" / "public-lists.json"


def rows() -> dict[tuple[str, str], list[float]]:
    """All numbers of the public lists by (source, clause)."""
    if not LISTS.is_file():
        pytest.skip("../shared/outside/public-lists.json is not there")
    found: dict[tuple[str, str], list[float]] = {}
    for source in json.loads(LISTS.read_text(encoding="utf-8"))["sources"]:
        for item in source["items"]:
            if item["value"] is not None:
                found.setdefault((source["id"], item["n"]), []).append(float(item["value"]))
    return found


def limit(part: Part, attribute: str) -> float | None:
    measure = next(m for m in part.measures if m.attribute == attribute)
    return measure.at_least if measure.at_least is not None else measure.at_most


@pytest.mark.parametrize(
    ("kind", "part", "attribute", "source", "clause", "scale"),
    [
        ("road-truck", "steer tyre", "depth", "fmcsa-393-75", "393.75(b)", 25.4),  # given in inches
        ("road-truck", "drive tyre", "depth", "fmcsa-393-75", "393.75(c)", 25.4),
        ("road-truck", "steer brake lining", "thickness", "fmcsa-393-47", "393.47(d)(1)", 1),
        ("road-truck", "drive brake lining", "thickness", "fmcsa-393-47", "393.47(d)(2)", 1),
        ("road-truck", "low air warning", "pressure", "fmcsa-396-appA", "396 App. A 1.f", 1),  # from memory
        ("road-truck", "brake fluid", "level", "fmcsa-396-appA", "396 App. A 1.j", 1),  # from memory
        ("road-truck", "steer rim", "runout", "nhtsa-570", "570.10(b)", 1),
        ("counterbalance-forklift", "forks", "thickness left", "iso-5057", "wear", 1),
        ("counterbalance-forklift", "forks", "angle", "iso-5057", "angle", 1),
        ("counterbalance-forklift", "forks", "straightness", "iso-5057", "straightness", 1),
        ("counterbalance-forklift", "forks", "tip difference", "iso-5057", "tips", 1),
        ("counterbalance-forklift", "lift chains", "elongation", "lift-chain", "discard", 1),
        ("counterbalance-forklift", "water muffler", "level", "wac-296-307-52047", "(8)", 1),
    ],
)
def test_limit_stands_in_public_list(
    kind: str, part: str, attribute: str, source: str, clause: str, scale: float
) -> None:
    """Each limit is a number of the clause it names, to the last digit that the vocabulary gives."""
    ours = limit(load(kind).part(part), attribute)

    assert ours is not None
    assert any(ours == pytest.approx(value * scale, abs=0.03) for value in rows()[source, clause])
