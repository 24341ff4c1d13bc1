"""Where sentences end in a transcript without marks: by words, by what they name, by pauses."""

from collections.abc import Callable

import pytest

from saycheck.models.walk import Word
from saycheck.understanding.boundaries import choose, counts_one, features, lacks_marks, marked, tags
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.text import Mention, Reading, Token, split

Read = Callable[..., Reading]
Rows = Callable[..., list[tuple[str, ...]]]


def reading(text: str) -> Reading:
    """A reading of bare words without pauses."""
    return Reading(text, [Token(w.lower(), a, b) for w, a, b in split(text)])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("bucket is good edge is worn", True),
        ("Bucket is good. Edge is worn.", False),
        ("word " * 30 + "end.", False),
        ("word " * 60 + "end.", True),  # one stop in sixty words is none
        ("bucket, edge, pins", True),  # commas alone are no stops
    ],
)
def test_lacks_marks(text: str, expected: bool) -> None:
    """A transcript with fewer stops than anyone's speech has no marks."""
    assert expected == lacks_marks(reading(text))


def test_tags() -> None:
    """Each token is tagged with what begins at it or goes on over it; the strongest kind wins."""
    given = reading("left front tyre cut")
    given.mentions = {
        "part": [Mention("part", 0, 3)],
        "condition": [Mention("condition", 2, 4)],
    }
    assert ["B-part", "I-part", "I-part", "I-condition"] == tags(given, 4)


def test_features_at_the_edges() -> None:
    """Beyond the first and the last word there is a mark of its own."""
    found = features(["bucket", "good"], ["B-part", "B-condition"], 1)
    assert {"a=#", "b=bucket", "c=good", "d=#"} <= set(found)


@pytest.mark.parametrize(
    ("pause", "expected"),
    [(0.0, None), (0.3, None), (0.55, "."), (2.0, ".")],
)
def test_without_weights_pauses_decide(pause: float, expected: str | None) -> None:
    """Where no model was trained a pause of 0.55 s and more is a stop."""
    assert expected == choose(None, ["bucket", "good"], ["-", "-"], 1, pause)


def test_marks_take_no_room(read: Read) -> None:
    """A mark that is set has no characters: every other token stays where it was."""
    given = reading("bucket is good fan belt is cracked horn works")
    out = marked(given)
    assert given.tokens == [t for t in out if t.start < t.end]
    assert {".", ","} >= {t.text for t in out if t.start == t.end}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "bucket is good fan belt is cracked",
            [("bucket", "none", "good"), ("fan belt", "none", "writeup")],
        ),
        (
            "horn works seat belt is torn windscreen is cracked",
            [("horn", "none", "good"), ("seat belt", "none", "writeup"), ("windscreen", "none", "writeup")],
        ),
        (
            "left front tyre is good right front tyre has a cut",
            [("front tyre", "left", "good"), ("front tyre", "right", "writeup")],
        ),
    ],
)
def test_parts_keep_their_conditions(ruled: Rows, text: str, expected: list[tuple[str, ...]]) -> None:
    """Without any mark each part still keeps what was said of it."""
    assert expected == [row[:3] for row in ruled(text)]


def test_one_stays_with_what_it_counts(ruled: Rows) -> None:
    """A mark before the one thing goes before its "one"."""
    words = "left side pads are good one pad bolt loose hoses at the front no leaks one clamp gone".split()
    tag = ["B-part" if word in ("pad", "clamp") else "-" for word in words]
    assert [6, 16] == [i for i in range(1, len(words)) if counts_one(words, tag, i)]
    assert not counts_one("check the left one clamp gone".split(), ["-"] * 4 + ["B-part", "-"], 4)
    out = [t.text for t in marked(prepared(" ".join(words), "crawler-dozer")[0])]
    assert "." == out[out.index("clamp") - 2]


def test_pause_in_the_sound_counts() -> None:
    """A pause that the ear measured ends a sentence."""
    text = "horn works bucket cracked"
    words, clock = [], 0.0
    for word, start, end in split(text):
        clock += 1.5 if word == "bucket" else 0.05
        words.append(Word(text=word, char_start=start, char_end=end, start_s=clock, end_s=clock + 0.3))
        clock += 0.3
    sentences = prepared(text, "wheel-loader", words)[0].sentences
    given = prepared(text, "wheel-loader", words)[0]
    assert "horn works" == given.quote(*sentences[0]).rstrip()
