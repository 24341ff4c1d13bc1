"""How far do two people agree who label the same narration? And how far does saycheck agree with the first?

    python bench/second_reader.py

``tests/narrations/second`` holds labels of a second reader, who saw the texts and the format, and neither the first
labels nor what saycheck makes of them. The scorer takes the second reader's labels for a walk and holds it against the
first labels, as it does with saycheck's walks. No program can be asked to agree with labels better than a careful
reader does. Narrations kept aside and those tuned to are summed apart; single ones are never shown.
"""

import sys
from pathlib import Path

from narrations import ASIDE, ROOT, SEEN, TUNE, Narration, narrations, vocabulary_of
from saycheck.models.walk import (
    SCHEMA,
    Evidence,
    Finding,
    Machine,
    MadeBy,
    Measurement,
    Source,
    Span,
    Transcript,
    Walk,
)
from saycheck.scoring import Counts, figures, score
from saycheck.scoring.figures import total
from saycheck.scoring.labels import Item, Labels, places_of
from text_walk import read_walk

SECOND = ROOT / "second"
SHOWN = ("F1", "precision", "recall", "located", "side", "measure", "denial", "talk_taken_for_finding")


def finding(item: Item, text: str, number: int) -> Finding:
    """A label as the finding that it asks for."""
    start, end = places_of(text, item.quote)[0]
    return Finding(
        id=f"f{number:03}",
        zone="",
        part=item.part,
        side=item.side,
        check="",
        state=item.walk_state,
        condition=item.condition,
        denied=bool(item.negated),
        heard_as=item.part,
        confidence=1.0,
        measurements=[
            Measurement(value=one.value, unit=one.unit, text="", value_si=one.value, unit_si=one.unit)
            for one in item.amounts
        ],
        evidence=[Evidence(char_start=start, char_end=end)],
    )


def as_walk(labels: Labels) -> Walk:
    """What a second reader understood, as a walk."""
    text = labels.text
    return Walk(
        schema=SCHEMA,
        id="second",
        machine=Machine(kind=vocabulary_of(labels.machine).kind),
        source=Source(name="text", sha256=""),
        transcript=Transcript(
            text=text, words=[], spans=[Span(char_start=0, char_end=len(text), disposition="talk")]
        ),
        findings=[finding(item, text, number) for number, item in enumerate(labels.gold, 1)],
        checklist=[],
        made_by=MadeBy(version="", vocabulary=""),
    )


def pairs(folder: Path) -> list[tuple[Narration, Narration]]:
    """The narrations of a folder that have second labels, first and second."""
    second = {one.name: one for one in narrations(SECOND)}
    return [(first, second[first.name]) for first in narrations(folder) if first.name in second]


def row(name: str, counts: list[Counts]) -> str:
    """One line of figures."""
    values = figures(total(counts))
    return f"{name:<16}" + "".join(f"{values[key]:>10.3f}" for key in SHOWN)


def main() -> int:
    """Print second reader and saycheck, side by side."""
    for folder in (ASIDE, TUNE):
        both = pairs(folder)
        if not both:
            continue
        items = sum(len(first.labels.gold) for first, _ in both)
        print(f"{len(both)} narrations {'kept aside' if folder is ASIDE else 'to tune on'}, {items} labels")
        print(" " * 16 + "".join(f"{'talk' if key.startswith('talk') else key:>10}" for key in SHOWN))
        print(row("second reader", [score(a.labels, as_walk(b.labels))[0] for a, b in both]))
        walks = [score(a.labels, read_walk(a.labels.text, a.labels.machine))[0] for a, _ in both]
        print(row("saycheck", walks))
        if folder is TUNE:
            print(SEEN)
        print()
    return 0


if __name__ == "__main__":
    sys.exit(main())
