"""Photographs of a finding: what is taken in, where it lies, and that it is what it says.

A photograph is told by its first bytes and its size, never by the name or the type that was sent along. It
lies in ``photos/`` under a name made of its contents, so that nothing sent can name a file.
"""

import hashlib
import os
import struct
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from saycheck.errors import ReviewError
from saycheck.models.review import Edit, Photograph, Standing
from saycheck.review.bare import bare
from saycheck.review.edits import new_id, now
from saycheck.review.hearing import fingerprint

FOLDER = "photos"
LARGEST = 16 * 1024 * 1024
"""Bytes of the largest photograph taken in."""
MOST = 20
"""Photographs of one finding."""
WIDEST = 20_000
"""Pixels beyond which a picture is not a photograph."""


@dataclass(frozen=True)
class Kind:
    """A kind of picture: its ending and its media type."""

    ending: str
    media_type: str


JPEG, PNG, WEBP = Kind("jpg", "image/jpeg"), Kind("png", "image/png"), Kind("webp", "image/webp")


def kind_of(content: bytes) -> Kind:
    """What kind of picture these bytes are.

    Raises:
        ReviewError: they are none of JPEG, PNG and WebP, or have no sensible size.
    """
    kind, size = None, (0, 0)
    if content.startswith(b"\xff\xd8\xff"):
        kind, size = JPEG, _jpeg_size(content)
    elif content.startswith(b"\x89PNG\r\n\x1a\n") and content[12:16] == b"IHDR" and len(content) > 24:
        width, height = struct.unpack(">II", content[16:24])
        kind, size = PNG, (width, height)
    elif content[:4] == b"RIFF" and content[8:12] == b"WEBP" and content[12:15] == b"VP8":
        kind, size = WEBP, (1, 1)
    if kind is None or not all(0 < side <= WIDEST for side in size):
        raise ReviewError("this is no photograph that can be kept; send a JPEG, PNG or WebP picture")
    return kind


def media_type(name: str) -> str:
    """The media type of a photograph kept under this name."""
    return next(kind.media_type for kind in (JPEG, PNG, WEBP) if name.endswith(f".{kind.ending}"))


def keep(folder: Path, content: bytes, finding: str, name: str = "") -> Photograph:
    """Put a photograph into the folder of a walk, without place, time and device; the same picture is kept once.

    Raises:
        ReviewError: it is too large, no picture, or damaged.
    """
    if len(content) > LARGEST:
        raise ReviewError(
            f"the photograph has {len(content) / 1e6:.0f} MB and {LARGEST / 1e6:.0f} MB is the most; "
            "send a smaller one"
        )
    kind = kind_of(content)
    content = bare(content)
    digest = hashlib.sha256(content).hexdigest()
    path = folder / FOLDER / f"{digest[:20]}.{kind.ending}"
    if not path.exists():
        path.parent.mkdir(exist_ok=True)
        part = path.with_name(f".{new_id()}.part")
        with part.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    shown = "".join(letter for letter in name if letter.isprintable())[:120]
    return Photograph(file=path.name, finding=finding, sha256=digest, size=len(content), name=shown)


def attaching(standing: Standing, photographs: Iterable[Photograph], who: str, way: str = "page") -> Edit:
    """The edit that attaches photographs to findings.

    Raises:
        ReviewError: the finding is not there, or has enough of them.
    """
    kept = list(photographs)
    there = {finding.id for finding in standing.walk.findings}
    for photograph in kept:
        if photograph.finding not in there:
            raise ReviewError(f"there is no finding '{photograph.finding}' on this walk any more")
        if len(standing.photos.get(photograph.finding, [])) + len(kept) > MOST:
            raise ReviewError(f"a finding can have {MOST} photographs and no more; take one off first")
    return _edit("attach", standing, kept, who, way)


def detaching(standing: Standing, finding: str, file: str, who: str, way: str = "page") -> Edit:
    """The edit that takes a photograph off a finding; the picture stays in the folder.

    Raises:
        ReviewError: the finding has no such photograph.
    """
    if file not in standing.photos.get(finding, []):
        raise ReviewError("that photograph is not attached any more; load the page again")
    gone = Photograph(file=file, finding=finding, sha256="", size=0)
    return _edit("detach", standing, [gone], who, way)


def _edit(action: str, standing: Standing, photographs: list[Photograph], who: str, way: str) -> Edit:
    given = {"action": action, "photographs": photographs, "way": way, "heard": fingerprint(standing.heard)}
    return Edit.model_validate({"id": new_id(), "at": now(), "who": who, **given})


def _jpeg_size(content: bytes) -> tuple[int, int]:
    """Width and height from the frame header of a JPEG (ITU-T T.81, B.2.2); zeros where it has none."""
    at = 2
    while at + 9 < len(content) and content[at] == 0xFF:
        marker = content[at + 1]
        if marker in range(0xC0, 0xD0) and marker not in (0xC4, 0xC8, 0xCC):
            height, width = struct.unpack(">HH", content[at + 5 : at + 9])
            return width, height
        at += 2 + struct.unpack(">H", content[at + 2 : at + 4])[0]
    return 0, 0
