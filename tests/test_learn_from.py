"""``--learn-from``: where the option, the environment and the configuration count, and what is told."""

import wave
from pathlib import Path

import pytest
from typer.testing import CliRunner

from saycheck.cli import app
from saycheck.hearing.language.learned import LEARNED, choose, chosen, digest, keep
from saycheck.models.walk import Source, Transcript, Word
from saycheck.run import Asked, Heard, walk_of
from saycheck.vocabulary.chosen import config_file
from saycheck.vocabulary.load import load


@pytest.fixture(autouse=True)
def nothing_chosen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test runs in a folder of its own, with its configuration there and nothing to learn yet."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv(LEARNED, "")
    monkeypatch.delenv("SAYCHECK_LEARN_FROM", raising=False)


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A shop's narrations."""
    folder = tmp_path / "own"
    folder.mkdir()
    (folder / "a.txt").write_text("The gribbler is dozy.")
    return folder


@pytest.fixture
def silence(tmp_path: Path) -> Path:
    """A recording on which nobody speaks."""
    with wave.open(str(tmp_path / "silence.wav"), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(16_000)
        sound.writeframes(bytes(32_000))
    return tmp_path / "silence.wav"


def told(*words: object, status: int) -> list[str]:
    """Run a command; returns the lines that went to standard error."""
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert status == result.exit_code, result.output
    return result.stderr.splitlines()


def hear(*words: object, ear: str = "trade") -> list[str]:
    """Hear a recording on which nobody speaks, which ends with an error after the ears are ready."""
    return told("hear", *words, "-m", "wheel-loader", "--ear", ear, status=2)


def test_the_ears_learn(own: Path, silence: Path) -> None:
    """What is learned is said, and every ear of the run finds it."""
    assert "the ears learn from 1 narration in 'own'" == hear(silence, "--learn-from", "own")[0]
    learned = chosen()
    assert learned is not None
    assert "the gribbler is dozy\n" == learned.read_text(encoding="utf-8")


def test_the_environment_counts_for_recordings(
    own: Path, silence: Path, narration: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder chosen once and for all is learned from where something is heard, not where a text is read."""
    monkeypatch.setenv("SAYCHECK_LEARN_FROM", str(own))
    assert f"the ears learn from 1 narration in '{own}'" == hear(silence)[0]
    monkeypatch.setenv(LEARNED, "")
    assert not any("learn" in line for line in told("hear", narration, "-m", "wheel-loader", status=0))
    assert chosen() is None


def test_the_configuration_counts(own: Path, silence: Path) -> None:
    """The key learn_from of config.toml names a folder, from where that file lies."""
    config_file().parent.mkdir(parents=True)
    config_file().write_text('learn_from = "../../own"\n')
    assert f"the ears learn from 1 narration in '{own}'" == hear(silence)[0]


@pytest.mark.parametrize(("ears", "learned"), [(["vosk", "trade"], True), (["vosk"], False), ([], False)])
def test_the_walk_tells_that_its_ears_had_learned(tmp_path: Path, ears: list[str], learned: bool) -> None:
    """The digest of what was learned stands in the walk, where an ear that learns has heard it."""
    file = keep(["The gribbler is dozy."], tmp_path)
    choose(file)
    words = [Word(text="Horn", char_start=0, char_end=4), Word(text="works.", char_start=5, char_end=11)]
    source = Source(name="yard.m4a", sha256="0" * 64, duration_s=2.0 if ears else 0.0)
    heard = Heard(Transcript(text="Horn works.", words=words), source, ears)
    walk = walk_of(heard, load("wheel-loader"), Asked("wheel-loader"))
    assert (digest(file) if learned else None) == walk.learned


@pytest.mark.parametrize("ear", ["plain", "vosk"])
def test_an_ear_that_cannot_learn(
    own: Path, silence: Path, monkeypatch: pytest.MonkeyPatch, ear: str
) -> None:
    """It is refused where the option was given; a folder chosen once and for all stands in nobody's way."""
    assert [f"the {ear} ear learns nothing; leave out --learn-from, or say --ear both"] == hear(
        silence, "--learn-from", own, ear=ear
    )
    monkeypatch.setenv("SAYCHECK_LEARN_FROM", str(own))
    assert not any("learn" in line for line in hear(silence, ear=ear))


@pytest.mark.parametrize(
    "command",
    [
        ["hear", "silence.wav", "-m", "wheel-loader"],
        ["hear", "yard walk.txt", "-m", "wheel-loader"],
        ["listen", "-m", "wheel-loader"],
        ["listen", "--resume"],
        ["answer", "walk"],
    ],
)
def test_a_folder_that_is_not_there(silence: Path, narration: Path, command: list[str]) -> None:
    """Every command that takes the option refuses it in the same sentence, before it does anything."""
    assert [
        "there is no folder 'gone' to learn from; name one that holds your narrations or reviewed walks"
    ] == told(*command, "--learn-from", "gone", status=2)
    assert not Path("walks").exists()
