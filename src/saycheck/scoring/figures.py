"""From counts to the figures that are reported: shares, F1 and plain numbers of bad things."""

from collections.abc import Iterable
from dataclasses import asdict, astuple, dataclass


@dataclass(frozen=True, slots=True)
class Counts:
    """What was counted on one walk, or summed over several; all are numbers of things.

    The names are those of ``walk.json`` and of the labels: ``right`` is a finding with the right words,
    part and state; ``wrong_flagged`` a wrong finding sent to review.
    """

    gold: int = 0
    found: int = 0
    paired: int = 0
    right: int = 0
    from_talk: int = 0
    distractors: int = 0
    sided: int = 0
    side_right: int = 0
    measures: int = 0
    measures_right: int = 0
    wrong_numbers: int = 0
    denials: int = 0
    denials_right: int = 0
    trouble: int = 0
    lost_silently: int = 0
    called_good: int = 0
    invented: int = 0
    wrong: int = 0
    wrong_flagged: int = 0
    correct: int = 0
    correct_flagged: int = 0
    unsaid: int = 0
    unsaid_listed: int = 0
    false_unsaid: int = 0
    chars: int = 0
    chars_accounted: int = 0

    def __add__(self, other: "Counts") -> "Counts":
        """The counts of two walks together."""
        return Counts(*(a + b for a, b in zip(astuple(self), astuple(other), strict=True)))


def total(counts: Iterable[Counts]) -> Counts:
    """The counts of many walks together."""
    return sum(counts, Counts())


def figures(counts: Counts) -> dict[str, float | int | dict[str, int] | None]:
    """The figures by name; shares are 0 to 1, to four places, None where there was nothing to share."""
    precision = share(counts.right, counts.found) or 0
    recall = share(counts.right, counts.gold) or 0
    harmonic = 2 * precision * recall / (precision + recall) if precision + recall else 0.0
    return {
        "F1": round(harmonic, 4),
        "precision": precision,
        "recall": recall,
        "located": share(counts.paired, counts.gold),
        "side": share(counts.side_right, counts.sided),
        "measure": share(counts.measures_right, counts.measures),
        "denial": share(counts.denials_right, counts.denials),
        "talk_taken_for_finding": share(counts.from_talk, counts.distractors),
        "lost_silently": counts.lost_silently,
        "called_good": counts.called_good,
        "invented": counts.invented,
        "wrong_numbers": counts.wrong_numbers,
        "wrong_flagged": share(counts.wrong_flagged, counts.wrong),
        "correct_flagged": share(counts.correct_flagged, counts.correct),
        "unsaid_recall": share(counts.unsaid_listed, counts.unsaid),
        "false_unsaid": counts.false_unsaid,
        "accounted": share(counts.chars_accounted, counts.chars),
        "counts": asdict(counts),
    }


def share(part: int, whole: int) -> float | None:
    """``part / whole`` to four places; None where there is nothing to share."""
    return round(part / whole, 4) if whole else None
