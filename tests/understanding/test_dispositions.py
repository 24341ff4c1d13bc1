"""What became of every character: spans without gap or overlap, the weightiest first."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saycheck.models.walk import Disposition
from saycheck.understanding import throughout
from saycheck.understanding.dispositions import ORDER, Piece, cover, of_read_trouble
from saycheck.understanding.pipeline import reading_of

KINDS: list[Disposition] = ["finding", "talk", "command", "taken-back", "unclear"]


def spans(text: str, *pieces: Piece) -> list[tuple[str, Disposition]]:
    """The spans of a text as (words, disposition)."""
    return [(text[s.char_start : s.char_end], s.disposition) for s in cover(text, pieces)]


@pytest.mark.parametrize(
    ("pieces", "expected"),
    [
        ([], [("abcdef", "talk")]),  # nothing said of a part is talk
        ([Piece(0, 6, "unclear", "")], [("abcdef", "unclear")]),
        (
            [Piece(2, 4, "finding", "", "f001")],
            [("ab", "talk"), ("cd", "finding"), ("ef", "talk")],
        ),
        # what is weightier covers what is lighter, in whatever order they come
        (
            [Piece(1, 3, "finding", "", "f001"), Piece(0, 4, "unclear", "")],
            [("a", "unclear"), ("bc", "finding"), ("d", "unclear"), ("ef", "talk")],
        ),
        (
            [Piece(0, 4, "taken-back", ""), Piece(2, 6, "unclear", "")],
            [("abcd", "taken-back"), ("ef", "unclear")],
        ),
        # pieces that reach beyond the text are cut to it
        (
            [Piece(-3, 2, "unclear", ""), Piece(5, 99, "command", "")],
            [("ab", "unclear"), ("cde", "talk"), ("f", "command")],
        ),
        # two unclear stretches for different reasons stay apart
        (
            [Piece(0, 3, "unclear", "one"), Piece(3, 6, "unclear", "other")],
            [("abc", "unclear"), ("def", "unclear")],
        ),
    ],
)
def test_cover(pieces: list[Piece], expected: list[tuple[str, Disposition]]) -> None:
    """Pieces become spans over the whole text; where they overlap the weightier counts."""
    assert expected == spans("abcdef", *pieces)


def test_words_may_belong_to_several_findings() -> None:
    """ "Hoses and pins good": the words shared by two findings name both."""
    pieces = [Piece(0, 4, "finding", "", "f001"), Piece(2, 6, "finding", "", "f002")]
    assert [["f001"], ["f001", "f002"], ["f002"]] == [s.finding_ids for s in cover("abcdef", pieces)]


def test_finding_weighs_most() -> None:
    """A finding is never hidden under talk, nor doubt under talk."""
    assert "finding" == max(ORDER, key=lambda kind: ORDER[kind])
    assert "talk" == min(ORDER, key=lambda kind: ORDER[kind])


PIECES = st.builds(
    Piece,
    st.integers(-3, 25),
    st.integers(-3, 25),
    st.sampled_from(KINDS),
    st.sampled_from(["", "why"]),
    st.sampled_from([None, "f001", "f002"]),
)


@given(st.text(max_size=20), st.lists(PIECES, max_size=6))
def test_cover_leaves_no_gap(text: str, pieces: list[Piece]) -> None:
    """Whatever the pieces, spans run from the first to the last character and touch."""
    found = cover(text, pieces)
    assert list(range(len(text))) == [i for s in found for i in range(s.char_start, s.char_end)]


def test_nothing_to_cover() -> None:
    """An empty text has no spans."""
    assert [] == cover("", [])


@pytest.mark.parametrize(
    ("dealt_with", "troubled", "asked"),
    [
        ([], "it grinds as it turns", ["it grinds as it turns and turns"]),  # all of the clause
        ([], "it grinds", []),  # too few words
        (["Horn works,"], "it grinds as it turns", ["it grinds as it turns and turns"]),  # behind a mark
        (["it grinds"], "as it turns and turns", []),  # more of what was dealt with
        (["it grinds as it turns"], "it grinds as it turns", []),
    ],
)
def test_trouble_that_only_the_encoder_reads_is_asked_about(
    monkeypatch: pytest.MonkeyPatch, dealt_with: list[str], troubled: str, asked: list[str]
) -> None:
    """Words that tell of trouble and of which nothing came are unclear, but for those that go on from what did."""
    text = "Horn works, it grinds as it turns and turns."
    reading = reading_of(text, "wheel-loader")
    at = text.index(troubled)
    shares = [float(at <= token.start < at + len(troubled)) for token in reading.tokens]
    monkeypatch.setattr(throughout, "trouble", lambda _: shares)
    pieces = [Piece(text.index(w), text.index(w) + len(w), "finding", "") for w in dealt_with]
    found = of_read_trouble(reading, pieces)
    assert asked == [text[p.start : p.end] for p in found]
    assert {"unclear"} >= {p.disposition for p in found}
