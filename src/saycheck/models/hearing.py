"""What passes from the ears to understanding: timed words and where the ears disagree."""

from pydantic import Field

from saycheck.models.base import Model


class HeardWord(Model):
    """One word as an ear heard it; times in seconds from the start of the recording."""

    text: str
    start_s: float
    end_s: float
    confidence: float = Field(ge=0, le=1)


class Hearing(Model):
    """All words one ear heard in one stretch of speech.

    ``others`` holds further readings of the same stretch, best first, as plain word sequences.
    """

    ear: str
    words: list[HeardWord]
    others: list[list[str]] = []


class OtherReading(Model):
    """What another ear made of the same words: a place in the transcript and the other text."""

    char_start: int
    char_end: int
    text: str
    ear: str
    confidence: float = Field(ge=0, le=1)


class Passage(Model):
    """A stretch of the recording with what was measured on it.

    ``kind`` is ``speech``, ``silence`` or ``noise``. ``snr_db`` is speech level over noise floor in
    decibels (None where there is no speech). ``trouble`` names in plain words why a passage cannot be
    trusted ("engine louder than speech", "wind", "clipped"), or is None.
    """

    start_s: float
    end_s: float
    kind: str
    snr_db: float | None = None
    trouble: str | None = None
