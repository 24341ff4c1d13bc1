"""What stands on the page: entries in the order in which a reviewer needs them, each ready to be set in type.

First what needs deciding, then what was not spoken of, then everything by zone, then what was taken off.
"""

from dataclasses import dataclass, field

from saycheck.models.review import Standing
from saycheck.page.entry import Entry, Maker
from saycheck.vocabulary.compiled import Vocabulary

LATER_KINDS = frozenset(["skipped", "hidden", "later", "again"])
"""Questions about what was not looked at; they come after what was said and is in doubt."""


@dataclass(frozen=True)
class Section:
    """Entries under one heading."""

    key: str
    title: str
    entries: list[Entry] = field(default_factory=list)


def sections(standing: Standing, vocabulary: Vocabulary, maker: Maker | None = None) -> list[Section]:
    """All sections in reading order, empty ones too so that they keep their place.

    ``maker`` is the one that made them before, which makes again only what has changed.
    """
    maker = maker or Maker(standing.heard)
    maker.begin(standing)
    open_now = set(standing.open_findings)
    decide = [maker.finding(one, is_open=True) for one in standing.walk.findings if one.id in open_now]
    asked = standing.walk.questions
    decide += [maker.question(one) for one in asked if one.kind not in LATER_KINDS]
    decide.sort(key=lambda entry: (entry.zone != "", entry.quotes[0].char_start if entry.quotes else -1))
    skipped = [maker.question(one) for one in asked if one.kind in LATER_KINDS]
    out = [
        Section("decide", "To decide", decide),
        Section("skipped", "Not spoken of, not seen, put off", skipped),
    ]
    zones: dict[str, list[Entry]] = {zone.name: [] for zone in vocabulary.zones}
    for one in standing.walk.findings:
        here = zones.setdefault(one.zone, [])
        if one.id not in open_now:
            here.append(maker.finding(one))
    out += [Section(f"zone-{number}", zone, here) for number, (zone, here) in enumerate(zones.items())]
    out.append(Section("dropped", "Taken off", [maker.dropped(one) for one in standing.dropped]))
    return out
