"""Answers that are really spoken: by recordings and by a microphone, through the ears of a walk."""

import wave
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from saycheck.asking.session import Session
from saycheck.asking.voice import AnswerEars, Spoken, recordings
from saycheck.capture.files import blocks
from saycheck.cli import app
from saycheck.errors import SoundError
from saycheck.review.edits import read
from saycheck.vocabulary.compiled import Vocabulary

RATE = 16_000


def said(path: Path, *texts: str) -> Path:
    """A recording in a synthetic voice: each text with two seconds of silence behind it."""
    speak = pytest.importorskip("speak")
    sounds = [np.zeros(RATE // 2)]
    for text in texts:
        try:
            sounds += [speak.speak(text, "slt"), np.zeros(2 * RATE)]
        except (OSError, RuntimeError, speak.subprocess.SubprocessError) as error:
            pytest.skip(f"the voice slt of flite is not here: {error}")
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes((np.clip(np.concatenate(sounds), -1, 1) * 32767).astype("<i2").tobytes())
    return path


@pytest.mark.sound
def test_a_folder_of_recordings_answers_in_order(folder: Path, tmp_path: Path) -> None:
    """Each is heard in the light of its question, read back, and kept as it was recorded."""
    answers = tmp_path / "answers"
    answers.mkdir()
    texts = (
        "loader seven", "about twenty mil", "skip", "all good except the tilt cylinder is weeping", "leaking",
        "they hang", "no cracks",
    )  # fmt: skip
    for number, text in enumerate(texts, 1):
        said(answers / f"{number}.wav", text)
    result = CliRunner().invoke(
        app, ["answer", str(folder), "--sound", str(answers), "--name", "Ada"], input="yes\n" * 7
    )
    assert 0 == result.exit_code, result.output
    for line in (
        "The unit is “Loader seven”.",
        "Cutting edge: watch, worn, 20 mm ± 2.",
        "Watch, leak: tilt cylinder.",
        "Write up: leak holds.",
        "Drops form but do not fall; nothing else is changed.",
        "Articulation joint: good, no crack.",
    ):
        assert line in result.stdout
    edits = read(folder)
    assert 6 == len(edits)
    for edit, name in zip(edits, ("1.wav", "2.wav", "4.wav", "5.wav", "6.wav", "7.wav"), strict=True):
        assert edit.spoken is not None
        assert (answers / name).read_bytes() == (folder / "answers" / edit.spoken.sound).read_bytes()


@pytest.mark.sound
def test_a_conversation_with_a_microphone(folder: Path, tmp_path: Path, vocabulary: Vocabulary) -> None:
    """Question, answer, read back, yes: all by voice; what the microphone heard is kept as FLAC."""
    whole = said(tmp_path / "all.wav", "loader seven", "yes", "about twenty mil", "yes", "stop")

    class Microphone:
        """Gives the sound as fast as it is asked for, silence behind its end."""

        name, overruns, lost_s, gone, frames_in = "stand-in", 0, 0.0, False, 0

        def __init__(self) -> None:
            with wave.open(str(whole)) as file:
                self.sound = np.frombuffer(file.readframes(file.getnframes()), "<i2")
            self.waiting = True

        def take(self) -> np.ndarray:
            if self.waiting:  # what came in before the question is let go
                self.waiting = False
                return np.zeros(0, np.int16)
            piece, self.sound = self.sound[:1600], self.sound[1600:]
            return piece if len(piece) else np.zeros(1600, np.int16)

        def close(self) -> None:
            """Nothing to let go of."""

    shown: list[str] = []
    aloud: list[str] = []
    with AnswerEars(vocabulary) as ears:
        Session(folder, "Ada", Spoken(Microphone(), ears, aloud.append), shown.append).run()
    edits = read(folder)
    assert ["machine", "change"] == [edit.action for edit in edits], shown
    assert {"voice"} == {edit.way for edit in edits}
    assert "Which unit is this? Give its name or number." in aloud
    for edit in edits:
        assert edit.spoken is not None
        kept = np.concatenate(list(blocks(folder / "answers" / edit.spoken.sound)))
        assert 0.5 < len(kept) / RATE < 5
        assert np.abs(kept).max() > 0.1


def test_recordings_come_by_name(tmp_path: Path) -> None:
    """One file is one answer; a folder gives its files in order, hidden ones left out."""
    for name in ("b.wav", "a.m4a", ".DS_Store"):
        (tmp_path / name).write_bytes(b"x")
    assert ["a.m4a", "b.wav"] == [path.name for path in recordings(tmp_path)]
    assert [tmp_path / "b.wav"] == recordings(tmp_path / "b.wav")


def test_an_empty_folder_of_recordings(tmp_path: Path) -> None:
    """It says what is wanted there."""
    with pytest.raises(SoundError) as raised:
        recordings(tmp_path)
    assert f"there is no recording in '{tmp_path}'; put one for each answer there" == str(raised.value)
