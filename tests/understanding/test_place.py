"""Where the walker stands: sides that are sides, places told, moves at the head of a sentence."""

from collections.abc import Callable

import pytest

from saycheck.understanding.place import Places, is_side_word
from saycheck.understanding.text import Reading, Token
from saycheck.vocabulary.compiled import Vocabulary

Cut = Callable[[str], list[str]]
Rows = Callable[..., list[tuple[str, ...]]]


@pytest.fixture(scope="module")
def places(toy: Vocabulary) -> Places:
    """The places of the toy loader."""
    return Places(toy)


def reading(words: list[str]) -> Reading:
    """A reading of bare words."""
    return Reading(" ".join(words), [Token(word, 0, 0) for word in words])


@pytest.mark.parametrize(
    ("text", "word", "side"),
    [
        ("left front tyre", "left", "left"),
        ("the left one", "left", "left"),
        ("right front tyre", "right", "right"),
        ("on the right", "right", "right"),
        ("nearside tyre", "nearside", "left"),
        ("offside tyre", "offside", "right"),
        ("front left", "left", "left"),
        ("half an inch left", "left", None),  # what remains
        ("not much left on it", "left", None),
        ("what's left of it", "left", None),
        ("plenty of meat left", "left", None),
        ("thirty mil of rubber left", "left", None),
        ("i left it for monday", "left", None),  # someone left something
        ("somebody 's left a bolt in it", "left", None),
        ("i've left till monday", "left", None),
        ("so that 's right", "right", None),  # what is correct
        ("she was right", "right", None),
        ("so that 's right hand corner", "right", "right"),
        ("right between the lugs", "right", None),
        ("right then bucket", "right", None),  # a word to begin with
        ("right , bucket", "right", None),
        ("that's all right", "right", None),
        ("coolant 's right .", "right", None),  # a thing that is as it should be
        ("the wet one 's right .", "right", "right"),  # which one
        ("right through the weld", "right", None),
        ("right down to the wire", "right", None),
        ("looks right to me", "right", None),
        ("bucket is good", "bucket", None),
    ],
)
def test_side_words(text: str, word: str, side: str | None) -> None:
    """Left and right are sides only where they can be: not what is left, not "right then"."""
    words = text.split()
    assert side == is_side_word(words, words.index(word))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Left side.", ("left side", None)),
        ("On to the right side now.", ("right side", None)),
        ("Right, coming round to the rear.", ("rear", None)),
        ("Right, here we go.", (None, None)),  # begins to speak
        ("Right.", (None, None)),
        ("Now the back end.", ("rear", None)),
        ("Into the cab.", ("cab", None)),
        ("Okay, engine bay.", ("engine bay", None)),
        ("Other side.", (None, "other")),
        ("Now the left.", (None, "left")),
        ("Nearside then.", (None, "left")),
        ("Bucket is good.", (None, None)),
        ("Left front tyre is good.", (None, None)),
        ("And so on.", (None, None)),
    ],
)
def test_heading(places: Places, cut: Cut, text: str, expected: tuple[str | None, str | None]) -> None:
    """A sentence that does nothing but say a place moves the walker there."""
    given = reading(cut(text))
    assert expected == places.heading(given, 0, len(given.tokens))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Down the left side, front tyre is good.", (None, "left")),
        ("Coming round the right side now the tyre is cut.", ("right side", None)),
        ("Other side, front tyre is good.", (None, "other")),
        ("Nearside first, tyre is good.", (None, "left")),
        ("Round the back end the grille is clear.", ("rear", None)),
        ("In the cab the seat belt works.", ("cab", None)),
        ("Left front tyre is good.", (None, None)),  # a part's side moves nobody
        ("Bucket has a crack on the left.", (None, None)),
        ("There's half an inch left on the edge.", (None, None)),
        ("Front tyre on the right side of it is cut.", (None, None)),
    ],
)
def test_moves(places: Places, cut: Cut, text: str, expected: tuple[str | None, str | None]) -> None:
    """A move may stand at the head of a sentence that goes on about a part."""
    given = reading(cut(text))
    assert expected == places.moves(given, 0, len(given.tokens))[:2]
