"""Edited walks taken in quickly are what the whole of them says."""

import random
from pathlib import Path

import pytest

from saycheck import walkfolder
from saycheck.errors import SaycheckError
from saycheck.history import take
from saycheck.models.wishes import Number, Patch, Wish
from saycheck.run import Asked, hear_file
from saycheck.standing import apply, standing

TEXT = (
    "Tyres are all good. Left front tyre has a cut, watch that. The bucket is cracked, write that up. Lights all "
    "work bar the left tail light, that one is broken. Seat belt works. Cutting edge is worn down to twenty "
    "millimetres. Hoses are good. Lift cylinder on the left is leaking. Wheel nuts are tight. Engine oil is low, "
    "down a quart. Left mirror is cracked. Fire extinguisher is fine. Cab glass is good."
)
PATCHES = (
    Patch(state="watch"), Patch(state="good", condition="good"), Patch(state="writeup"), Patch(side="left"),
    Patch(side="right"), Patch(part="bucket"), Patch(part="lights"), Patch(part="front tyre", side="left"),
    Patch(state="hidden"), Patch(measurements=[Number(value=12, unit="mm")]),
    Patch(part="cutting edge", condition="worn", measurements=[Number(value=9.5, unit="mm")]),
)  # fmt: skip


def wish(folder: Path, chance: random.Random) -> Wish:
    """Something a reviewer may do now; it need not make sense."""
    now = standing(folder)
    names = [one.id for one in now.walk.findings]
    action = chance.choice(
        ["accept", "accept", "change", "change", "change", "split", "merge", "drop", "add", "answer", "machine",
         "undo", "redo", "settle"]
    )  # fmt: skip
    many = {"split": 1, "merge": 2, "accept": 1, "change": 1, "drop": 1}.get(action, 0)
    patches = {"change": 1, "split": 2, "add": 1}.get(action, 0)
    questions = [one.id for one in now.open_questions]
    start = chance.randrange(len(TEXT) - 30)
    placed = action in ("add", "settle")
    return Wish(
        action=action,  # type: ignore[arg-type]
        who="Ann",
        findings=chance.sample(names, min(many, len(names))),
        patches=[chance.choice(PATCHES) for _ in range(patches)],
        question=chance.choice(questions) if action == "answer" and questions else None,
        reason="seen" if action == "answer" else "",
        start=start if placed else None,
        end=start + 20 if placed else None,
        unit="Loader Eight" if action == "machine" else None,
        hours=4900 if action == "machine" else None,
    )


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A walk to be edited."""
    there = tmp_path_factory.mktemp("edited")
    (there / "walk.txt").write_text(TEXT, encoding="utf-8")
    walk = hear_file(there / "walk.txt", Asked("wheel-loader", unit="Loader Seven", hours=4800))
    with walkfolder.writing(there / "walk") as draft:
        draft.write(walk)
    return there / "walk"


@pytest.mark.parametrize("seed", range(6))
def test_quick_and_whole_agree(folder: Path, seed: int) -> None:
    """Whatever people do to a walk, the history takes the same from it either way."""
    chance = random.Random(seed)
    (folder / walkfolder.EDITS).unlink(missing_ok=True)
    done, quickly = 0, 0
    for _ in range(18):
        try:
            apply(folder, wish(folder, chance))
        except SaycheckError:
            continue  # what makes no sense is refused
        done += 1
        quick = take._edited(folder, "one")
        quickly += quick is not None
        assert take._standing(folder, "one") == (quick or take._standing(folder, "one"))
    assert done >= 5
    assert quickly == done


def test_edits_of_another_hearing_are_left_to_the_whole(folder: Path, tmp_path: Path) -> None:
    """Where a walk was heard again the quick way gives no answer, and the history still takes it."""
    from saycheck.review.edits import read

    (folder / walkfolder.EDITS).unlink(missing_ok=True)
    apply(folder, Wish(action="accept", who="Ann", findings=[standing(folder).walk.findings[0].id]))
    walk = walkfolder.read(folder)
    other = tmp_path / "other"
    moved = [one.model_copy(update={"char_start": 1, "char_end": 3}) for one in walk.findings[0].evidence]
    findings = [walk.findings[0].model_copy(update={"evidence": moved}), *walk.findings[1:]]
    with walkfolder.writing(other) as draft:
        draft.write(walk.model_copy(update={"findings": findings}))
    (other / walkfolder.EDITS).write_bytes((folder / walkfolder.EDITS).read_bytes())
    assert 1 == len(read(other))
    assert take._edited(other, "one") is None
    assert 1 == take.take(other, "one").edits
