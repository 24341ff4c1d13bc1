"""Word times by forced alignment."""

import wave
from pathlib import Path

import numpy as np
import pytest

from saycheck.hearing.align import Aligner, shared_out
from saycheck.hearing.ear import SAMPLE_RATE, Samples

DATA = Path("/usr/share/pocketsphinx/test/data")
PASSAGE = DATA / "librivox" / "sense_and_sensibility_01_austen_64kb-0880.wav"
SAID = "He was not an ill disposed young man."


@pytest.fixture(scope="module")
def aligner() -> Aligner:
    """One aligner for all tests."""
    return Aligner()


@pytest.fixture(scope="module")
def passage() -> Samples:
    """Three seconds of human speech; source: LibriVox, in Debian's pocketsphinx-testdata."""
    if not PASSAGE.exists():
        pytest.skip("no human speech here; it comes with Debian's package pocketsphinx-testdata")
    with wave.open(str(PASSAGE)) as sound:
        raw = np.frombuffer(sound.readframes(sound.getnframes()), "<i2")
    return np.asarray(raw / 32768, np.float32)


def noise(seconds: float) -> Samples:
    """Faint white noise."""
    return np.random.default_rng(1).normal(0, 0.01, int(seconds * SAMPLE_RATE)).astype(np.float32)


@pytest.mark.sound
def test_words_of_a_human_passage_are_where_pocketsphinx_hears_them(
    aligner: Aligner, passage: Samples
) -> None:
    """Source: pocketsphinx's own recognition with its general language model, to a tenth of a second."""
    from pocketsphinx import Decoder

    decoder = Decoder(loglevel="FATAL", samprate=float(SAMPLE_RATE))
    decoder.start_utt()
    decoder.process_raw((passage * 32767).astype("<i2").tobytes(), full_utt=True)
    decoder.end_utt()
    heard = {s.word.split("(")[0]: s.start_frame / 100 for s in decoder.seg()}

    placed = dict(zip(SAID.lower().rstrip(".").split(), aligner.place(passage, SAID.split()), strict=True))

    shared = [word for word in placed if word in heard]
    assert len(shared) >= 5
    assert [heard[word] for word in shared] == pytest.approx([placed[w].start_s for w in shared], abs=0.1)


@pytest.mark.sound
@pytest.mark.parametrize(
    "words",
    [
        ["He", "was"],
        ["\u4e2d\u6587", "he", "\u2014", "..."],  # no sounds for these
        ["zxqvbrst<s>", "[", "(2)", "he(2)"],
        ["4,112", "12.6", "P.S.I.", "80%", "\u00bd"],
        ["\u00e9t\u00e9", "na\u00efve", "\U0001f600"],
        ["a" * 300],
        ["he"] * 400,  # more words than there is room for
        ["<sil>", "</s>", "<s>", "[NOISE]"],
        ["", " ", "\t"],
        ["null\0byte", "line\nbreak"],
    ],
    ids=["plain", "letters", "marks", "figures", "accents", "long", "many", "fillers", "blank", "control"],
)
@pytest.mark.parametrize("seconds", [0.0, 0.001, 0.1, 3.0])
def test_any_words_get_a_place_in_any_sound(aligner: Aligner, words: list[str], seconds: float) -> None:
    """As many places as words, in order, inside the sound, whatever the words are."""
    sound = noise(seconds)

    placed = aligner.place(sound, words)

    edges = [edge for place in placed for edge in (place.start_s, place.end_s)]
    assert len(words) == len(placed)
    assert edges == sorted(edges)
    assert all(0 <= edge <= len(sound) / SAMPLE_RATE + 1e-9 for edge in edges)


@pytest.mark.parametrize("level", [0.0, np.nan, np.inf])
def test_sound_that_is_none(aligner: Aligner, level: float) -> None:
    """Digital silence and broken samples give places by share."""
    placed = aligner.place(np.full(SAMPLE_RATE, level, np.float32), ["left", "tyre"])

    assert [(0.0, 0.5), (0.5, 1.0)] == [(place.start_s, place.end_s) for place in placed]


def test_a_word_is_taught_once(passage: Samples) -> None:
    """Sounds are asked for a word that the dictionary lacks, and only the first time."""
    asked: list[str] = []

    def sounds(word: str) -> list[str]:
        asked.append(word)
        return ["Y", "AH", "NG"]

    aligner = Aligner(sounds)
    words = SAID.replace("young", "yungg").split()

    first, again = aligner.place(passage, words), aligner.place(passage, words)

    assert ["yungg"] == asked
    # Pocketsphinx goes on learning the noise, which moves an edge by a frame or two.
    assert [p.start_s for p in first] == pytest.approx([p.start_s for p in again], abs=0.02)
    assert first[6].start_s == pytest.approx(aligner.place(passage, SAID.split())[6].start_s, abs=0.05)


def test_a_word_that_cannot_be_taught_takes_no_time(passage: Samples) -> None:
    """The words round it are aligned all the same."""

    def sounds(word: str) -> list[str]:
        raise ValueError(word)

    placed = Aligner(sounds).place(passage, ["He", "was", "nottt", "an"])

    assert placed[2].start_s == placed[2].end_s == placed[1].end_s
    assert placed[3].start_s >= placed[2].end_s


def test_shared_out_by_letters() -> None:
    """Long words get more time; a word of nothing gets as much as one letter."""
    placed = shared_out(["left", "a", "", "hose"], 1.0, 2.0)

    assert [1.0, 1.4, 1.5, 1.6] == pytest.approx([place.start_s for place in placed])
    assert 2.0 == pytest.approx(placed[-1].end_s)
