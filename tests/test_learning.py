"""What a shop has to learn from: which files and walks count, and what is refused."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck import walkfolder
from saycheck.errors import SaycheckError
from saycheck.learning import own_narrations
from saycheck.models.walk import Walk
from saycheck.models.wishes import Patch, Wish
from saycheck.run import Asked, hear_file
from saycheck.standing import apply, standing
from saycheck.trusted import PAUSE_S, trusted

TEXT = "Left front tyre is good. The bucket is cracked. The lift cylinder is leaking."


@pytest.fixture(scope="module")
def heard(tmp_path_factory: pytest.TempPathFactory) -> Walk:
    """A walk read from ``TEXT``."""
    path = tmp_path_factory.mktemp("text") / "walk.txt"
    path.write_text(TEXT, encoding="utf-8")
    return hear_file(path, Asked("wheel-loader"))


@pytest.fixture
def lay(tmp_path: Path, heard: Walk) -> Callable[..., Path]:
    """Lays the walk, with what is given changed, into a folder of ``tmp_path``."""

    def put(name: str, **changed: object) -> Path:
        with walkfolder.writing(tmp_path / name) as draft:
            draft.write(heard.model_copy(update=changed))
        return tmp_path / name

    return put


def review(folder: Path, about: str = "", **patch: object) -> None:
    """Change the finding about a part, or take it off where nothing is put instead; then accept what is left."""
    walk = standing(folder).walk
    if about:
        ids = [one.id for one in walk.findings if one.part == about]
        patches = [Patch.model_validate(patch)] if patch else []
        apply(
            folder,
            Wish(action="change" if patch else "drop", who="Ann", findings=ids, patches=patches),
        )
    left = [one.id for one in standing(folder).walk.findings]
    apply(folder, Wish(action="accept", who="Ann", findings=left))


def test_all_kinds_count(tmp_path: Path, lay: Callable[..., Path]) -> None:
    """Transcripts, labelled narrations and reviewed walks are read; other files and open walks are not."""
    (tmp_path / "b.json").write_text(json.dumps({"machine": "wheel loader", "text": "Pins are dry."}))
    (tmp_path / "a.TXT").write_text("\ufeffHoses are good.", encoding="utf-8")
    (tmp_path / "notes.pdf").write_bytes(b"%PDF\0")
    review(lay("done"))
    lay("open")
    own = own_narrations(tmp_path)
    assert ["Hoses are good.", "Pins are dry.", TEXT] == own.texts
    assert (2, 1, 1) == (own.narrations, own.walks, own.unreviewed)


def test_the_same_words_count_once(tmp_path: Path) -> None:
    """A copy under another name, spaced otherwise, teaches nothing more."""
    (tmp_path / "a.txt").write_text("Pins are dry.")
    (tmp_path / "b.txt").write_text("Pins  are\ndry.")
    assert 1 == len(own_narrations(tmp_path).texts)


def test_a_walk_itself_counts(lay: Callable[..., Path]) -> None:
    """The folder may be one reviewed walk."""
    folder = lay("done")
    review(folder)
    assert [TEXT] == own_narrations(folder).texts


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("a.txt", b"", "'{path}' is empty; mend it, or take it out of the folder"),
        ("a.txt", b"RIFF\0\0\1", "'{path}' is no text; mend it, or take it out of the folder"),
        ("a.txt", b"... ?", "'{path}' holds no words; mend it, or take it out of the folder"),
        ("a.txt", b"12 34", "'{path}' holds no words; mend it, or take it out of the folder"),
        ("a.json", b"{\ntext,", "line 2 of '{path}' is not JSON; mend it, or take it out of the folder"),
        (
            "a.json",
            b'{"words": "Pins are dry."}',
            "'{path}' has no \"text\" in which the words of a narration stand; mend it, or take it out of the folder",
        ),
        (
            "a.json",
            b"[1]",
            "'{path}' has no \"text\" in which the words of a narration stand; mend it, or take it out of the folder",
        ),
    ],
)
def test_a_file_that_cannot_be_learned_from(tmp_path: Path, name: str, content: bytes, sentence: str) -> None:
    """It is named, with what to do."""
    (tmp_path / name).write_bytes(content)
    with pytest.raises(SaycheckError) as caught:
        own_narrations(tmp_path)
    assert sentence.format(path=tmp_path / name) == str(caught.value)


def test_a_link_to_nowhere(tmp_path: Path) -> None:
    """A file that is not there any more is named too."""
    (tmp_path / "a.txt").symlink_to(tmp_path / "gone")
    with pytest.raises(SaycheckError) as caught:
        own_narrations(tmp_path)
    assert (
        f"'{tmp_path / 'a.txt'}' cannot be read (No such file or directory); "
        "mend it, or take it out of the folder"
    ) == str(caught.value)


def test_a_folder_that_holds_nothing(tmp_path: Path, lay: Callable[..., Path]) -> None:
    """Missing, a file, empty, or full of walks that nobody reviewed: each has its sentence."""
    (tmp_path / "empty").mkdir()
    (tmp_path / "a.txt").write_text("Pins are dry.")
    lay("walks/open")
    put_in = "put in .txt files of what was said, labelled .json files, or walks that you have reviewed"
    cases = {
        "none": "there is no folder '{}' to learn from; name one that holds your narrations or reviewed walks",
        "a.txt": "'{}' is a file; name the folder that your narrations lie in",
        "empty": "there is nothing to learn from in '{}': no narration lies there; " + put_in,
        "walks": "there is nothing to learn from in '{}': none of its 1 walks is reviewed through; " + put_in,
    }
    for name, sentence in cases.items():
        with pytest.raises(SaycheckError) as caught:
            own_narrations(tmp_path / name)
        assert sentence.format(tmp_path / name) == str(caught.value)


def test_a_damaged_walk_is_told(tmp_path: Path) -> None:
    """A walk that cannot be read is named, as everywhere."""
    (tmp_path / "walk").mkdir()
    (tmp_path / "walk" / "walk.json").write_text("{")
    with pytest.raises(SaycheckError, match=r"walk\.json' is damaged"):
        own_narrations(tmp_path)


def test_what_a_person_put_right_stands_in_its_place(lay: Callable[..., Path]) -> None:
    """A corrected part takes the place of the words that were heard; a verdict alone changes no word."""
    folder = lay("changed")
    review(folder, "bucket", part="cutting edge")
    assert "Left front tyre is good. The\ncutting edge crack\nThe lift cylinder is leaking." == trusted(
        standing(folder)
    )
    other = lay("judged")
    review(other, "bucket", state="watch")
    assert TEXT == trusted(standing(other))


def test_what_a_person_took_off_is_left_out(lay: Callable[..., Path]) -> None:
    """The words of a finding that was no finding are not learned."""
    folder = lay("dropped")
    review(folder, "bucket")
    text = trusted(standing(folder))
    assert text is not None
    assert "bucket" not in text
    assert "cylinder is leaking" in text


def test_unsure_words_are_left_out_and_pauses_part(heard: Walk, lay: Callable[..., Path]) -> None:
    """A word below the confidence is left out; a long silence ends a breath."""
    words = [
        word.model_copy(
            update={
                "start_s": at + (PAUSE_S + 0.1 if at > 8 else 0.0),
                "end_s": at + 1.0 + (PAUSE_S + 0.1 if at > 8 else 0.0),
                "confidence": 0.5 if word.text == "front" else 0.9,
            }
        )
        for at, word in enumerate(heard.transcript.words)
    ]
    folder = lay("timed", transcript=heard.transcript.model_copy(update={"words": words}))
    review(folder)
    assert ["Left", "tyre is good. The bucket is cracked.", "The lift cylinder is leaking."] == str(
        trusted(standing(folder))
    ).splitlines()


def test_an_unclear_passage_is_left_out(heard: Walk, lay: Callable[..., Path]) -> None:
    """What was not made out is not learned, also where a person settled it as talk."""
    (first, *others) = heard.transcript.spans
    spans = [first.model_copy(update={"disposition": "unclear", "finding_ids": []}), *others]
    folder = lay("unclear", transcript=heard.transcript.model_copy(update={"spans": spans}))
    assert trusted(standing(folder)) is None
    review(folder)
    text = trusted(standing(folder))
    assert text is not None
    apply(folder, Wish(action="settle", who="Ann", start=first.char_start, end=first.char_end))
    assert text == trusted(standing(folder))
    assert heard.transcript.text[first.char_start : first.char_end].strip() not in text
    assert "lift cylinder is leaking" in text


def test_nobody_has_looked(lay: Callable[..., Path]) -> None:
    """A walk without any edit teaches nothing, however sure it was."""
    assert trusted(standing(lay("open"))) is None
