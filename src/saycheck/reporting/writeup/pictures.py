"""Photographs as the write-up shows them: whole ones only, and no larger than paper can show."""

import io
import struct
from fractions import Fraction

LARGEST = 1600
"""Pixels on the longer side; at the width of the column that is more than print can show."""

HEAVY = 400_000
"""Bytes from which a photograph is made smaller."""

_QUALITY = "4"  # of the encoder's 2 (best) to 31

_BEGINNINGS = {
    b"\xff\xd8\xff": "image/jpeg",
    b"\x89PNG\r\n\x1a\n": "image/png",
}


def mime(content: bytes) -> str:
    """The media type of a photograph, told by its first bytes; empty for any other file."""
    for beginning, name in _BEGINNINGS.items():
        if content.startswith(beginning):
            return name
    return "image/webp" if content[:4] == b"RIFF" and content[8:12] == b"WEBP" else ""


def shown(content: bytes) -> bytes | None:
    """The photograph as it goes into the write-up; None where it is damaged or no photograph.

    A heavy one is made smaller; how it is turned (its Exif) stays with it.
    """
    import av

    if not mime(content):
        return None
    try:
        with av.open(io.BytesIO(content), mode="r") as file:
            frame = next(file.decode(video=0))
    except (av.FFmpegError, StopIteration, IndexError, ValueError):
        return None
    if len(content) < HEAVY and max(frame.width, frame.height) <= LARGEST:
        return content
    shrink = min(1.0, LARGEST / max(frame.width, frame.height))
    width, height = (max(2, round(side * shrink / 2) * 2) for side in (frame.width, frame.height))
    small = frame.reformat(width, height, "yuvj420p")
    encoder = av.CodecContext.create("mjpeg", "w")
    encoder.width, encoder.height, encoder.pix_fmt = width, height, "yuvj420p"
    encoder.options = {"qmin": _QUALITY, "qmax": _QUALITY}
    encoder.time_base = Fraction(1, 25)
    made = b"".join(bytes(packet) for step in (small, None) for packet in encoder.encode(step))
    return made[:2] + _exif(content) + made[2:]


def _exif(content: bytes) -> bytes:
    """The Exif segment of a JPEG (ITU-T T.81 marker APP1), empty where it has none."""
    at = 2
    while mime(content) == "image/jpeg" and at + 4 <= len(content) and content[at] == 0xFF:
        marker, size = content[at + 1], struct.unpack(">H", content[at + 2 : at + 4])[0]
        if marker == 0xE1 and content[at + 4 : at + 10] == b"Exif\0\0":
            return content[at : at + 2 + size]
        if marker in (0xDA, 0xD9):
            break
        at += 2 + size
    return b""
