"""The network that reads a narration through: its sums, its file, and what its words tell of a statement."""

from pathlib import Path

import numpy as np
import pytest
from scipy.ndimage import correlate1d

from saycheck.understanding import throughout
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.throughout import CLASSES, REACH, Reader, Words, slid, told
from saycheck.understanding.weigh import agreed, weigh

WIDTH = 6


@pytest.fixture(scope="module")
def reader() -> Reader:
    """A small network with weights by chance."""
    chance = np.random.default_rng(5)
    sizes = {
        "words": (4, 5), "endings": (3, 2), "tags": (2, 2), "in": (11, WIDTH), "in_bias": (WIDTH,),
        "out": (2 * WIDTH, len(CLASSES)), "out_bias": (len(CLASSES),),
        **{f"layer{i}": (3, WIDTH, WIDTH) for i in range(len(REACH))},
        **{f"bias{i}": (WIDTH,) for i in range(len(REACH))},
    }  # fmt: skip
    names = {"words": ["", "?", "dry", "not"], "endings": ["", "?", "dry"], "tags": ["", "-"]}
    return Reader(
        names, {name: 0.4 * chance.standard_normal(size).astype(np.float32) for name, size in sizes.items()}
    )


def said(*words: str) -> Words:
    """Words of one sentence that name no part."""
    return Words(words, ["-"] * len(words), [0.0] * len(words), [i == 0 for i in range(len(words))])


@pytest.mark.parametrize("reach", sorted(set(REACH)))
def test_sliding_is_correlation_with_gaps(reach: int) -> None:
    """A kernel slid over words so far apart gives what scipy gives for one with noughts between its three rows."""
    chance = np.random.default_rng(reach)
    x = chance.standard_normal((40, 3)).astype(np.float32)
    kernel = chance.standard_normal((3, 3, 2)).astype(np.float32)
    expected = np.zeros((40, 2))
    for i, out in np.ndindex(3, 2):
        gaps = np.zeros(2 * reach + 1)
        gaps[::reach] = kernel[:, i, out]
        expected[:, out] += correlate1d(x[:, i], gaps, mode="constant")
    np.testing.assert_allclose(slid(x, kernel, reach), expected, rtol=1e-4, atol=1e-5)


def test_shares_add_up(reader: Reader) -> None:
    """Every word gets a share of each class, one in all."""
    shares = reader.shares(said("rod", "not", "dry"))
    assert (3, len(CLASSES)) == shares.shape
    np.testing.assert_allclose(shares.sum(axis=1), 1, rtol=1e-5)


def test_what_stands_far_off_counts(reader: Reader) -> None:
    """A word twenty words on is seen, one beyond all layers together is not."""
    row = ["dry"] * 80
    plain = reader.shares(said(*row))
    near, far = (reader.shares(said(*row[:at], "not", *row[at + 1 :])) for at in (20, sum(REACH) + 1))
    assert np.abs(near[0] - plain[0]).max() > 1e-6
    np.testing.assert_allclose(far[0], plain[0], atol=1e-6)


def test_kept_in_a_file(reader: Reader, tmp_path: Path) -> None:
    """A network read back says the same, as far as half precision goes."""
    throughout.write(tmp_path / "one.npz", reader)
    again = throughout.read(tmp_path / "one.npz")
    words = said("rod", "isn't", "dry")
    np.testing.assert_allclose(again.shares(words), reader.shares(words), atol=5e-3)


WALK = (
    "Right then, front of the machine. Cutting edge is straight, bolts all tight. Bucket teeth are all there. "
    "Left tilt cylinder is dry, rod clean. Right tilt cylinder dry as well. {} "
    "Front tyres both good, plenty of tread on them. Left headlight works, right headlight works. "
    "Coolant is between the marks, engine oil is on the full mark, fan belt tight with no cracks in it."
)
STORY = (
    "Let me tell you why I do this. Years ago, when I was on the quarries, we had an old machine and nobody ever "
    "looked at it from one month to the next, because the foreman wanted his lorries filled and nothing else. {} "
    "Nobody cared until the day it came down and nearly took a man's foot off, and I'll never forget that, and the "
    "lad who drove it never came back. That's the reason I walk round every time."
)


def test_a_statement_tells_what_its_words_tell(reader: Reader, monkeypatch: pytest.MonkeyPatch) -> None:
    """The weight of a statement by its words is their mean."""
    monkeypatch.setattr(throughout, "STANDING_IN", [reader])
    reading, statements = prepared(WALK.format("Bucket pins are good."), "wheel-loader")
    whole = reader.shares(throughout.seen(reading))
    assert statements
    for statement in statements:
        shares = told(reading, statement)
        assert shares is not None
        mean = whole[statement.start : statement.end].mean(axis=0)
        np.testing.assert_allclose([shares[c] for c in CLASSES], mean, rtol=1e-5)


def test_of_few_words_it_says_nothing(reader: Reader, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sentence by itself is no narration, and nothing was learned from such."""
    monkeypatch.setattr(throughout, "STANDING_IN", [reader])
    reading, (statement,) = prepared("Left lift cylinder is weeping at the gland.", "wheel-loader")
    assert told(reading, statement) is None


def test_both_must_agree() -> None:
    """What one of the two holds for next to impossible is not made likely by the other."""
    both = agreed({"good": 0.5, "talk": 0.5}, {"good": 0.999, "talk": 0.001})
    assert both["good"] > 5 * both["talk"]


def test_talk_around_makes_talk_likelier() -> None:
    """The same words weigh more towards talk where a story is told around them."""
    words = "The lift cylinder was leaking."
    shares = []
    for text in (WALK, STORY):
        reading, statements = prepared(text.format(words), "wheel-loader")
        statement = next(s for s in statements if "lift cylinder" in s.subject.part.name)
        shares.append(weigh(reading, statement, statements).shares["talk"])
    assert shares[0] < shares[1]
