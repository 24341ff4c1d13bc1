"""Check labelled narrations for slips of the pen.

    python bench/check_labels.py FILE.json [FILE.json ...]

Prints one line a slip: a quote that is not in the text, a quote that stands there more than
once (so that it points at two places), an unknown side or state, a measure that is no number,
a distractor that shares words with a finding. Exit status 1 when there is a slip.
"""

import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

SIDES = {"left", "right", "both", "none"}
STATES = {"good", "watch", "fault", "hidden", "later"}
KEYS = {"quote", "part", "side", "state", "condition", "negated", "measures", "corrects"}


def places(text: str, quote: str) -> list[tuple[int, int]]:
    return [m.span() for m in re.finditer(re.escape(quote), text)]


def slips(label: dict[str, Any]) -> Iterator[str]:
    """Yield one sentence for each slip in a labelled narration."""
    text = label["text"]
    spans = []
    for item in label["gold"]:
        quote = item.get("quote", "")
        where = f"gold {quote!r}"
        if set(item) - KEYS or KEYS - set(item):
            yield f"{where}: keys are {sorted(item)}, wanted {sorted(KEYS)}"
        found = places(text, quote) if quote else []
        if len(found) != 1:
            yield f"{where}: stands {len(found)} times in the text, wanted once (lengthen the quote)"
        spans += found
        if item.get("side") not in SIDES:
            yield f"{where}: side {item.get('side')!r}"
        if item.get("state") not in STATES:
            yield f"{where}: state {item.get('state')!r}"
        for measure in item.get("measures") or []:
            if not isinstance(measure.get("value"), (int, float)) or not isinstance(measure.get("unit"), str):
                yield f"{where}: measure {measure!r}"
        corrects = item.get("corrects")
        if corrects and corrects not in text:
            yield f"{where}: corrects {corrects!r}, which is not in the text"
    for quote in label["distractors"]:
        found = places(text, quote)
        if len(found) != 1:
            yield f"distractor {quote!r}: stands {len(found)} times in the text, wanted once"
        for a, b in found:
            if any(a < d and c < b for c, d in spans):
                yield f"distractor {quote!r} shares words with a finding"


def main(paths: list[str]) -> int:
    count = 0
    for path in paths:
        label = json.loads(Path(path).read_text(encoding="utf-8"))
        for slip in slips(label):
            print(f"{path}: {slip}")
            count += 1
        print(
            f"{path}: {len(label['text'].split())} words, {len(label['gold'])} findings, "
            f"{len(label['distractors'])} distractors, {len(label['unsaid'])} unsaid",
            file=sys.stderr,
        )
    return 1 if count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
