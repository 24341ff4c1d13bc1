"""A small walk on the disk to review, and edits of it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from saycheck import walkfolder
from saycheck.models.review import Action, Edit
from saycheck.models.walk import Finding, Walk
from saycheck.review.edits import new_id, now
from saycheck.review.hearing import fingerprint
from saycheck.run import Asked, hear_file

TEXT = (
    "Left front tyre is good. The bucket is cracked, write that up. Seat belt works. "
    "You always want to look for cracks there. Cutting edge is worn down to about twenty mil. "
    "Lift cylinder is leaking. Something is leaking under there."
)


@pytest.fixture(scope="session")
def heard(tmp_path_factory: pytest.TempPathFactory) -> Walk:
    """The walk that ``TEXT`` makes."""
    path = tmp_path_factory.mktemp("text") / "yard walk.txt"
    path.write_text(TEXT, encoding="utf-8")
    return hear_file(path, Asked("wheel-loader", unit="Number Seven", hours=4812))


def lay(folder: Path, walk: Walk) -> Path:
    """A walk folder with that walk."""
    with walkfolder.writing(folder, replace=True) as draft:
        draft.write(walk)
    return folder


@pytest.fixture
def folder(tmp_path: Path, heard: Walk) -> Path:
    """The walk as a folder."""
    return lay(tmp_path / "walk", heard)


Make = Callable[..., Edit]


@pytest.fixture
def edit(heard: Walk) -> Make:
    """Makes an edit of the walk; keywords replace what it holds."""

    def make(action: Action, before: list[Finding] | None = None, after: list[Finding] | None = None,
             **other: object) -> Edit:  # fmt: skip
        given = {"who": "Ann", "heard": fingerprint(heard), **other}
        return Edit(
            id=new_id(),
            at=now(),
            action=action,
            before=before or [],
            after=after or [],
            **given,  # type: ignore[arg-type]
        )

    return make


def part(walk: Walk, name: str) -> Finding:
    """The one finding about a part."""
    (found,) = [finding for finding in walk.findings if finding.part == name]
    return found
