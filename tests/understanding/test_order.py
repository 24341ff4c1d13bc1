"""The network that sees the order of words: its sums, its file, what it sees, and what it is for."""

from pathlib import Path

import numpy as np
import pytest
from scipy.signal import correlate
from scipy.special import softmax

from saycheck.understanding import order
from saycheck.understanding.order import HEADS, INSIDE, LATER, PADDED, SUBJECT, Network, Seen, attended, slid
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.statements import region_end
from saycheck.understanding.weigh import by_order


@pytest.fixture(scope="module")
def network() -> Network:
    """A small network with weights by chance."""
    chance = np.random.default_rng(3)
    sizes = {
        "words": (4, 5), "endings": (3, 2), "tags": (2, 2), "places": (PADDED + 1, 2), "first": (3, 11, 6),
        "first_bias": (6,), "second": (3, 6, 6), "second_bias": (6,), "query": (12, 2 * HEADS),
        "key": (6, 2 * HEADS), "value": (6, 2 * HEADS), "out": (18 + 2 * HEADS, 2), "out_bias": (2,),
    }  # fmt: skip
    names = {"words": ["", "?", "dry", "not"], "endings": ["", "?", "dry"], "tags": ["", "-"]}
    return Network(
        ["good", "talk"],
        names,
        {name: 0.3 * chance.standard_normal(size).astype(np.float32) for name, size in sizes.items()},
    )


def row(*words: str) -> Seen:
    """Words of which the first names the part."""
    return Seen(words, "-" * len(words), [SUBJECT if i == 0 else INSIDE for i in range(len(words))])


def test_sliding_is_correlation() -> None:
    """A kernel slid over the words gives what scipy's correlation gives, channel by channel."""
    chance = np.random.default_rng(1)
    x = chance.standard_normal((2, 9, 4)).astype(np.float32)
    kernel = chance.standard_normal((3, 4, 5)).astype(np.float32)
    expected = np.zeros((2, 9, 5))
    for one in range(2):
        for out in range(5):
            expected[one, :, out] = sum(
                correlate(x[one, :, i], kernel[:, i, out], mode="same") for i in range(4)
            )
    np.testing.assert_allclose(slid(x, kernel), expected, rtol=1e-4, atol=1e-5)


def test_attention_is_that_of_the_field() -> None:
    """What is sought in the words is scaled dot-product attention, head by head; absent words count nothing."""
    chance = np.random.default_rng(2)
    asking, h = chance.standard_normal((2, 12)), chance.standard_normal((2, 5, 6))
    count = [3, 5]
    sizes = {"query": (12, 4 * HEADS), "key": (6, 4 * HEADS), "value": (6, 4 * HEADS)}
    w = {name: chance.standard_normal(size).astype(np.float32) for name, size in sizes.items()}
    expected = np.zeros((2, HEADS, 4))
    for row_, head in np.ndindex(2, HEADS):
        own = slice(4 * head, 4 * head + 4)
        words = h[row_, : count[row_]]
        fits = words @ w["key"][:, own] @ (asking[row_] @ w["query"][:, own]) / 4**0.5
        expected[row_, head] = softmax(fits) @ (words @ w["value"][:, own])
    there = np.arange(5)[None] < np.array(count)[:, None]
    given = [np.asarray(one, np.float32) for one in (asking, h, there)]
    found = attended(given[0], given[1], given[2], w)
    np.testing.assert_allclose(found, expected.reshape(2, -1), rtol=1e-3, atol=1e-4)


def test_shares_add_up(network: Network) -> None:
    """Every row gets a share of each class, one in all."""
    shares = network.shares([row("rod", "not", "dry"), row("dry")])
    assert 2 == len(shares)
    assert all(["good", "talk"] == list(one) and 1 == pytest.approx(sum(one.values())) for one in shares)


def test_the_order_of_words_counts(network: Network) -> None:
    """The same words in another order get other shares."""
    one, other = network.shares([row("rod", "not", "dry"), row("rod", "dry", "not")])
    assert one["talk"] != pytest.approx(other["talk"], abs=1e-4)


def test_a_row_does_not_depend_on_its_neighbours(network: Network) -> None:
    """Rows weighed together get what each gets alone."""
    rows = [row("rod", "not", "dry"), row("dry", "dry")]
    together = network.shares(rows)
    alone = [network.shares([one])[0] for one in rows]
    assert [pytest.approx(one, abs=1e-5) for one in alone] == together


def test_nothing_to_weigh(network: Network) -> None:
    """No rows, no shares."""
    assert [] == network.shares([])


def test_the_file_gives_the_network_back(network: Network, tmp_path: Path) -> None:
    """A network that was written and read again tells the same, to half precision."""
    order.write(tmp_path / "order.npz", network)
    rows = [row("rod", "not", "dry"), row("never", "heard")]
    expected = [one["talk"] for one in network.shares(rows)]
    again = [one["talk"] for one in order.read(tmp_path / "order.npz").shares(rows)]
    assert expected == pytest.approx(again, abs=2e-2)


def test_what_a_statement_is_seen_with() -> None:
    """The part, what is said of it, the sentence before and the one behind, each known for what it is."""
    reading, statements = prepared("Seat is fine. Horn works. Mirror is cracked.", "wheel-loader")
    horn = next(s for s in statements if s.subject.part.name == "horn")
    seen = order.seen_all(reading, [horn], [region_end(reading, horn, statements)])[0]
    places = dict(zip(seen.words, seen.places, strict=True))
    assert (SUBJECT, INSIDE, order.EARLIER, LATER) == (
        places["horn"], places["works"], places["seat"], places["mirror"]
    )  # fmt: skip
    assert "B-part" == seen.tags[seen.words.index("horn")]


def test_a_long_text_is_seen_in_part() -> None:
    """However long a sentence is, a statement is seen with so many words at most, itself among them."""
    text = "so as i said to him the other day when we " * 20 + "came to it the horn works"
    reading, statements = prepared(text, "wheel-loader")
    stops = [region_end(reading, s, statements) for s in statements]
    for row in order.seen_all(reading, statements, stops):
        assert len(row.words) <= order.LONGEST
        assert {SUBJECT, INSIDE} & set(row.places)


def test_the_shipped_network_weighs_every_statement() -> None:
    """What is shipped knows the five states and talk, and tells a plain fault from a plain good."""
    reading, statements = prepared("Horn works. Left mirror is cracked, write it up.", "wheel-loader")
    shares = [by_order(reading, statement, statements) for statement in statements]
    states = {"good", "hidden", "later", "talk", "watch", "writeup"}
    assert all(one is not None and states == set(one) for one in shares)
    best = [max(one, key=lambda k: one[k]) for one in shares if one]
    assert ("good", "writeup") == (best[0], best[-1])
