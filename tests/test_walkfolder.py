"""The walk folder: nothing half-written, nothing overwritten unasked, no edit lost."""

import errno
import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck import walkfolder
from saycheck.errors import WalkError
from saycheck.models.walk import Walk
from saycheck.walkfolder import free_folder, kept_name, read, writing

MakeWalk = Callable[..., Walk]


def write(
    folder: Path, walk: Walk, replace: bool = False, sound: bytes = b"", source: Path | None = None
) -> None:
    """Write a walk the way ``hear`` does."""
    with writing(folder, replace) as draft:
        if sound:
            draft.sound.write_bytes(sound)
        if source:
            draft.keep(source, source.name)
        draft.write(walk)


def names(folder: Path) -> list[str]:
    """What a folder holds, hidden files too."""
    return sorted(path.name for path in folder.iterdir())


def test_a_walk_comes_back_as_it_was_written(tmp_path: Path, make_walk: MakeWalk) -> None:
    """Writing and reading a walk gives the same walk."""
    walk = make_walk("Öl is low – “watch”.")
    write(tmp_path / "walk", walk)
    assert walk == read(tmp_path / "walk")
    assert walk == read(tmp_path / "walk" / "walk.json")


def test_the_json_is_plain_utf_8_in_the_order_of_the_design(tmp_path: Path, make_walk: MakeWalk) -> None:
    """Outside scripts find the schema first, one space of indent and no escapes."""
    write(tmp_path / "walk", make_walk("Öl"))
    text = (tmp_path / "walk" / "walk.json").read_text(encoding="utf-8")
    assert text.startswith('{\n "schema": "saycheck.walk/1",\n "id": "2025-03-09-abcd1234",\n')
    assert '"text": "Öl"' in text
    assert text.endswith("}\n")
    assert ["schema", "id", "machine", "source", "transcript", "findings", "checklist", "questions"] == list(
        json.loads(text)
    )[:8]


def test_sound_and_original_lie_beside_the_walk(tmp_path: Path, make_walk: MakeWalk, narration: Path) -> None:
    """The folder holds what was heard and what was given, byte for byte."""
    folder = tmp_path / "new" / "walk"
    write(folder, make_walk(), sound=b"flac", source=narration)
    assert ["sound.flac", "walk.json", "yard walk.txt"] == names(folder)
    assert narration.read_bytes() == (folder / "yard walk.txt").read_bytes()
    assert ["walk"] == names(tmp_path / "new")


def test_the_folder_may_be_entered_like_any_other(tmp_path: Path, make_walk: MakeWalk) -> None:
    """A walk folder has the rights that the user's umask gives, not those of a temporary folder."""
    (tmp_path / "plain").mkdir()
    write(tmp_path / "walk", make_walk())
    assert (tmp_path / "plain").stat().st_mode == (tmp_path / "walk").stat().st_mode


@pytest.mark.parametrize(
    ("given", "kept"),
    [
        ("yard.m4a", "yard.m4a"),
        ("../far/yard.m4a", "yard.m4a"),
        ("sound.flac", "original-sound.flac"),
        ("walk.json", "original-walk.json"),
        ("edits.jsonl", "original-edits.jsonl"),
        ("walk-2025-03-09.json", "original-walk-2025-03-09.json"),
        (".hidden", "original-.hidden"),
        ("", "original-"),
    ],
)
def test_an_original_keeps_its_name_unless_the_folder_uses_it(given: str, kept: str) -> None:
    """An original never takes the place of a file of ours."""
    assert kept == kept_name(given)


def test_an_original_named_like_our_sound_does_not_replace_it(tmp_path: Path, make_walk: MakeWalk) -> None:
    """A recording called sound.flac is kept beside the sound as heard, and found again."""
    source = tmp_path / "sound.flac"
    source.write_bytes(b"original")
    walk = make_walk(source={"name": "sound.flac", "sha256": "0" * 64, "duration_s": 1.0})
    write(tmp_path / "walk", walk, sound=b"heard", source=source)
    assert b"heard" == (tmp_path / "walk" / "sound.flac").read_bytes()
    original = walkfolder.original(tmp_path / "walk", walk)
    assert original is not None
    assert b"original" == original.read_bytes()


