"""Put walks into the form in which the trade ear learns from them: one breath a line, numbers in words.

    python bench/walks_for_the_ear.py FOLDER OUT.txt

FOLDER holds plain texts (``*.txt``; a first line beginning with ``#`` is left out). Made
``vocab/shared/talk/walks.txt`` from ``bench/material``. A shop does the same with its own walks and puts
the file into ``shared/talk/`` of its own folder. Never give it narrations that hearing is measured on.
"""

import re
import sys
from pathlib import Path

from speak import chunks, spoken

HEAD = "# Walks, one breath a line, for the trade ear to learn from; made by bench/walks_for_the_ear.py\n"


def lines(text: str) -> list[str]:
    """The breaths of a text in lower case, without punctuation, numbers in words."""
    breaths = (
        re.sub(r"[^a-z' ]", " ", breath.lower().replace("’", "'")) for breath, _ in chunks(spoken(text))
    )
    return [" ".join(breath.split()) for breath in breaths if breath.strip()]


def main() -> int:
    """Run the command described at the top of this file."""
    if len(sys.argv) != 3:
        print((__doc__ or "").strip(), file=sys.stderr)
        return 2
    found = []
    for path in sorted(Path(sys.argv[1]).glob("*.txt")):
        text = re.sub(r"\A#.*\n", "", path.read_text(encoding="utf-8"))
        found += [*lines(text), ""]
    Path(sys.argv[2]).write_text(HEAD + "\n".join(found), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
