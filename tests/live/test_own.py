"""Our own voice told from the walker's, by time and by words, as badly as the ears may have heard them."""

import pytest

from saycheck.live.own import OwnVoice, ours

MISSED = "Front: bucket pins, bucket linkage, tilt cylinder, left and right loader arm. 100 more."


@pytest.mark.parametrize(
    ("heard", "said", "count"),
    [
        ("Take him back. Bucket, crack.", "taken back: bucket: crack", 5),
        ("Photo one.", "photo 1", 2),
        ("edges thickness.", "cutting edge thickness?", 2),
        ("front bucket pins, bucket linkage, tilt cylinder left and right loader arm one hundred more.", MISSED, 15),
        ("left loader arm fins bent", "left loader arm pins: bent", 5),
        ("Paused the boom is bent", "paused", 1),  # the walker goes on behind it
        ("on. Going on. Seat belt works", "going on", 3),
        ("Seat belt works", "going on", 0),  # a headset: only the walker is heard
        ("The horn does not work", MISSED, 0),
        ("", "paused", 0),
    ],
)  # fmt: skip
def test_how_much_of_it_is_ours(heard: str, said: str, count: int) -> None:
    """The words from the first on that are those of the text."""
    assert count == ours(heard.split(), said)


@pytest.mark.parametrize(
    ("began_s", "heard", "is_ours"),
    [
        (10.0, "bucket pins bucket linkage", True),
        (9.2, "front bucket", True),  # the ears put it too early
        (8.0, "front bucket", False),  # before that the walker spoke
        (14.0, "bucket pins", False),  # long after
        (11.0, "the horn is broken", False),  # the walker while we speak into a headset
    ],
)
def test_when_it_is_ours(began_s: float, heard: str, is_ours: bool) -> None:
    """While it sounds and where it has been."""
    own = OwnVoice()
    own.spoken(9.0)
    since_s = own.begins(10.0, MISSED)
    assert 9.0 == since_s
    assert is_ours == own.heard(began_s, heard.split()) or began_s > 13
    own.ended(since_s, 13.0, MISSED)
    assert is_ours == own.heard(began_s, heard.split())
