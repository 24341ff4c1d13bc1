"""Saycheck beside a plain medspaCy pipeline: quality and speed on the same narrations, in one run.

    python bench/peer.py [--raw] [--aside] [--json]

The peer gets our vocabulary's parts and conditions (``medspacy_walk.py``) and is scored by the same scorer,
once with its own sentence splitter and once with spaCy's, which is faster. It needs what
``bench/requirements-peer.txt`` lists. Only ``--aside`` compares quality fairly: our rules and trained parts
have seen the other narrations. Speed is in words per processor second, everything loaded.
"""

import argparse
import json
import sys
from collections.abc import Sequence
from functools import partial

from narrations import ASIDE, SEEN, TUNE, Narration, known, narrations, raw
from score_walks import as_json, ours, score_all, table, words_per_second


def main(argv: Sequence[str]) -> int:
    """Run both and print them side by side; exit status 2 where the peer is not installed."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--raw", action="store_true", help="no capitals, no marks, numbers in words")
    parser.add_argument("--aside", action="store_true", help="the narrations kept aside")
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args(argv)
    try:
        import loguru  # noqa: F401 (medspaCy logs with it)
        import medspacy  # noqa: F401

        from medspacy_walk import read_walk
    except ImportError as error:
        print(f"the peer is not here ({error}); install bench/requirements-peer.txt", file=sys.stderr)
        return 2
    given = known(narrations(ASIDE if asked.aside else TUNE))
    if asked.raw:
        given = [Narration(one.name, raw(one.labels)) for one in given]
    rows = {
        "saycheck": score_all(given, ours()),
        "medspaCy": score_all(given, read_walk),
        "medspaCy, spaCy sentences": score_all(given, partial(read_walk, sentences="sentencizer")),
    }
    if asked.json:
        print(
            json.dumps(
                {name: as_json({"all": scored}, detail=False) for name, scored in rows.items()}, indent=1
            )
        )
        return 0
    print(table(rows))
    for name, scored in rows.items():
        print(f"{name}: {words_per_second(scored):,.0f} words per processor second")
    if not asked.aside:
        print(SEEN)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
