"""Which parts and checks cover each item of the public lists of machine inspections.

Usage: python bench/public_lists.py [SOURCE]      SOURCE as in the outside data, such as fmcsa-396-11

The lists are read from ``../shared/outside/public-lists.json`` and from
``tests/vocabulary/recalled_lists.json`` (recalled by ourselves, every item from memory), the cover from
``tests/vocabulary/public_cover.toml``. Status 1 where an item has no cover.
"""

import json
import sys
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.load import kinds, load

ROOT = Path(__file__).resolve().parents[1]
LISTS = ROOT.parent / "shared" / "outside" / "public-lists.json"
RECALLED = ROOT / "tests" / "vocabulary" / "recalled_lists.json"
COVER = ROOT / "tests" / "vocabulary" / "public_cover.toml"
NOT_WALKS = {"iso-15143-3": "names of telematics data, no list of things to look at"}
"""Sources of the outside data that list nothing about the state of a machine."""


@dataclass(frozen=True)
class Item:
    """One item of a public list: ``seen`` is ``page`` (read) or ``memory`` (recalled, to be checked)."""

    source: str
    section: str
    edition: str
    number: str
    text: str
    seen: str
    kinds: tuple[str, ...]
    cover: tuple[str, ...]

    @property
    def is_duty(self) -> bool:
        """Whether the item asks for nothing that one looks at on a walk."""
        return all(row.startswith("duty: ") for row in self.cover)


def items() -> list[Item]:
    """All items with their cover, in the order of the outside data; FileNotFoundError where it is absent."""
    lists = [one for path in (LISTS, RECALLED) for one in json.loads(path.read_text("utf-8"))["sources"]]
    covers = {one["source"]: one for one in tomllib.loads(COVER.read_text(encoding="utf-8"))["list"]}
    found = []
    for source in lists:
        if source["id"] in NOT_WALKS:
            continue
        cover = covers[source["id"]]
        for item, (number, *rows) in zip(source["items"], cover["items"], strict=True):
            if item["n"] != number:
                raise ValueError(f"{source['id']}: the cover of '{item['n']}' is that of '{number}'")
            found.append(
                Item(
                    source["id"], source["section"], source["date_or_edition"], number,
                    item["item"], item["seen"], tuple(cover["kinds"]), tuple(rows),
                )
            )  # fmt: skip
    return found


def uncovered(item: Item) -> list[str]:
    """What the cover of an item promises and the vocabulary does not hold; empty where all is well."""
    return [gap for row in item.cover for gap in _gaps(row, item.kinds)] or _empty(item)


def _empty(item: Item) -> list[str]:
    return [] if item.cover else ["nothing covers it"]


def _gaps(row: str, on: Iterable[str]) -> list[str]:
    if row.startswith("@"):
        kind, row = row[1:].split(" ", 1)
        on = [kind]
    if row.startswith("duty: "):
        return [] if row.removeprefix("duty: ").strip() else ["a duty without a word on it"]
    if row.startswith("kind: "):
        kind = row.removeprefix("kind: ")
        return [] if kind in kinds() else [f"no machine kind {kind}"]
    if row.startswith("says "):
        state, sentence = row.removeprefix("says ").split(": ", 1)
        return [gap for kind in on for gap in _unheard(sentence, kind, state=state)]
    if row.startswith("caution "):
        part, words = row.removeprefix("caution ").split(": ", 1)
        return [gap for kind in on for gap in _no_caution(load(kind), part, words)]
    wanted, _, sentence = row.partition(" = ")
    part, check = wanted.split(": ")
    gaps = [gap for kind in on for gap in _no_check(load(kind), part, check)]
    if sentence:
        gaps += [gap for kind in on for gap in _unheard(sentence, kind)]
    return gaps


def _no_check(vocabulary: Vocabulary, part: str, check: str) -> list[str]:
    holders = [checks for name, checks, _ in _holders(vocabulary) if part in name]
    if not holders:
        return [f"{vocabulary.kind} has no '{part}'"]
    if not any(check in checks for checks in holders):
        return [f"{vocabulary.kind}: '{part}' has no check '{check}'"]
    return []


def _no_caution(vocabulary: Vocabulary, part: str, words: str) -> list[str]:
    cautions = [caution or "" for name, _, caution in _holders(vocabulary) if part in name]
    if any(words in caution for caution in (one.lower() for one in cautions)):
        return []
    return [f"{vocabulary.kind}: the caution of '{part}' does not say '{words}'"]


Holder = tuple[tuple[str, ...], tuple[str, ...], str | None]


@cache
def _holders_of(kind: str) -> list[Holder]:
    vocabulary = load(kind)
    own: list[Holder] = [(_names(part), part.checks, part.caution) for part in vocabulary.parts]
    on = dict.fromkeys(name for part in vocabulary.parts for name in _all_components(part, vocabulary))
    shared = [vocabulary.shared[name] for name in on]
    return own + [((one.name,), tuple(one.checks), one.caution) for one in shared]


def _holders(vocabulary: Vocabulary) -> list[Holder]:
    """Everything a check can hang on: names, checks and caution of the parts and of what is found on them."""
    return _holders_of(vocabulary.kind)


def _names(part: Part) -> tuple[str, ...]:
    return (part.name, part.like) if part.like else (part.name,)


def _all_components(part: Part, vocabulary: Vocabulary) -> list[str]:
    found: list[str] = []
    waiting = list(part.components)
    while waiting:
        name = waiting.pop(0)
        if name not in found:
            found.append(name)
            waiting += vocabulary.shared[name].components
    return found


def _unheard(sentence: str, kind: str, state: str | None = None) -> list[str]:
    """Where a sentence is not understood as one finding, of that state where one is given."""
    from saycheck.understanding.pipeline import understand

    states = [finding.state for finding in understand(sentence, kind).findings]
    if state is None:
        return [] if "writeup" in states or "watch" in states else [f"{kind}: '{sentence}' says {states}"]
    return [] if states == [state] else [f"{kind}: '{sentence}' says {states}, not {state}"]


def main() -> int:
    """Print every item; the status."""
    only = sys.argv[1] if len(sys.argv) > 1 else ""
    if not LISTS.is_file():
        print("../shared/outside/public-lists.json is not there", file=sys.stderr)
        return 2
    bare = 0
    total: dict[str, list[int]] = {}
    for item in items():
        if only and item.source != only:
            continue
        gaps = uncovered(item)
        bare += bool(gaps)
        memory = ", from memory" if item.seen == "memory" else ""
        print(f"{item.source} {item.number}{memory}: {item.text}")
        for row in item.cover:
            print(f"    {row}")
        for gap in gaps:
            print(f"    NOT COVERED: {gap}")
        counts = total.setdefault(item.source, [0, 0, 0])
        counts[0] += 1
        counts[1] += item.is_duty
        counts[2] += not gaps
    print(f"\n{'list':<24}{'items':>6}{'duties':>8}{'covered':>9}")
    for source, (count, duties, covered) in total.items():
        print(f"{source:<24}{count:>6}{duties:>8}{100 * covered / count:>8.0f}%")
    return 1 if bare else 0


if __name__ == "__main__":
    sys.exit(main())
