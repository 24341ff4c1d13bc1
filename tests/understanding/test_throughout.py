"""What the words of a narration tell of a statement, read through."""

import numpy as np

from saycheck.understanding import encoder
from saycheck.understanding.arrays import agreed
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.throughout import CLASSES, shares, told
from saycheck.understanding.weigh import weigh

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


def test_a_statement_tells_what_its_words_tell() -> None:
    """The weight of a statement by its words is their mean, a share of each class and one in all."""
    reading, statements = prepared(WALK.format("Bucket pins are good."), "wheel-loader")
    made = encoder.read(reading)
    assert made is not None
    whole = shares(made)
    np.testing.assert_allclose(whole.sum(axis=1), 1, rtol=1e-5)
    assert statements
    for statement in statements:
        given = told(reading, statement)
        assert given is not None
        mean = whole[statement.start : statement.end].mean(axis=0)
        np.testing.assert_allclose([given[c] for c in CLASSES], mean, rtol=1e-5)


def test_of_few_words_it_says_nothing() -> None:
    """A sentence by itself is no narration, and nothing was learned from such."""
    reading, (statement,) = prepared("Left lift cylinder is weeping at the gland.", "wheel-loader")
    assert told(reading, statement) is None


def test_both_must_agree() -> None:
    """What one of the two holds for next to impossible is not made likely by the other."""
    both = agreed(({"good": 0.5, "talk": 0.5}, 0.65), ({"good": 0.999, "talk": 0.001}, 0.35))
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
