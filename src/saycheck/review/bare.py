"""Photographs without what they tell besides the picture: place, time, device, owner, thumbnails, remarks.

A telephone writes into each photograph where it was taken (GPS) and more. Nothing of that is kept, since nobody was
asked for it. The picture itself is not encoded anew: every byte of it stays. Kept besides are the colour profile,
without which the colours are others, and which way up it is, as the one entry of an Exif block of our own.

Sources: ITU-T T.81, annex B (JPEG markers); JPEG File Interchange Format 1.02; CIPA DC-008 (Exif 2.32), 4.5.2 to
4.6.4; PNG, third edition (W3C 2025), 5 and 11; RFC 9649 (WebP), 2.7.
"""

import re
import struct
import zlib
from collections.abc import Iterator

from saycheck.errors import ReviewError

EXIF = b"Exif\0\0"
_PNG_KEPT = {
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"cICP", b"sBIT", b"bKGD",
    b"pHYs", b"acTL", b"fcTL", b"fdAT",
}  # fmt: skip
_WEBP_KEPT = {b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ICCP", b"ANIM", b"ANMF"}
_WEBP_EXIF, _WEBP_XMP = 0x08, 0x04
"""Bits of the VP8X header."""
_MARKER = re.compile(rb"\xff[^\x00\xd0-\xd7]")
_SOI, _EOI, _SOS = 0xD8, 0xD9, 0xDA


def bare(content: bytes) -> bytes:
    """The same picture, a JPEG, PNG or WebP, without what it tells besides.

    Raises:
        ReviewError: it does not hold together.
    """
    try:
        if content.startswith(b"\xff\xd8"):
            return b"".join(_jpeg(content))
        return b"".join(_png(content)) if content.startswith(b"\x89PNG") else _webp(content)
    except (struct.error, IndexError) as error:
        raise ReviewError("the photograph is damaged or was cut off; send it again") from error


def _jpeg(content: bytes) -> Iterator[bytes]:
    """Its pieces: markers with what belongs to them, up to the end of the image."""
    yield content[:2]
    turned = 1
    pieces = []
    at = 2
    while (marker := content[at + 1]) != _EOI:
        if content[at] != 0xFF:
            raise IndexError("no marker where one must stand")
        if marker in (0xFF, 0x01, *range(0xD0, _SOI)):  # fill bytes, and markers with nothing behind them
            at += 1 if marker == 0xFF else 2
            continue
        end = at + 2 + struct.unpack_from(">H", content, at + 2)[0]
        body = content[at + 4 : end]
        if marker == 0xE1 and body.startswith(EXIF):
            turned = _way_up(body[len(EXIF) :]) or turned
        if marker == _SOS:
            end = _scan_end(content, end)
        if _jpeg_kept(marker, body):
            pieces.append(content[at:end])
        at = end
    first = 1 if pieces and pieces[0][1] == 0xE0 else 0  # JFIF stands first where there is one
    yield from pieces[:first]
    if turned != 1:
        block = EXIF + _exif(turned)
        yield b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block
    yield from pieces[first:]
    yield b"\xff\xd9"


def _jpeg_kept(marker: int, body: bytes) -> bool:
    """JFIF, a colour profile and how colours are coded of the application segments; no remarks."""
    if 0xE0 <= marker <= 0xEF:
        return body.startswith((b"JFIF\0", b"ICC_PROFILE\0", b"Adobe")) and marker in (0xE0, 0xE2, 0xEE)
    return marker != 0xFE


def _scan_end(content: bytes, at: int) -> int:
    """Where the next marker behind a scan stands; in a scan 0xFF is followed by 0 or a restart."""
    found = _MARKER.search(content, at)
    if found is None:
        raise IndexError("a scan without an end")
    return found.start()


def _png(content: bytes) -> Iterator[bytes]:
    """Its pieces: signature and chunks, up to the end of the image."""
    yield content[:8]
    at, kind, turned = 8, b"", 1
    while kind != b"IEND":
        size, kind = struct.unpack_from(">I4s", content, at)
        chunk = content[at : at + 12 + size]
        if len(chunk) < 12 + size:
            raise IndexError("a chunk that is cut off")
        if kind == b"eXIf":
            turned = _way_up(chunk[8:-4]) or 1
            if turned != 1:
                yield _chunk(b"eXIf", _exif(turned))
        elif kind in _PNG_KEPT:
            yield chunk
        at += len(chunk)


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def _webp(content: bytes) -> bytes:
    """RIFF header and chunks; the bits of the extended header say what is there."""
    whole = struct.unpack_from("<I", content, 4)[0] + 8
    if whole > len(content):
        raise IndexError("shorter than it says")
    at, turned, kept = 12, 1, []
    while at < whole:
        kind, size = struct.unpack_from("<4sI", content, at)
        end = at + 8 + size + size % 2
        if end > whole:
            raise IndexError("a chunk that is cut off")
        if kind == b"EXIF":
            turned = _way_up(content[at + 8 : end].removeprefix(EXIF)) or 1
        elif kind in _WEBP_KEPT:
            kept.append(content[at:end])
        at = end
    if kept and kept[0].startswith(b"VP8X"):
        told = kept[0][8] & ~_WEBP_XMP & ~_WEBP_EXIF | (_WEBP_EXIF if turned != 1 else 0)
        kept[0] = kept[0][:8] + bytes([told]) + kept[0][9:]
        if turned != 1:
            block = _exif(turned)
            kept.append(struct.pack("<4sI", b"EXIF", len(block)) + block)
    body = b"WEBP" + b"".join(kept)
    return struct.pack("<4sI", b"RIFF", len(body)) + body


def _way_up(tiff: bytes) -> int | None:
    """Which way up a picture is (Exif tag 0x0112, 1 to 8); None where that is not told."""
    order = {b"II": "<", b"MM": ">"}.get(tiff[:2])
    if order is None:
        return None
    try:
        first = struct.unpack_from(f"{order}I", tiff, 4)[0]
        for number in range(struct.unpack_from(f"{order}H", tiff, first)[0]):
            tag, _, _, value = struct.unpack_from(f"{order}HHIH", tiff, first + 2 + 12 * number)
            if tag == 0x0112:
                return int(value) if 1 <= value <= 8 else None
    except struct.error:  # an Exif block that does not hold together is as good as none
        pass
    return None


def _exif(turned: int) -> bytes:
    """An Exif block (26 bytes) that tells which way up, and nothing else."""
    return struct.pack(">2sHIHHHIHHI", b"MM", 42, 8, 1, 0x0112, 3, 1, turned, 0, 0)
