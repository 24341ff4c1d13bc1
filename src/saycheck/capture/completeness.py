"""Tell whether a recording stops before its own end.

Most containers say how long they are; the sound that came out is held against that. Some only
estimate a length from bytes and bit rate, which says nothing about an end that is missing; Ogg says
nothing at all but marks its last page.
"""

from pathlib import Path

SLACK_S = 0.5
"""Sound that may be missing at the end, seconds: encoders pad, and round their lengths."""

_ESTIMATED = {"aac", "amr", "amrnb", "amrwb", "adts"}
_OGG_END_OF_STREAM = 0x04  # RFC 3533 section 6, header_type_flag
_OGG_LARGEST_PAGE = 65_307  # RFC 3533 section 6


def stops_early(path: Path, container: str, length_s: float | None, end_s: float) -> bool:
    """Return whether sound is missing at the end.

    ``container`` is FFmpeg's name of the format, ``length_s`` the length the file claims,
    ``end_s`` where the last decoded sound ended.
    """
    if container == "ogg":
        return not _ogg_is_closed(path)
    if container == "wav" and _wav_is_short(path):
        return True
    if container in _ESTIMATED or (container == "mp3" and not _mp3_counts_frames(path)):
        return False
    return length_s is not None and end_s < length_s * 0.995 - SLACK_S


def _wav_is_short(path: Path) -> bool:
    """The file is shorter than its RIFF header says (a streamed wav says 0 or the largest number)."""
    with path.open("rb") as file:
        head = file.read(8)
        size = file.seek(0, 2)
    claimed = int.from_bytes(head[4:8], "little")
    return head[:4] == b"RIFF" and 0 < claimed < 2**32 - 64 and size < claimed + 8 - 1


def _ogg_is_closed(path: Path) -> bool:
    """The last Ogg page bears the end-of-stream mark and is whole (RFC 3533)."""
    with path.open("rb") as file:
        size = file.seek(0, 2)
        file.seek(max(size - 2 * _OGG_LARGEST_PAGE, 0))
        tail = file.read()
    page = tail[tail.rfind(b"OggS") :]
    if len(page) < 27 or len(page) < 27 + page[26]:
        return False
    whole = 27 + page[26] + sum(page[27 : 27 + page[26]])
    return bool(page[5] & _OGG_END_OF_STREAM) and len(page) >= whole


def _mp3_counts_frames(path: Path) -> bool:
    """The first frame carries a count of frames (the header an encoder of variable bit rate writes)."""
    with path.open("rb") as file:
        head = file.read(10)
        if head[:3] == b"ID3":  # a tag comes first; its length is four digits to the base of 128
            tag = 0
            for digit in head[6:10]:
                tag = tag * 128 + digit
            file.seek(10 + tag)
            head = b""
        head += file.read(512)
    return b"Xing" in head or b"Info" in head
