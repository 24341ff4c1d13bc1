"""A shop's list as a layer of the vocabulary, with every line of the list accounted for in it."""

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

from saycheck.shoplist.lines import ListError
from saycheck.shoplist.match import Match, content
from saycheck.vocabulary.compiled import Part, Vocabulary


def write_layer(folder: Path, name: str, matches: Sequence[Match], vocabulary: Vocabulary) -> Path:
    """Write ``machines/KIND.toml`` in a shop's folder; ListError where that file is there already."""
    path = folder / "machines" / f"{vocabulary.kind}.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        with path.open("x", encoding="utf-8") as file:  # never over a file that is there
            file.write("\n".join(layer(name, matches, vocabulary)) + "\n")
    except FileExistsError:
        raise ListError(
            f"'{path}' is there already and is left as it is; name another folder with --out"
        ) from None
    return path


def layer(name: str, matches: Sequence[Match], vocabulary: Vocabulary) -> Iterator[str]:
    """The lines of the file."""
    yield f"# {vocabulary.name}: from the list '{name}'. Any text editor will do."
    yield "#"
    yield "# Lies over the shipped words: a part keeps what is not mentioned; add sayings = [...] as you like."
    yield "# Each line of the list stands below, beside what it was taken to mean. Lines that fit no known part"
    yield "# stand at the end, to be placed by a person. Parts that the list does not name are asked for as"
    yield "# before; `drop = true` takes one off. Look it through with `saycheck vocab check --shop FOLDER`."
    meant: dict[str, list[Match]] = {}
    for match in matches:
        for part in match.parts:
            meant.setdefault(part.name, []).append(match)
    if options := list(
        dict.fromkeys(part.option for match in matches for part in match.parts if part.option)
    ):
        yield from (
            "",
            "# Equipment that the list names is asked for on every unit, unless its file says it is without.",
        )
        yield f"usual = {_listed(options)}"
    for zone in vocabulary.zones:
        here = [part for part in vocabulary.parts if part.zones[0] == zone.name and part.name in meant]
        if here:
            yield from ("", "", f"# ---- {zone.name} ----", "", "[[zone]]", f"name = {_quoted(zone.name)}")
        for part in here:
            yield from _part(part, meant[part.name])
    yield from _headings(matches)
    yield from _to_place(matches, vocabulary)


def _part(part: Part, matches: Sequence[Match]) -> Iterator[str]:
    yield from ("", "[[zone.part]]", f"name = {_quoted(part.name)}")
    for match in matches:
        yield f"# {_comment(match)} ({match.how})"


def _headings(matches: Sequence[Match]) -> Iterator[str]:
    found = [match for match in matches if not match.parts and match.is_placed]
    if found:
        yield from ("", "", "# ---- taken for headings ----")
    for match in found:
        yield f"# {_comment(match)}{f' (the zone {match.zone.name})' if match.zone else ''}"


def _to_place(matches: Sequence[Match], vocabulary: Vocabulary) -> Iterator[str]:
    left = [match for match in matches if not match.is_placed]
    if not left:
        return
    yield from ("", "", "# ---- to be placed by a person ----", "#")
    yield "# Take the # off a block, choose its zone, and say what is looked for. Zones of this machine:"
    yield f"# {', '.join(zone.name for zone in vocabulary.zones)}. Checks stand in shared/checks.toml."
    yield "# A zone may stand once in a file: put the part below the zone where that is here already."
    for match in left:
        yield from ("#", f"# {_comment(match)}")
        for words in match.left or (match.line.text,):
            name = " ".join(content(words)) or words.lower()
            yield from ("# [[zone]]", '# name = "front"', "# [[zone.part]]")
            yield from (f"# name = {_quoted(name)}", '# checks = ["condition"]')


def _comment(match: Match) -> str:
    return f"{match.line.place}: {' '.join(match.line.raw.split())}"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _listed(words: Sequence[str]) -> str:
    return f"[{', '.join(_quoted(word) for word in words)}]"
