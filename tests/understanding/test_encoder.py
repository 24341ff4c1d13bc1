"""The encoder: how it cuts words and narrations, what it reads, its file."""

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from saycheck.understanding import encoder
from saycheck.understanding.encoder import LENGTH, STEP, Encoder, Pieces, Read, Words
from saycheck.understanding.pipeline import reading_of


@pytest.fixture(scope="module")
def shipped() -> Encoder:
    """The encoder as shipped."""
    one = encoder.shipped()
    assert one is not None
    return one


def said(*words: str) -> Words:
    """Words of one sentence that name no part."""
    return Words(
        words, ["-"] * len(words), [(False, False)] * len(words), [i == 0 for i in range(len(words))]
    )


@pytest.mark.parametrize(
    ("word", "pieces"),
    [
        ("playing", ["play", "##ing"]),
        ("unaffable", ["un", "##aff", "##able"]),
        ("unwantedx", ["[UNK]"]),
        ("he's", ["he", "'", "s"]),
        ("", ["[UNK]"]),
    ],
)
def test_words_are_cut_as_published(word: str, pieces: list[str]) -> None:
    """Source: Devlin et al., BERT, 2019, figure 2 ("playing"), and the example and tests of its published tokenizer
    ("unaffable", "unwantedX"; from memory).
    """
    known = ["[UNK]", "play", "##ing", "un", "##aff", "##able", "##want", "##ed", "he", "'", "s"]
    assert pieces == [known[row] for row in Pieces(known)(word)]


def test_the_longest_piece_comes_first() -> None:
    """ "bearing" is not "bear" and "##ing" where it is known as a whole."""
    known = ["[UNK]", "bear", "##ing", "bearing", "##s"]
    assert ["bearing", "##s"] == [known[row] for row in Pieces(known)("bearings")]


def test_every_word_stands_in_some_stretch(shipped: Encoder) -> None:
    """Stretches of a long narration overlap, leave out no word and are no longer than the encoder was taught on."""
    for many in (1, LENGTH, LENGTH + 1, 3 * STEP, 1000):
        stretches = list(shipped.stretches(said(*["bolt"] * many)))
        covered = {one.start + i for one in stretches for i in range(len(one.first))}
        assert set(range(many)) == covered
        assert all(len(one.first) <= LENGTH for one in stretches)


def test_what_stands_around_counts(shipped: Encoder) -> None:
    """The same word means another thing in other words."""
    one, other = (shipped.read(said("the", "track", word, "loose")).words for word in ("is", "record"))
    assert (4, 384) == one.shape
    assert np.abs(one[1] - other[1]).max() > 0.1


def test_a_word_is_read_where_it_stands_deepest(shipped: Encoder) -> None:
    """Of the stretches that hold a word, that counts which has most words on its shorter side."""
    made = shipped.read(said(*"left ram dry , right ram wet , pins tight .".split() * 40))
    assert len(made.stretches) > 2
    for at in range(len(made.words)):
        inside = [(start, m) for start, m in made.stretches if start <= at < start + len(m)]
        start, meaning = max(inside, key=lambda one: min(at - one[0], one[0] + len(one[1]) - 1 - at))
        np.testing.assert_array_equal(made.words[at], meaning[at - start])


def test_no_word_is_too_long(shipped: Encoder) -> None:
    """Nor are words that are all pieces too many for what can be read at once."""
    row = ["x-1-" * 40, "antidisestablishmentarianism" * 9, "1.2.3.4.5"] * 60
    assert (len(row), 384) == shipped.read(said(*row)).words.shape


def test_what_is_compared_was_read_together() -> None:
    """Words far apart are taken from one stretch; where none holds all, from the one that reaches back farthest."""
    whole = np.zeros((300, 2), np.float32)
    made = Read(whole, [(0, whole[:160]), (128, whole[128:288]), (256, whole[256:])], {})
    assert [0, 1, 1, 2] == [made.around(*span) for span in ((20, 150), (135, 200), (100, 200), (290, 300))]


def test_kept_in_a_file(shipped: Encoder, tmp_path: Path) -> None:
    """An encoder read back reads the same, and its heads are the same as far as half precision goes."""
    encoder.write(tmp_path, shipped)
    again = encoder.kept(tmp_path)
    words = said(*"rod is dry , gland isn't".split())
    np.testing.assert_array_equal(again.read(words).words, shipped.read(words).words)
    for name, head in shipped.heads.items():
        np.testing.assert_allclose(again.heads[name], head, atol=5e-3)


def test_of_few_words_it_says_nothing() -> None:
    """A sentence by itself is no narration, and nothing was learned from such."""
    assert encoder.read(reading_of("Left lift cylinder is weeping at the gland.", "wheel-loader")) is None


def test_a_narration_is_read_once(shipped: Encoder, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever asks first has it read; all others get the same."""
    text = "The left lift cylinder is dry, the right one is weeping. " * 8
    reading = reading_of(text, "wheel-loader")
    first = encoder.read(reading)
    assert first is not None
    np.testing.assert_array_equal(first.words, shipped.read(reading.data["seen"]).words)
    monkeypatch.setattr(encoder, "STANDING_IN", [Encoder(Path(), shipped.names, {})])
    assert encoder.read(reading) is first


def test_the_mean_of_what_words_mean() -> None:
    """Means are those of the rows in a stretch; words before it are not there."""
    rows = np.random.default_rng(1).standard_normal((250, 3)).astype(np.float32)
    made = Read(rows, [(0, rows[:160]), (128, rows[128:] + 1)], {})
    means = made.means([(0, 2, 5), (1, 130, 250), (1, 100, 131)])
    wanted = [rows[2:5].mean(axis=0), rows[130:].mean(axis=0) + 1, rows[128:131].mean(axis=0) + 1]
    np.testing.assert_allclose(means, wanted, rtol=1e-5, atol=1e-6)


def test_products_of_matrices_keep_to_one_core() -> None:
    """With the library's own choice of cores understanding took twice the processor time."""
    threads = (
        "from threadpoolctl import threadpool_info\n"
        "from saycheck.understanding.pipeline import understand\n"
        "understand('The bucket is fine. ' * 20, 'wheel-loader')\n"
        "print({pool['num_threads'] for pool in threadpool_info() if pool['user_api'] == 'blas'})"
    )
    done = subprocess.run([sys.executable, "-c", threads], capture_output=True, text=True, check=True)
    assert done.stdout.strip() in ("{1}", "set()")
