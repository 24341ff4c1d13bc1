"""The built-in ear on human and on synthetic speech."""

import importlib.util
import shutil
import wave
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from saycheck.errors import EarError
from saycheck.hearing import speech_model
from saycheck.hearing.bias import Bias, GeneralEnglish
from saycheck.hearing.builtin_ear import BuiltinEar, PlainBuiltinEar
from saycheck.hearing.ear import SAMPLE_RATE, Ear, Phrase, Samples
from saycheck.hearing.spoken import plain
from saycheck.models.hearing import Hearing

pytestmark = pytest.mark.sound

HUMAN = Path("/usr/share/pocketsphinx/test/data/librivox")


class FewWords:
    """Stands in for the vocabulary's language model: a handful of words, likelier than in general."""

    WORDS = frozenset("gland glands weeping bucket teeth edge tilt cylinder lift rod clean dry".split())

    def knows(self, word: str) -> bool:
        """Whether it is one of the few."""
        return word in self.WORDS

    def logp10(self, history: tuple[str, ...], word: str) -> float:
        """One in twenty."""
        return -1.3


@pytest.fixture(scope="module")
def ear() -> BuiltinEar:
    """The ear with a small vocabulary."""
    return BuiltinEar(Bias(FewWords(), GeneralEnglish()))


@pytest.fixture(scope="module")
def plain_ear() -> PlainBuiltinEar:
    """The library as it comes."""
    return PlainBuiltinEar()


@pytest.fixture(scope="module")
def say(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Samples]:
    """Speaks a text with festival's HTS voice."""
    if shutil.which("festival") is None:
        pytest.skip("festival is not installed; it comes with Debian's packages festival, festvox-us-slt-hts")
    from speak import speak

    folder = tmp_path_factory.mktemp("sound")
    return lambda text: speak(text, "slt-hts", cache=folder)


def said(hearing: Hearing) -> list[str]:
    """The plain form of what was heard."""
    return [plain(word.text) for word in hearing.words]


def human() -> list[tuple[str, Samples]]:
    """Passages with their transcripts; source: LibriVox, in Debian's pocketsphinx-testdata."""
    if not HUMAN.is_dir():
        pytest.skip("no human speech here; it comes with Debian's package pocketsphinx-testdata")
    passages = []
    for line in (HUMAN / "transcription").read_text(encoding="utf-8").splitlines():
        text, _, name = line.rpartition(" ")
        with wave.open(str(HUMAN / f"{name.strip('()')}.wav")) as sound:
            raw = np.frombuffer(sound.readframes(sound.getnframes()), "<i2")
        passages.append((text.removeprefix("<s>").removesuffix("</s>"), np.asarray(raw / 32768, np.float32)))
    return passages


def errors(ear: Ear, passages: list[tuple[str, Samples]]) -> float:
    """Word error rate by jiwer over all passages, hyphens parting words."""
    import jiwer

    heard = [" ".join(said(ear.hear(Phrase(sound, 0.0)))).replace("-", " ") for _, sound in passages]
    return float(jiwer.wer([text.strip() for text, _ in passages], heard))


def test_human_speech_no_worse_than_plain(ear: BuiltinEar, plain_ear: PlainBuiltinEar) -> None:
    """A trade vocabulary must not spoil plain English: both below 0.10, and ours not above the library's."""
    passages = human()

    ours, theirs = errors(ear, passages), errors(plain_ear, passages)

    assert theirs < 0.10
    assert ours <= theirs


def test_vocabulary_turns_a_word(ear: BuiltinEar, say: Callable[[str], Samples]) -> None:
    """What general English hears as something else is a gland to the trade."""
    sound = say("Tilt cylinder rod clean. Gland weeping. Lift cylinders, both dry.")

    without = said(BuiltinEar().hear(Phrase(sound, 0.0)))
    heard = said(ear.hear(Phrase(sound, 0.0)))

    assert ["gland", "weeping"] == heard[4:6]
    assert "clean" in heard
    assert heard != without or "gland" in without


def test_words_have_times_and_confidences(ear: BuiltinEar, say: Callable[[str], Samples]) -> None:
    """Times are seconds of the recording, in order, inside the phrase; sentence marks stay on the words."""
    phrase = Phrase(say("Both lift cylinders are dry. The left front tire is flat."), 40.0)

    words = ear.hear(phrase).words

    assert "." in words[-1].text
    assert all(0 < word.confidence <= 1 for word in words)
    assert all(one.end_s <= two.start_s + 1e-9 for one, two in pairwise(words))
    assert 40.4 < words[0].start_s < 40.8  # half a second of silence goes before
    assert phrase.end_s - 1.7 < words[-1].end_s < phrase.end_s - 0.9  # silence after, too


