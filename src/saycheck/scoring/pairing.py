"""Which finding answers which label: the pairing of the two that agrees best overall."""

from dataclasses import dataclass

from saycheck.models.walk import Finding, Walk
from saycheck.scoring.agreement import PART_AGREES, part_agreement
from saycheck.scoring.labels import Item, Labels, Place, places_of, shared
from saycheck.scoring.projection import Projection


@dataclass(frozen=True)
class Pairing:
    """A walk laid beside its labels.

    ``wanted`` and ``evidence`` are the places in the transcript of each label and each finding,
    ``talk`` those of the distractors. ``pairs`` maps labels to findings, both by number, in the order
    of the labels; ``restated`` are further findings that say again what a label says.
    """

    labels: Labels
    walk: Walk
    wanted: list[list[Place]]
    evidence: list[list[Place]]
    talk: list[Place]
    pairs: dict[int, int]
    restated: set[int]

    def touch(self, item: int, finding: int) -> int:
        """Most characters that one place of a label shares with one of a finding."""
        return _touch(self.wanted[item], self.evidence[finding])

    def touches_any(self, finding: int) -> bool:
        """Whether a finding's words overlap those of any label."""
        return any(self.touch(item, finding) for item in range(len(self.wanted)))

    @property
    def extra(self) -> list[int]:
        """Findings that answer no label, by number."""
        known = set(self.pairs.values()) | self.restated
        return [j for j in range(len(self.walk.findings)) if j not in known]


def pair(labels: Labels, walk: Walk) -> Pairing:
    """Lay a walk beside its labels.

    A label and a finding can be paired when their words overlap and their part names agree; of all
    pairings the one of greatest total agreement is taken (assignment problem, Kuhn 1955).
    """
    project = Projection(labels.text, walk.transcript.text)
    wanted = [[project(place) for place in places_of(labels.text, item.quote)] for item in labels.gold]
    evidence = [[(e.char_start, e.char_end) for e in finding.evidence] for finding in walk.findings]
    talk = [project(place) for quote in labels.distractors for place in places_of(labels.text, quote)]
    weights = [
        [_weight(item, finding, _touch(w, e)) for finding, e in zip(walk.findings, evidence, strict=True)]
        for item, w in zip(labels.gold, wanted, strict=True)
    ]
    pairs = _best_pairs(weights)
    restated = {
        j
        for j, finding in enumerate(walk.findings)
        if j not in pairs.values()
        and any(weights[i][j] > 0 and finding.state == item.walk_state for i, item in enumerate(labels.gold))
    }
    return Pairing(labels, walk, wanted, evidence, talk, pairs, restated)


def _touch(wanted: list[Place], evidence: list[Place]) -> int:
    return max((shared(one, other) for one in wanted for other in evidence), default=0)


def _weight(item: Item, finding: Finding, touch: int) -> float:
    """Agreement of a label and a finding; 0 where they cannot be paired, otherwise above 1.6.

    State and side count less than the part, and length of the shared words only breaks ties.
    """
    if not touch:
        return 0.0
    agreement = part_agreement(item.part, finding)
    if agreement < PART_AGREES:
        return 0.0
    same_state, same_side = item.walk_state == finding.state, item.side == finding.side
    return 1 + agreement / 100 + 0.5 * same_state + 0.25 * same_side + min(touch, 40) / 400


def _best_pairs(weights: list[list[float]]) -> dict[int, int]:
    if not weights or not weights[0]:
        return {}
    from scipy.optimize import linear_sum_assignment

    rows, columns = linear_sum_assignment(weights, maximize=True)
    found = zip(rows.tolist(), columns.tolist(), strict=True)
    return {i: j for i, j in found if weights[i][j] > 0}
