"""Sets the walk card of a machine kind: as large as one page allows."""

import json
from importlib.resources import files
from typing import Any

from saycheck.errors import WriteUpError
from saycheck.vocabulary.compiled import Part, Vocabulary

LARGEST, SMALLEST, STEP = 14.0, 8.0, 0.5
"""Sizes of the letters in points that are tried."""
ASKED = 2
"""How many measures of a part the card names; more would not be read."""

SAY = (
    "Say where you stand when you move on. Name the part, and the side where there are two. Then what you see: "
    "“left front tyre, worn, eight millimetres”.",
    "What is fine is said too: “horn works”. Not seen: “can't see it”. Put off: “do that later”. "
    "Wrong word: “scratch that”. Read the hour meter aloud. In a box: what to measure; say the number with its unit.",
)
CARE = (
    "Attachment down or supported, engine off, key out, locked out, pressure relieved, before a hand goes anywhere. "
    "Never feel for a leak by hand. The maker's manual and site rules come first."
)


def make_card(vocabulary: Vocabulary, paper: str = "a4") -> tuple[bytes, float]:
    """The card as PDF on one page, and the size of its letters in points.

    ``paper`` is a name that typst knows, such as a4, a3 or us-letter. Raises WriteUpError where the list
    does not fit on one page even in the smallest letters, or the paper is not known.
    """
    size = LARGEST
    while size >= SMALLEST:
        made_of = _files(vocabulary, paper, size)
        if _pages(made_of) == 1:
            return _set(made_of, format="pdf", pdf_standards="ua-1"), size
        size -= STEP
    raise WriteUpError(
        f"the list of a {vocabulary.name} does not fit on one page of {paper} in letters of {SMALLEST:g} points; "
        "take a larger paper with --paper a3"
    )


def card_of(vocabulary: Vocabulary) -> dict[str, Any]:
    """The words of the card: zones in order, in each its parts, sides and what to measure."""
    return {
        "title": f"Walk card: {vocabulary.name}",
        "unit": vocabulary.unit or "unit ______________",
        "say": list(SAY),
        "care": CARE,
        "zones": [
            _zone(vocabulary, zone.name) for zone in vocabulary.zones if _has_lines(vocabulary, zone.name)
        ],
    }


def _has_lines(vocabulary: Vocabulary, zone: str) -> bool:
    return any(line.zone == zone for line in vocabulary.lines)


def _zone(vocabulary: Vocabulary, zone: str) -> dict[str, Any]:
    sides: dict[str, list[str]] = {}
    for line in vocabulary.lines:
        if line.zone == zone:
            sides.setdefault(line.part, []).append(line.side)
    parts = [vocabulary.part(name) for name in sides]
    here = vocabulary.zone(zone).side
    return {
        "name": zone,
        "parts": [
            {
                "name": part.name,
                "sides": ", ".join(side for side in sides[part.name] if side not in ("none", here)),
                "measures": ", ".join(_measures(part)),
            }
            for part in parts
            if not part.option
        ],
        "fitted": ", ".join(part.name for part in parts if part.option),
    }


def _measures(part: Part) -> list[str]:
    """What to measure, what wear asks for and what has a limit first."""
    first = sorted(
        part.measures, key=lambda m: not (m.wear or m.at_least is not None or m.at_most is not None)
    )
    return [f"{m.attribute} {_UNITS.get(m.unit, m.unit)}".strip() for m in first[:ASKED]]


_UNITS = {"percent": "%", "degC": "°C", "dimensionless": "", "N m": "Nm", "degree": "°"}


def _files(vocabulary: Vocabulary, paper: str, size: float) -> dict[str, bytes]:
    card = card_of(vocabulary) | {"paper": paper, "size": size, "columns": 3}
    return {
        "main.typ": files(__package__).joinpath("card.typ").read_bytes(),
        "card.json": json.dumps(card, ensure_ascii=False).encode(),
    }


def _pages(made_of: dict[str, bytes]) -> int:
    pages = _set(made_of, format="png", ppi=10)
    return len(pages) if isinstance(pages, list) else 1


def _set(made_of: dict[str, bytes], **how: Any) -> Any:
    import typst

    compiled: Any = typst.compile  # its types leave out that it takes several files
    try:
        return compiled(dict(made_of), ignore_system_fonts=True, **how)
    except typst.TypstError as error:
        raise WriteUpError(
            f"the card cannot be set ({str(error).splitlines()[0]}); look at --paper"
        ) from error
