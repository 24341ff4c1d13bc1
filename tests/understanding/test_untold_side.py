"""On which side a part is that no word with it tells: as the walker goes, and only where that is likely."""

from itertools import pairwise

import numpy as np
import pytest

from saycheck.understanding import encoder, untold_side
from saycheck.understanding.pipeline import prepared, understand
from saycheck.understanding.text import with_neighbours
from saycheck.understanding.throughout import Place
from saycheck.understanding.untold_side import absolute, features, relative, side_of

KIND = "wheel-loader"


def sides(text: str) -> list[tuple[str, str]]:
    """(part, side) of every finding."""
    return [(f.part, f.side) for f in understand(text, KIND).findings]


@pytest.mark.parametrize(
    ("side", "here", "seen"),
    [
        ("left", "left", "here"),
        ("right", "left", "other"),
        ("both", "left", "both"),
        (None, "left", "none"),
        (None, None, "none"),
    ],
)
def test_a_side_as_the_walker_sees_it(side: str | None, here: str | None, seen: str) -> None:
    """Left and right are here or over there; seen from a known side the way back is exact."""
    assert seen == relative(side, here)
    assert (side or "none") == absolute(seen, here)


@pytest.mark.parametrize("seen", ["here", "other"])
def test_from_nowhere_there_is_no_side(seen: str) -> None:
    """Where no side was ever told, here is nowhere."""
    assert absolute(seen, None) is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Left side now. Front tyre is cut.", ("front tyre", "left")),
        ("Left side now. Front tyre on the right is cut.", ("front tyre", "right")),  # what is told stands
        ("Left side. Front tyre is good. Now the engine. Engine oil is low.", ("engine oil", "none")),
    ],
)
def test_the_last_finding(text: str, expected: tuple[str, str]) -> None:
    """A tyre is on the side that is walked along, oil in an engine on none."""
    assert expected == sides(text)[-1]


def test_a_told_side_is_never_overturned() -> None:
    """Whatever was learned, words win."""
    reading, made = prepared("Down the right side. Left front tyre is cut. Radiator is clean.", KIND)
    told = [
        (a, s, b)
        for a, s, b in zip([None, *made], made, [*made[1:], None], strict=False)
        if s.subject.told_side
    ]
    assert told
    assert all(s.subject.side == side_of(reading, s, a, b) for a, s, b in told)


def test_without_weights_the_rules_decide(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing was trained the side of the rules stands."""
    monkeypatch.setattr(untold_side, "trained", lambda name: None)
    reading, made = prepared("Left side now. Front tyre is cut. Radiator is blocked.", KIND)
    assert [s.subject.side or "none" for s in made] == [side_of(reading, s, None, None) for s in made]


def test_neighbours_are_seen() -> None:
    """The statement before and the one behind are among the features, with their sides as seen from here."""
    reading, made = prepared("Left side now. Front tyre is cut. Rear tyre on the right is worn.", KIND)
    one, other = next(iter(pairwise(made)))
    assert {"last=-", "next=other", "next=other/told"} <= set(features(reading, one, None, other))


def test_what_the_encoder_is_told_of_a_side() -> None:
    """As many numbers for every statement, also for the first and the last, which have one neighbour only."""
    _, made = prepared("Left side now. Front tyre is cut. Step is bent. Radiator is clean.", KIND)
    told = [untold_side.known_of(s, before, after) for before, s, after in with_neighbours(made)]
    assert {untold_side.TOLD} == {len(numbers) for numbers in told}
    here = untold_side.SIDES.index("here")
    assert [1.0, 0.0] == [told[0][here], told[-1][here]]


def test_shares_of_sides_by_meaning() -> None:
    """All sides together make 1, and what is told counts."""
    made = encoder.read(prepared("Left side now. Front tyre is cut, and the step is bent. " * 8, KIND)[0])
    assert made is not None
    given = np.zeros(untold_side.TOLD)
    shares = []
    for side in (0, 3):
        given[:4] = 0
        given[side] = 1
        shares.append(untold_side.shares(made, Place(4, 8, range(4, 6)), tuple(given)))
        assert sum(shares[-1].values()) == pytest.approx(1, abs=1e-5)
    assert shares[0]["here"] > shares[1]["here"]
