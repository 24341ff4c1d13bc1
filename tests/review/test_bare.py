"""Photographs are kept without what they tell besides the picture; Pillow writes and reads them as the reference."""

import io
import random
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from saycheck.errors import ReviewError
from saycheck.review.bare import bare
from saycheck.review.photographs import keep

Image = pytest.importorskip("PIL.Image")
cms = pytest.importorskip("PIL.ImageCms")

ORIENTATION, MAKE, GPS, WHEN = 0x0112, 0x010F, 0x8825, 0x0132  # CIPA DC-008 (Exif 2.32), 4.6
SECRETS = [b"Telephone", b"2026:04", b"remark", b"GPSLatitude", b"owner", b"after the end"]


def photograph(form: str, turned: int = 1, **other: Any) -> bytes:
    """A noisy photograph that tells where, when and by what it was taken."""
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE], exif[WHEN] = turned, "Telephone", "2026:04:11 06:45:00"
    exif.get_ifd(GPS).update({1: "N", 2: (51.0, 30.0, 12.0), 3: "E", 4: (7.0, 1.0, 2.0)})
    out = io.BytesIO()
    picture = Image.effect_noise((61, 47), 90).convert("RGB")
    if form == "PNG":
        from PIL.PngImagePlugin import PngInfo

        told = PngInfo()
        told.add_text("Author", "owner")
        told.add_itxt("XML:com.adobe.xmp", "GPSLatitude")
        other["pnginfo"] = told
    else:
        other["xmp"] = b"<x>GPSLatitude owner</x>"
    if form == "JPEG":
        other["comment"] = b"remark"
    picture.save(out, form, exif=exif, **other)
    return out.getvalue()


FORMS = [
    ("JPEG", {}),
    ("JPEG", {"progressive": True, "quality": 100}),
    ("JPEG", {"icc_profile": cms.ImageCmsProfile(cms.createProfile("sRGB")).tobytes()}),
    ("JPEG", {"restart_marker_blocks": 1}),
    ("PNG", {}),
    ("WEBP", {}),
    ("WEBP", {"lossless": True, "icc_profile": cms.ImageCmsProfile(cms.createProfile("sRGB")).tobytes()}),
]


@pytest.mark.parametrize("turned", [1, 6])
@pytest.mark.parametrize(("form", "other"), FORMS)
def test_only_the_picture_is_left(form: str, other: dict[str, Any], turned: int) -> None:
    """Every pixel, the colours and which way up stay; place, time, device, remarks and what follows do not."""
    given = photograph(form, turned, **other) + b"after the end"
    left = bare(given)
    was, now = Image.open(io.BytesIO(given)), Image.open(io.BytesIO(left))
    assert was.tobytes() == now.tobytes()
    assert (form, was.size, was.info.get("icc_profile")) == (
        now.format,
        now.size,
        now.info.get("icc_profile"),
    )
    assert ({ORIENTATION: turned} if turned != 1 else {}) == dict(now.getexif())
    assert [] == [one for one in SECRETS if one in left]
    assert left == bare(left)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_what_is_kept_in_the_folder(form: str, tmp_path: Path) -> None:
    """The photograph in the walk folder is the bare one; nothing else of it lies there."""
    given = photograph(form)
    kept = keep(tmp_path, given, "f001")
    (path,) = [one for one in tmp_path.rglob("*") if one.is_file()]
    assert (bare(given), path.name) == (path.read_bytes(), kept.file)
    assert len(bare(given)) == kept.size


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_damaged_ones_are_refused_in_a_sentence(form: str) -> None:
    """Cut off anywhere it is refused; with any byte otherwise it is taken or refused, and nothing worse."""
    given, dice = photograph(form), random.Random(0)
    for cut in range(12, len(given) - 20, 37):
        with pytest.raises(ReviewError, match="the photograph is damaged or was cut off; send it again"):
            bare(given[:cut])
    for _ in range(300):
        broken = bytearray(given)
        broken[dice.randrange(12, len(given))] = dice.randrange(256)
        with suppress(ReviewError):  # any other error is one of ours
            bare(bytes(broken))