@pytest.mark.parametrize("held", ["walk.json", "edits.jsonl", "sound.flac", "write-up.pdf"])
def test_a_folder_that_holds_a_walk_is_not_written_to(tmp_path: Path, make_walk: MakeWalk, held: str) -> None:
    """Any file of a walk keeps another walk out, before anything is heard."""
    folder = tmp_path / "walk"
    folder.mkdir()
    (folder / held).write_text("earlier")
    with pytest.raises(WalkError) as caught, writing(folder):
        pytest.fail("the draft was begun")
    assert (
        f"'{folder}' already holds a walk; name another folder with --out, "
        "or say --replace, which keeps its edits" == str(caught.value)
    )
    assert "earlier" == (folder / held).read_text()


def test_replacing_keeps_the_edits_and_moves_the_earlier_walk_aside(
    tmp_path: Path, make_walk: MakeWalk
) -> None:
    """After --replace the edits, the earlier walk and an earlier sound of other content are still there."""
    folder = tmp_path / "walk"
    write(folder, make_walk("first"), sound=b"one")
    (folder / "edits.jsonl").write_text('{"edit": 1}\n')
    os.utime(folder / "walk.json", (1_741_500_000, 1_741_500_000))
    os.utime(folder / "sound.flac", (1_741_500_000, 1_741_500_000))
    write(folder, make_walk("second"), replace=True, sound=b"two")
    os.utime(folder / "walk.json", (1_741_500_000, 1_741_500_000))
    write(folder, make_walk("third"), replace=True, sound=b"two")
    assert "third" == read(folder).transcript.text
    assert '{"edit": 1}\n' == (folder / "edits.jsonl").read_text()
    assert [
        "edits.jsonl",
        "sound-2025-03-09.flac",
        "sound.flac",
        "walk-2025-03-09-2.json",
        "walk-2025-03-09.json",
        "walk.json",
    ] == names(folder)
    assert "first" in (folder / "walk-2025-03-09.json").read_text()
    assert "second" in (folder / "walk-2025-03-09-2.json").read_text()
    assert b"one" == (folder / "sound-2025-03-09.flac").read_bytes()


def test_other_files_in_the_folder_are_left_alone(tmp_path: Path, make_walk: MakeWalk) -> None:
    """A folder that holds no walk may be used, and what lies in it stays."""
    (tmp_path / "photo.jpg").write_bytes(b"jpg")
    write(tmp_path, make_walk())
    assert ["photo.jpg", "walk.json"] == names(tmp_path)


class BrokenError(Exception):
    """Stands for whatever fails while a walk is being made."""


@pytest.mark.parametrize("failure", [BrokenError, KeyboardInterrupt, MemoryError])
@pytest.mark.parametrize("there_before", [False, True])
def test_leaving_with_an_error_leaves_nothing(
    tmp_path: Path, make_walk: MakeWalk, failure: type[BaseException], there_before: bool
) -> None:
    """Whatever fails, the target and its parents are as they were."""
    folder = tmp_path / "deep" / "down" / "walk"
    if there_before:
        folder.mkdir(parents=True)
    with pytest.raises(failure), writing(folder) as draft:
        draft.sound.write_bytes(b"half")
        draft.write(make_walk())
        raise failure
    assert ([] if there_before else None) == (names(folder) if folder.exists() else None)
    assert ["deep"] * there_before == names(tmp_path)


def test_leaving_without_a_walk_leaves_nothing(tmp_path: Path) -> None:
    """Sound without a walk.json is not a walk."""
    with writing(tmp_path / "walk") as draft:
        draft.sound.write_bytes(b"half")
    assert [] == names(tmp_path)


