"""Questions asked one after the other, by keyboard and by voice; nothing counts before it was read back."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from typer.testing import CliRunner

from saycheck.asking.given import Given, Recorded, Typed
from saycheck.asking.session import Session
from saycheck.cli import app
from saycheck.models.walk import Walk
from saycheck.review.edits import read
from saycheck.standing import standing


class Told:
    """A person at the keyboard who types these lines; what is shown is kept in ``shown``."""

    def __init__(self, *lines: str) -> None:
        self.lines: Iterator[str] = iter(lines)
        self.shown: list[str] = []

    def ask(self, prompt: str) -> str:
        """The next line, end of input after the last."""
        self.shown.append(prompt)
        try:
            return next(self.lines)
        except StopIteration:
            raise EOFError from None


def session(folder: Path, *lines: str) -> list[str]:
    """What is shown while these lines are typed."""
    person = Told(*lines)
    Session(folder, "Ada", Typed(person.ask), person.shown.append).run()
    return person.shown


def test_an_answer_counts_after_a_yes(folder: Path) -> None:
    """It is an edit with the words and the question, the finding has the number, and the question is closed."""
    shown = session(folder, "skip", "about twenty mil", "yes", "stop")
    assert "Cutting edge: watch, worn, 20 mm ± 2." in shown
    (edit,) = read(folder)
    assert ("change", "Ada", "keyboard") == (edit.action, edit.who, edit.way)
    assert edit.spoken is not None
    assert ("about twenty mil", "How thick is the cutting edge?", "") == (
        edit.spoken.words, edit.spoken.asked, edit.spoken.sound
    )  # fmt: skip
    after = standing(folder)
    measured = next(one.measurements for one in after.walk.findings if one.part == "cutting edge")
    assert [(20, "mm", 2, "thickness")] == [(m.value, m.unit, m.plus_minus, m.attribute) for m in measured]
    assert "measure-front-none-cutting-edge" not in [one.id for one in after.open_questions]


@pytest.mark.parametrize(
    "lines",
    [
        ("skip", "twenty mil", "no", "skip", "stop"),
        ("skip", "twenty mil"),  # the line is cut before the yes
        ("skip", "twenty mil", "stop"),
        ("skip", "twenty mil", "perhaps", "perhaps", "perhaps", "stop"),
        ("skip", "skip", "stop"),
        ("stop",),
        (),
    ],
)
def test_nothing_counts_without_a_yes(folder: Path, lines: tuple[str, ...]) -> None:
    """No, no answer, an end or anything else leaves the walk as it is."""
    walk = (folder / "walk.json").read_bytes()
    session(folder, *lines)
    assert [] == read(folder)
    assert walk == (folder / "walk.json").read_bytes()
    assert not (folder / "answers").exists()


def test_no_with_the_right_words_is_a_new_answer(folder: Path) -> None:
    """ "No, thirty millimetres" is read back in its turn."""
    session(folder, "skip", "thirteen millimetres", "no thirty millimetres", "yes", "stop")
    (edit,) = read(folder)
    assert [30] == [one.value for one in edit.after[0].measurements]


def test_some_of_a_zone_leaves_the_rest_open(folder: Path) -> None:
    """The question comes again with the parts that were not answered."""
    shown = session(
        folder, "skip", "skip", "skip", "tilt cylinder is leaking", "yes", "rest is fine", "yes", "stop"
    )
    asked = [line for line in shown if line.startswith("Front: ")]
    assert ["tilt cylinder" in line for line in asked] == [True, False]
    lines = {line.part: line.state for line in standing(folder).walk.checklist if line.zone == "front"}
    assert ("writeup", "good", "good") == (
        lines["tilt cylinder"], lines["bucket linkage"], lines["loader hoses"]
    )  # fmt: skip
    assert "skipped-front" not in [one.id for one in standing(folder).open_questions]


def test_what_is_answered_is_missed_no_more(folder: Path) -> None:
    """``saycheck missed`` tells what is left after the answers."""
    runner = CliRunner()
    before = runner.invoke(app, ["missed", str(folder)]).stdout
    assert "radiator grille" in before
    given = "skip\n" * 9 + "all fine\nyes\nstop\n"
    result = runner.invoke(app, ["answer", str(folder), "--name", "Ada"], input=given)
    assert 0 == result.exit_code, result.output
    assert "Good: counterweight, radiator grille and tow hitch." in result.stdout
    assert "1 answered, 19 left open" in result.stderr
    assert "radiator grille" not in runner.invoke(app, ["missed", str(folder)]).stdout


def test_every_question_can_be_left_open(folder: Path, walk: Walk) -> None:
    """Skip goes through all of them once and ends."""
    shown = session(folder, *["skip"] * 40)
    assert len(walk.questions) == shown.count("Left open.")


def test_a_walk_that_someone_else_answers_meanwhile(folder: Path) -> None:
    """The later answer to the same question is told and not taken."""
    person = Told("skip", "twenty mil", "yes", "stop")

    def ask(prompt: str) -> str:
        line = person.ask(prompt)
        if line == "yes":
            session(folder, "skip", "eighteen mil", "yes", "stop")
        return line

    Session(folder, "Ben", Typed(ask), person.shown.append).run()
    assert ["Ada"] == [edit.who for edit in read(folder)]
    assert any("is not open any more" in line for line in person.shown)


def test_recorded_answers_are_kept_with_their_sound(folder: Path, tmp_path: Path) -> None:
    """One file an answer; what one ear wrote is taken where the first reading answers nothing."""
    words = {
        "1.wav": ("loader seven",),
        "2.wav": ("a bout when tea mill", "about twenty mil"),
        "3.wav": ("mumble",),
    }
    files = []
    for name in words:
        (tmp_path / name).write_bytes(f"sound of {name}".encode())
        files.append(tmp_path / name)
    person = Told("yes", "yes")
    answers = Recorded(files, lambda path: words[path.name], Typed(person.ask))
    outcome = Session(folder, "Ada", answers, person.shown.append).run()
    assert 2 == outcome.answered
    assert "Not understood: “mumble”." in person.shown
    edits = read(folder)
    assert ["loader seven", "about twenty mil"] == [edit.spoken.words for edit in edits if edit.spoken]
    assert {"voice"} == {edit.way for edit in edits}
    for edit, name in zip(edits, ("1.wav", "2.wav"), strict=True):
        assert edit.spoken is not None
        kept = (folder / "answers" / edit.spoken.sound).read_bytes()
        assert f"sound of {name}".encode() == kept
        assert hashlib.sha256(kept).hexdigest() == edit.spoken.sha256
    assert 2 == len(list((folder / "answers").iterdir()))


def test_what_the_other_ear_heard_is_offered_after_a_no(folder: Path, tmp_path: Path) -> None:
    """Where the ears differ on a number, the second reading is read back when the first is refused."""
    (tmp_path / "1.wav").write_bytes(b"sound")
    heard = ("Eighteen mil.", "thirteen mil")
    session(folder, "number seven", "yes", "stop")
    person = Told("no", "yes")
    answers = Recorded([tmp_path / "1.wav"], lambda _: heard, Typed(person.ask))
    Session(folder, "Ada", answers, person.shown.append).run()
    edit = read(folder)[-1]
    assert [13] == [one.value for one in edit.after[0].measurements]
    assert edit.spoken is not None
    assert "thirteen mil" == edit.spoken.words


def test_work_that_can_hurt_brings_its_caution(folder: Path) -> None:
    """A write-up of a part with a caution tells it, as the view of a walk does."""
    shown = session(folder, *["skip"] * 3, "tilt cylinder is leaking", "yes", "stop")
    assert any(line.startswith("Take care: ") and "never feel for a leak by hand" in line for line in shown)


def test_a_disk_that_refuses_keeps_no_half_of_an_answer(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the edit cannot be written its sound is not left behind, and the error is one sentence."""
    from saycheck.asking import keep
    from saycheck.errors import WalkError

    def refuse(*_: object) -> None:
        raise WalkError("the disk is full")

    monkeypatch.setattr(keep, "append", refuse)
    (tmp_path / "1.wav").write_bytes(b"sound")
    person = Told("yes")
    answers = Recorded([tmp_path / "1.wav"], lambda _: ("number seven",), Typed(person.ask))
    with pytest.raises(WalkError):
        Session(folder, "Ada", answers, person.shown.append).run()
    assert [] == list((folder / "answers").iterdir())
    assert [] == read(folder)


def test_nothing_heard_is_no_answer(folder: Path, tmp_path: Path) -> None:
    """A silent recording leaves its question open and says so."""
    (tmp_path / "1.wav").write_bytes(b"silence")
    person = Told()
    answers = Recorded([tmp_path / "1.wav"], lambda _: (), Typed(person.ask))
    Session(folder, "Ada", answers, person.shown.append).run()
    assert "Nothing was heard." in person.shown
    assert [] == read(folder)


def test_given_holds_what_it_was_given() -> None:
    """A typed answer has no sound."""
    assert (None, None) == (Given(("yes",)).file, Given(("yes",)).samples)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--sound", "none.wav"], "there is no file 'none.wav'; check its name and folder"),
        (["--sound", "a.wav", "--voice"], "--sound and --voice are two ways to answer; say one of them"),
    ],
)
def test_bad_usage_is_one_sentence(folder: Path, words: list[str], sentence: str) -> None:
    """Status 2 and what to do."""
    result = CliRunner().invoke(app, ["answer", str(folder), *words])
    assert (2, f"{sentence}\n") == (result.exit_code, result.stderr)
