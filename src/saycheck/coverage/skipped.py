"""Questions about what was not looked at: skipped, hidden, put off."""

from collections.abc import Iterable, Sequence

from saycheck.coverage.wording import called, listed, one_each, sentence, slug
from saycheck.models.walk import About, ChecklistLine, Finding, Question
from saycheck.vocabulary.compiled import Part, Vocabulary

TOLD = {"hidden": "could not be seen. Uncover and look again?", "later": "put off. Done now?"}
URGENCY = ("before work", "this week", "next service")


def skipped(vocabulary: Vocabulary, lines: Sequence[ChecklistLine]) -> Iterable[Question]:
    """One question for each zone with lines that nobody spoke of, the dangerous ones named first."""
    danger = {part.name: danger_of(vocabulary, part) for part in vocabulary.parts}
    for zone in vocabulary.zones:
        here = [line for line in lines if line.zone == zone.name]
        unsaid = [line for line in here if line.state == "unsaid"]
        if not unsaid:
            continue
        unsaid.sort(key=lambda line: danger.get(line.part, (1, len(URGENCY))))
        # The zone tells the side where its parts are all on that side.
        names = one_each((line.part, "none" if line.side == zone.side else line.side) for line in unsaid)
        nothing = len(unsaid) == len(here) and len(names) > 1
        told = f"nothing mentioned ({listed(names)})" if nothing else f"{listed(names)} not mentioned"
        yield Question(
            id=slug("skipped", zone.name),
            about=About(zone=zone.name, side=zone.side),
            kind="skipped",
            text=f"{sentence(zone.name)}: {told}. Looked at?",
        )


def danger_of(vocabulary: Vocabulary, part: Part) -> tuple[int, int]:
    """How far forward a part comes among skipped ones: first what can hurt, then what is urgent."""
    checks = [vocabulary.checks[name] for name in part.checks]
    hurting = [check for check in checks if check.hurts]
    return (0 if hurting else 1), min(
        (URGENCY.index(check.urgency) for check in hurting or checks), default=len(URGENCY)
    )


def not_seen(findings: Sequence[Finding]) -> Iterable[Question]:
    """A question for each part that could not be seen or was put off and not spoken of again."""
    asked: set[tuple[str, str]] = set()
    of_part: dict[str, list[tuple[int, Finding]]] = {}
    for place, finding in enumerate(findings):
        of_part.setdefault(finding.part, []).append((place, finding))
    for place, finding in enumerate(findings):
        if finding.state not in ("hidden", "later") or (finding.part, finding.side) in asked:
            continue
        if any(at > place and _settles(later, finding) for at, later in of_part[finding.part]):
            continue
        asked.add((finding.part, finding.side))
        name = sentence(called(finding.part, finding.side))
        yield Question(
            id=slug(finding.state, finding.zone, finding.side, finding.part),
            about=About(zone=finding.zone, part=finding.part, side=finding.side),
            kind=finding.state,
            text=f"{name}: {TOLD[finding.state]}",
            evidence=finding.evidence,
        )


def _settles(later: Finding, finding: Finding) -> bool:
    """Whether the part, of which both are, was looked at after all."""
    same_side = later.side in (finding.side, "both") or finding.side == "none"
    return same_side and later.state not in ("hidden", "later")