def test_a_replacement_that_fails_leaves_the_earlier_walk(tmp_path: Path, make_walk: MakeWalk) -> None:
    """Failing halfway through hearing again changes nothing."""
    write(tmp_path / "walk", make_walk("first"), sound=b"one")
    with pytest.raises(BrokenError), writing(tmp_path / "walk", replace=True) as draft:
        draft.sound.write_bytes(b"two")
        raise BrokenError
    assert ["sound.flac", "walk.json"] == names(tmp_path / "walk")
    assert b"one" == (tmp_path / "walk" / "sound.flac").read_bytes()


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        (errno.ENOSPC, "the disk is full: '{}' was not written; make room and start again"),
        (errno.EDQUOT, "the disk is full: '{}' was not written; make room and start again"),
        (
            errno.EROFS,
            "'{}' cannot be written (Read-only file system); choose a folder that you may write to",
        ),
        (errno.EACCES, "'{}' cannot be written (Permission denied); choose a folder that you may write to"),
    ],
)
@pytest.mark.parametrize("when", ["mkdtemp", "os.fsync", "Path.rename"])
def test_what_the_disk_refuses_has_its_sentence(
    tmp_path: Path,
    make_walk: MakeWalk,
    monkeypatch: pytest.MonkeyPatch,
    when: str,
    number: int,
    sentence: str,
) -> None:
    """A full or read-only disk is told in one sentence at whatever step it shows, and leaves nothing."""

    def refuse(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(f"saycheck.walkfolder.{when}", refuse)
    with pytest.raises(WalkError) as caught:
        write(tmp_path / "deep" / "walk", make_walk())
    assert sentence.format(tmp_path / "deep" / "walk") == str(caught.value)
    assert [] == names(tmp_path)


def test_two_runs_into_one_folder_do_not_mix(tmp_path: Path, make_walk: MakeWalk) -> None:
    """The later of two runs into the same new folder is told, and the earlier walk stays."""
    folder = tmp_path / "walk"
    with pytest.raises(WalkError) as caught, writing(folder) as draft:
        draft.write(make_walk("late"))
        write(folder, make_walk("early"))
    assert f"'{folder}' was made by another run meanwhile; name another folder with --out" == str(
        caught.value
    )
    assert "early" == read(folder).transcript.text
    assert ["walk"] == names(tmp_path)


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path: Path, narration: Path) -> None:
    """--out names a folder, not a file."""
    with pytest.raises(WalkError) as caught, writing(narration):
        pytest.fail("the draft was begun")
    assert f"'{narration}' is a file; name a folder to write the walk to with --out" == str(caught.value)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"{", "'{}' is damaged (line 1 is not JSON); hear the recording again"),
        (b"", "'{}' is damaged (line 1 is not JSON); hear the recording again"),
        (b"\xff\xff", "'{}' is damaged (it is not UTF-8); hear the recording again"),
        (
            b"[]",
            "'{}' is of version 'None' and this program reads 'saycheck.walk/1'; "
            "use the program that wrote it",
        ),
        (
            b'{"schema": "saycheck.walk/9"}',
            "'{}' is of version 'saycheck.walk/9' and this program reads 'saycheck.walk/1'; "
            "use the program that wrote it",
        ),
        (
            b'{"schema": "saycheck.walk/1"}',
            "'{}' is not as it should be: id: field required; hear the recording again",
        ),
    ],
)
def test_a_damaged_walk_is_told(tmp_path: Path, content: bytes, sentence: str) -> None:
    """A walk.json that is none says so, with the value and what to do."""
    path = tmp_path / "walk.json"
    path.write_bytes(content)
    with pytest.raises(WalkError) as caught:
        read(tmp_path)
    assert sentence.format(path) == str(caught.value)


@pytest.mark.parametrize("there", ["nothing", "empty folder", "other file"])
def test_a_folder_without_a_walk_is_told(tmp_path: Path, there: str, narration: Path) -> None:
    """Reading where no walk is says what to name."""
    folder = {"nothing": tmp_path / "none", "empty folder": tmp_path, "other file": narration}[there]
    with pytest.raises(WalkError) as caught:
        read(folder)
    assert f"there is no walk in '{folder}'; name a folder that holds walk.json" == str(caught.value)


@pytest.mark.parametrize(
    ("stem", "folder"),
    [
        ("Number Seven", "2025-03-09-number-seven"),
        ("yard walk (2)", "2025-03-09-yard-walk-2"),
        ("../../etc/passwd", "2025-03-09-etc-passwd"),
        ("Bagger Süd", "2025-03-09-bagger-süd"),
        ("", "2025-03-09"),
        ("x" * 300, "2025-03-09-" + "x" * 69),
    ],
)
def test_a_new_folder_is_named_after_day_and_unit(tmp_path: Path, stem: str, folder: str) -> None:
    """Without --out the walk goes to a folder of its own, whatever the unit is called."""
    assert tmp_path / folder == free_folder(stem, "2025-03-09", tmp_path)


def test_a_taken_folder_is_never_chosen(tmp_path: Path) -> None:
    """The second and third walk of a day get a number."""
    for name in ("2025-03-09-seven", "2025-03-09-seven-2"):
        (tmp_path / name).mkdir()
    assert tmp_path / "2025-03-09-seven-3" == free_folder("seven", "2025-03-09", tmp_path)