def test_other_readings_differ_from_the_first(ear: BuiltinEar, say: Callable[[str], Samples]) -> None:
    """Each is a whole reading of the phrase, and none says the same words."""
    hearing = ear.hear(Phrase(say("The gland is weeping and the bucket teeth are gone."), 0.0))

    readings = ["".join(said(hearing)), *("".join(map(plain, other)) for other in hearing.others)]

    assert 2 <= len(readings) == len(set(readings))
    assert all(len(reading) > len(readings[0]) / 2 for reading in readings)


def test_a_long_phrase_is_heard_to_its_end(ear: BuiltinEar, say: Callable[[str], Samples]) -> None:
    """Sound beyond half a minute is cut inside the ear; times go on across the cut."""
    sentence = "The left lift cylinder is dry and the right one is dry too. "
    sound = say(sentence * 12)
    phrase = Phrase(sound, 0.0)
    assert len(sound) > 30 * SAMPLE_RATE

    words = ear.hear(phrase).words

    assert 12 * 13 * 0.85 < len(words) < 12 * 13 * 1.15
    assert words[-1].end_s > phrase.end_s - 1.5
    assert all(one.start_s <= two.start_s for one, two in pairwise(words))


@pytest.mark.parametrize("seconds", [0.0, 0.001, 0.124])
def test_too_short_for_a_word(ear: BuiltinEar, plain_ear: PlainBuiltinEar, seconds: float) -> None:
    """No sound, no words, no failure."""
    phrase = Phrase(np.zeros(int(seconds * SAMPLE_RATE), np.float32), 0.0)

    assert [] == ear.hear(phrase).words
    assert [] == plain_ear.hear(phrase).words


@pytest.mark.parametrize("level", [0.0, 1e-4, 0.05, 1.0])
def test_noise_gives_no_flood(ear: BuiltinEar, level: float) -> None:
    """On noise the network makes up a word or two; it must not go on for ever."""
    noise = np.random.default_rng(3).normal(0, level, 12 * SAMPLE_RATE).astype(np.float32)

    assert len(ear.hear(Phrase(noise, 0.0)).words) <= 12


def test_broken_samples_do_not_crash(ear: BuiltinEar) -> None:
    """Not-a-number and far too loud samples are heard as something, or as nothing."""
    broken = np.full(2 * SAMPLE_RATE, np.nan, np.float32)
    loud = np.full(2 * SAMPLE_RATE, 1e6, np.float32)

    assert len(ear.hear(Phrase(broken, 0.0)).words) <= 4
    assert len(ear.hear(Phrase(loud, 0.0)).words) <= 4


@pytest.mark.parametrize(
    ("there", "says"),
    [
        (
            False,
            "the built-in ear needs the package moonshine-voice, which is not installed;"
            " run: pip install moonshine-voice==0.1.0",
        ),
        (
            True,
            "the installed moonshine-voice carries no English model ({folder}/assets/tiny-en lacks"
            " encoder_model.ort, decoder_model_merged.ort, tokenizer.bin);"
            " run: pip install moonshine-voice==0.1.0",
        ),
    ],
)
def test_a_missing_model_says_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there: bool, says: str
) -> None:
    """The package may be absent, or a later one that holds no model."""
    folder = tmp_path / "moonshine_voice"
    if there:
        folder.mkdir()
        (folder / "__init__.py").touch()
    monkeypatch.setattr(speech_model, "_PACKAGE", "moonshine_voice" if there else "no_such_voice")
    if there:
        spec = importlib.util.spec_from_file_location(
            "moonshine_voice", folder / "__init__.py", submodule_search_locations=[str(folder)]
        )
        monkeypatch.setattr(importlib.util, "find_spec", lambda name: spec)

    with pytest.raises(EarError) as error:
        BuiltinEar()

    assert says.format(folder=folder) == str(error.value)


def test_a_damaged_model_says_what_to_install(tmp_path: Path) -> None:
    """A model file that onnxruntime cannot read."""
    real = speech_model.model_folder()
    for name in ("encoder_model.ort", "decoder_model_merged.ort", "tokenizer.bin"):
        (tmp_path / name).write_bytes((real / name).read_bytes()[: 100_000 if name.endswith("ort") else None])

    with pytest.raises(
        EarError, match=r"cannot load .*encoder_model.ort; install moonshine-voice==0.1.0 again"
    ):
        speech_model.SpeechModel(tmp_path)
