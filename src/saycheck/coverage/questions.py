"""What a person should answer, best while still standing at the machine.

Questions come in the order in which one walks: what concerns the whole walk first, then zone by zone,
in each zone what was said and is in doubt before what was not said at all.
"""

from collections.abc import Iterable, Sequence

from saycheck.coverage.checklist import checklist
from saycheck.coverage.doubts import alike, conflicts, unclear, untold_sides
from saycheck.coverage.leaks import leak_classes
from saycheck.coverage.numbers import hours, too_close, units, which_measure, worn
from saycheck.coverage.skipped import not_seen, skipped
from saycheck.models.hearing import Passage
from saycheck.models.walk import About, Question, Walk
from saycheck.vocabulary.compiled import Vocabulary

ORDER = ("sound", "unit", "conflict", "unclear", "measure", "again", "hidden", "later", "hours", "skipped")
WHOLE_WALK = ""
"""The zone of a question that concerns the walk as a whole."""

MOSTLY = 0.5
"""Share of the speech that must be in trouble for the recording to count as mostly unusable."""


def questions(vocabulary: Vocabulary, walk: Walk, again: Iterable[Question] = ()) -> list[Question]:
    """All open questions of a walk, in walking order; ids stay the same while the cause does.

    ``again`` are those that earlier walks raise.

    The checklist is taken from the walk and made from its findings where it has none yet.
    """
    text = walk.transcript.text
    lines = walk.checklist or checklist(vocabulary, walk.findings, text=text)
    asked = [
        *_sound(walk.sound),
        *_unit(walk),
        *conflicts(vocabulary, walk.findings, text),
        *untold_sides(vocabulary, walk.findings, text),
        *unclear(vocabulary, walk.transcript, walk.findings),
        *alike(vocabulary, walk.findings),
        *worn(vocabulary, walk.findings),
        *too_close(vocabulary, walk.findings),
        *units(walk.findings),
        *which_measure(vocabulary, walk.findings),
        *leak_classes(walk.findings, text),
        *not_seen(walk.findings),
        *hours(vocabulary, walk.machine, walk.findings),
        *skipped(vocabulary, lines),
        *again,
    ]
    zones = {zone.name: place for place, zone in enumerate(vocabulary.zones)}
    asked.sort(key=lambda q: (zones.get(q.about.zone, -1), ORDER.index(q.kind)))
    return asked


def _sound(passages: Sequence[Passage]) -> list[Question]:
    """Asks for another recording where most of the speech cannot be trusted."""
    speech = [p for p in passages if p.kind == "speech" or p.trouble]
    seconds = sum(p.end_s - p.start_s for p in speech)
    troubles: dict[str, float] = {}
    for passage in speech:
        if passage.trouble:
            troubles[passage.trouble] = troubles.get(passage.trouble, 0) + passage.end_s - passage.start_s
    if not seconds or sum(troubles.values()) < MOSTLY * seconds:
        return []
    worst = max(troubles, key=lambda trouble: troubles[trouble])
    text = f"Most of the recording cannot be trusted ({worst}). Record again, microphone closer, engine off?"
    return [Question(id="sound", about=About(zone=WHOLE_WALK), kind="sound", text=text)]


def _unit(walk: Walk) -> list[Question]:
    """Asks which unit it was where nobody said."""
    if walk.machine.unit:
        return []
    text = "Which unit is this? Give its name or number."
    return [Question(id="unit", about=About(zone=WHOLE_WALK), kind="unit", text=text)]
