"""The trade ear on real and on made-up sound."""

import shutil
from pathlib import Path

import numpy as np
import pytest

from saycheck.errors import EarError
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.language.kneser_ney import estimate
from saycheck.hearing.language.learned import LEARNED, choose, keep
from saycheck.hearing.language.lookup import WordModel
from saycheck.hearing.language.model import Language, write_dictionary
from saycheck.hearing.language.sentences import Spelling
from saycheck.hearing.language.talk import Talk
from saycheck.hearing.trade_ear import TradeEar
from saycheck.vocabulary.load import load

PROSE = Path("/usr/share/pocketsphinx/test/data/librivox/sense_and_sensibility_01_austen_64kb-0880.wav")
COMMAND = Path("/usr/share/pocketsphinx/test/data/goforward.raw")
"""A person saying "go forward ten meters"; source: Debian's pocketsphinx-testdata."""


def small_language(folder: Path, lines: list[str]) -> Language:
    """A language model of a few lines."""
    model = estimate([line.split() for line in lines])
    model.write_arpa(folder / "words.arpa")
    write_dictionary(model.words, folder / "words.dict")
    words = WordModel(model, Spelling(Talk({}, (), {})))
    return Language(folder / "words.arpa", folder / "words.dict", words)


@pytest.fixture(scope="module")
def ear(tmp_path_factory: pytest.TempPathFactory) -> TradeEar:
    lines = ["go forward ten metres", "go back four metres", "left pin dry", "ten mil", "forward"]
    return TradeEar(small_language(tmp_path_factory.mktemp("language"), lines))


@pytest.mark.sound
def test_what_a_shop_calls_its_parts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Words that no vocabulary has are heard once they have been learned from the shop's narrations, not before."""
    if shutil.which("festival") is None:
        pytest.skip("festival is not installed; it comes with Debian's packages festival, festvox-us-slt-hts")
    from speak import speak

    monkeypatch.setenv(LEARNED, "")
    said = "the snood plate is spalled"
    phrase = Phrase(speak(f"{said}.", "slt-hts", cache=tmp_path), 0.0)
    vocabulary = load("wheel-loader")
    before = [word.text for word in TradeEar.for_machine(vocabulary).hear(phrase).words]
    own = ["Snood plate is bent. The widget box is sound.", "The snood plate is spalled at the corner."]
    choose(keep(own, tmp_path))
    after = [word.text for word in TradeEar.for_machine(vocabulary).hear(phrase).words]
    assert said.split() == after
    assert "snood" not in before


def command() -> Samples:
    if not COMMAND.exists():
        pytest.skip(f"{COMMAND} is not there; it comes with Debian's pocketsphinx-testdata")
    return np.asarray(np.frombuffer(COMMAND.read_bytes(), "<i2") / 32768, np.float32)


@pytest.mark.sound
def test_a_person(ear: TradeEar) -> None:
    """Human speech is heard right, in order, at times within the sound."""
    sound = command()
    hearing = ear.hear(Phrase(sound, 10.0))
    assert "go forward ten metres" == " ".join(word.text for word in hearing.words)
    starts = [word.start_s for word in hearing.words]
    assert starts == sorted(starts)
    assert 10 <= starts[0] < hearing.words[-1].end_s <= 10 + len(sound) / SAMPLE_RATE + 0.05
    assert all(0 <= word.confidence <= 1 for word in hearing.words)


@pytest.mark.sound
def test_confidence_tells(ear: TradeEar) -> None:
    """It is a posterior, not a constant: of a sentence the ear knows each word is likelier than not, and over
    a read book, of which it knows no word, it wavers.
    """
    if not PROSE.exists():
        pytest.skip(f"{PROSE} is not there; it comes with Debian's pocketsphinx-testdata")
    known = [word.confidence for word in ear.hear(Phrase(command(), 0.0)).words]
    prose = np.asarray(np.frombuffer(PROSE.read_bytes()[44:], "<i2") / 32768, np.float32)
    unknown = [word.confidence for word in ear.hear(Phrase(prose, 0.0)).words]
    assert 0.5 < min(known)
    assert min(unknown) < 0.5
    assert np.mean(unknown) < np.mean(known)


@pytest.mark.sound
def test_other_readings_differ(ear: TradeEar) -> None:
    """Other readings are other words, none twice."""
    hearing = ear.hear(Phrase(command(), 0.0))
    readings = [[word.text for word in hearing.words], *hearing.others]
    assert len(readings) == len({tuple(reading) for reading in readings})


@pytest.mark.sound
@pytest.mark.parametrize("seconds", [0.0, 0.05, 0.2, 2.0])
def test_silence(ear: TradeEar, seconds: float) -> None:
    """Silence of any length holds no words, and does not upset the ear."""
    assert [] == ear.hear(Phrase(np.zeros(int(seconds * SAMPLE_RATE), np.float32), 0.0)).words


def test_broken_model(tmp_path: Path) -> None:
    """A language model that cannot be read is told with its folder."""
    language = small_language(tmp_path, ["left pin dry"])
    language.arpa.write_text("nonsense", encoding="utf-8")
    with pytest.raises(EarError) as caught:
        TradeEar(language)
    assert f"the trade ear cannot load its model '{tmp_path}'; delete that folder, try again" == str(
        caught.value
    )
