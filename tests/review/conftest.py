"""A small walk on the disk to review, and edits of it."""

import zlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from saycheck import walkfolder
from saycheck.capture.keep import KeptSound
from saycheck.coverage.questions import questions
from saycheck.hearing.ear import SAMPLE_RATE, Samples
from saycheck.models.hearing import Passage
from saycheck.models.review import Action, Edit
from saycheck.models.walk import Finding, Walk
from saycheck.review.edits import new_id, now
from saycheck.review.hearing import fingerprint
from saycheck.run import Asked, hear_file
from saycheck.vocabulary.load import load

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


WORD_S = 0.4
"""Each word of the spoken walk lasts this long, in seconds."""


@pytest.fixture(scope="session")
def spoken(heard: Walk) -> Walk:
    """The same walk as if it had been spoken, one word every 0.4 s."""
    words = [
        word.model_copy(update={"start_s": at * WORD_S, "end_s": (at + 1) * WORD_S, "confidence": 0.9})
        for at, word in enumerate(heard.transcript.words)
    ]

    def timed(finding: Finding) -> Finding:
        evidence = []
        for one in finding.evidence:
            inside = [w for w in words if w.char_start < one.char_end and w.char_end > one.char_start]
            times = {"start_s": inside[0].start_s, "end_s": inside[-1].end_s}
            evidence.append(one.model_copy(update=times))
        return finding.model_copy(update={"evidence": evidence})

    seconds = len(words) * WORD_S
    walk = heard.model_copy(
        update={
            "transcript": heard.transcript.model_copy(update={"words": words}),
            "findings": [timed(one) for one in heard.findings],
            "source": heard.source.model_copy(update={"name": "yard.m4a", "duration_s": seconds}),
            "sound": [Passage(start_s=0, end_s=seconds, kind="speech", snr_db=20)],
        }
    )
    return walk.model_copy(update={"questions": questions(load("wheel-loader"), walk)})


@pytest.fixture
def spoken_folder(tmp_path: Path, spoken: Walk) -> Path:
    """The spoken walk as a folder with a tone for its sound."""
    folder = lay(tmp_path / "spoken", spoken)
    seconds = int(spoken.source.duration_s) + 1
    tone: Samples = np.sin(np.arange(seconds * SAMPLE_RATE) * 2 * np.pi * 440 / SAMPLE_RATE).astype(
        np.float32
    )
    with KeptSound(folder / walkfolder.SOUND) as kept:
        for _ in kept.passing([tone]):
            pass
    return folder


def png(width: int) -> bytes:
    """A black picture, one pixel high."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    header = width.to_bytes(4, "big") + (1).to_bytes(4, "big") + b"\x08\0\0\0\0"
    pixels = zlib.compress(b"\0" * (width + 1))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")
