"""Are the parts listed that nobody spoke of, and no others?

    python bench/skipped.py [--aside]

The scorer compares names by their letters, so that "wiper" is not the line "wipers", and "backup alarm" not "reverse
alarm". Beside its figure stands the one by meaning: a label's name is read as the vocabulary reads it, and counts
where a line of one of those parts is unsaid. Names that no part has are counted apart.

Then why parts stand as unsaid that were spoken of: the words of the label became part of a finding about something
else, were taken for talk, or were not understood (they are asked about by themselves).
"""

import argparse
import sys
from collections import Counter
from collections.abc import Sequence

from narrations import ASIDE, SEEN, TUNE, Narration, known, narrations, vocabulary_of
from saycheck.coverage.names import folded
from saycheck.models.walk import Walk
from saycheck.scoring.labels import Item, places_of
from saycheck.scoring.unsaid import falsely_unsaid, listed
from saycheck.vocabulary.compiled import Vocabulary
from text_walk import read_walk


def meant(name: str, vocabulary: Vocabulary) -> set[str]:
    """The parts that a name may mean on this machine."""
    wanted = folded(name)
    return {part.name for part in vocabulary.parts if wanted in map(folded, (part.name, *part.sayings))}


def why(item: Item, text: str, walk: Walk) -> str:
    """What became of the words of a label whose part stands as unsaid."""
    start, end = places_of(text, item.quote)[0]
    shares = Counter[str]()
    for span in walk.transcript.spans:
        shares[span.disposition] += max(0, min(end, span.char_end) - max(start, span.char_start))
    most = shares.most_common(1)[0][0]
    return "about another line" if most == "finding" else most


def counted(narration: Narration) -> Counter[str]:
    """What there is to count in one narration."""
    labels = narration.labels
    vocabulary, walk = vocabulary_of(labels.machine), read_walk(labels.text, labels.machine)
    unsaid = {line.part for line in walk.checklist if line.state == "unsaid"}
    lines = {line.part for line in walk.checklist}
    out = Counter[str]()
    for name in labels.unsaid:
        parts = meant(name, vocabulary)
        spelled = listed(name, walk.checklist)
        out["names"] += 1
        out["by letters"] += spelled
        out["no such part"] += not parts and not spelled
        out["no such line"] += bool(parts) and not spelled and not parts & lines
        out["by meaning"] += spelled or bool(parts & unsaid)
    for item in labels.gold:
        if falsely_unsaid(item, walk.checklist):
            out["false"] += 1
            out[f"false: {why(item, labels.text, walk)}"] += 1
    return out


def main(argv: Sequence[str]) -> int:
    """Print the figures of all narrations together."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--aside", action="store_true", help="the narrations kept aside")
    asked = parser.parse_args(argv)
    given = known(narrations(ASIDE if asked.aside else TUNE))
    count = sum(map(counted, given), Counter[str]())
    names = count["names"]
    print(f"{len(given)} walks, {names} names of parts that were not spoken of")
    print(f"listed, by letters  {count['by letters'] / names:.3f}")
    print(f"listed, by meaning  {count['by meaning'] / names:.3f}")
    print(f"no part has the name {count['no such part'] / names:.3f}")
    print(f"no line of the walk  {count['no such line'] / names:.3f}")
    print(f"listed though spoken of: {count['false']}, {count['false'] / len(given):.2f} a walk")
    for cause, number in count.most_common():
        if cause.startswith("false: "):
            print(f"  {cause.removeprefix('false: '):<20}{number:>5}")
    if not asked.aside:
        print(SEEN)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
