"""What selected words would be as a finding: understood by themselves, to fill in the form."""

from typing import Any

from saycheck.page.desk import Desk
from saycheck.review.changes import words_at


def proposal_for(desk: Desk, start: int, end: int) -> dict[str, Any]:
    """The words between two offsets, whole, and what they say of which part where that can be told.

    Raises:
        ReviewError: there are no words.
    """
    from saycheck.understanding.pipeline import understand

    walk = desk.sheet().standing.walk
    place = words_at(walk.transcript, start, end)
    text = walk.transcript.text[place.char_start : place.char_end]
    before = [one for one in walk.findings if one.evidence and one.evidence[0].char_start <= place.char_start]
    zone = before[-1].zone if before else desk.vocabulary.zones[0].name
    out: dict[str, Any] = {
        "start": place.char_start,
        "end": place.char_end,
        "start_s": place.start_s,
        "end_s": place.end_s,
        "words": text,
        "zone": zone,
        "part": "",
        "side": "none",
        "state": "",
        "condition": "",
        "denied": False,
        "measurements": [],
    }
    found = understand(text, walk.machine.kind, unit=walk.machine.unit).findings
    if found:
        one = found[0]
        keep = {"part", "side", "state", "condition", "denied", "measurements"}
        out |= one.model_dump(mode="json", include=keep)
    return out
