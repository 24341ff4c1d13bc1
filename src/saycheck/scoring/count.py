"""Score one walk against its labels: counts for the figures, and the words behind each count."""

from dataclasses import dataclass

from saycheck.models.walk import Walk
from saycheck.scoring.figures import Counts
from saycheck.scoring.labels import Labels
from saycheck.scoring.pairing import Pairing, pair
from saycheck.scoring.sorting import Sorted, sort_out

Made = tuple[str, str, list[str]]
"""A finding in words: its part, its state and the words it came from."""


@dataclass(frozen=True)
class Detail:
    """What stands behind the counts, in words, for whoever works on the rules.

    Rows about a label begin with its quote; those about a finding give part, state and words.
    """

    missed: list[tuple[str, str, str]]
    wrong_state: list[tuple[str, str, str]]
    extra: list[Made]
    from_talk: list[Made]
    lost_silently: list[str]
    called_good: list[str]
    invented: list[Made]
    wrong_side: list[tuple[str, str, str]]
    missed_measures: list[tuple[str, float, str]]
    wrong_numbers: list[tuple[str, list[str]]]
    unsaid_not_listed: list[str]
    false_unsaid: list[str]


def score(labels: Labels, walk: Walk) -> tuple[Counts, Detail]:
    """Count what a walk got right and wrong; the figures mean what the label format says they mean."""
    lay = pair(labels, walk)
    found = sort_out(lay)
    return _counts(lay, found), _detail(lay, found)


def _counts(lay: Pairing, lists: Sorted) -> Counts:
    gold, found, pairs = lay.labels.gold, lay.walk.findings, lay.pairs
    length = len(lay.walk.transcript.text)
    covered = sum(span.char_end - span.char_start for span in lay.walk.transcript.spans)
    return Counts(
        gold=len(gold),
        found=len(found) - len(lay.restated),
        paired=len(pairs),
        right=len(pairs) - len(lists.wrong_state),
        from_talk=len(lists.from_talk),
        distractors=len(lay.talk),
        sided=len(lists.sided),
        side_right=len(lists.sided) - len(lists.wrong_side),
        measures=sum(len(item.amounts) for item in gold),
        measures_right=sum(len(item.amounts) for item in gold) - len(lists.missed_measures),
        wrong_numbers=len(lists.wrong_numbers),
        denials=len(lists.denials),
        denials_right=sum(found[pairs[i]].denied for i in lists.denials),
        trouble=len(lists.trouble),
        lost_silently=len(lists.lost),
        called_good=len(lists.called_good),
        invented=len(lists.invented),
        wrong=len(lists.wrong),
        wrong_flagged=sum(found[j].needs_review for j in lists.wrong),
        correct=len(lists.correct),
        correct_flagged=sum(found[j].needs_review for j in lists.correct),
        unsaid=len(lay.labels.unsaid),
        unsaid_listed=len(lay.labels.unsaid) - len(lists.not_listed),
        false_unsaid=len(lists.falsely_unsaid),
        chars=length,
        chars_accounted=min(covered, length),
    )


def _detail(lay: Pairing, lists: Sorted) -> Detail:
    gold, pairs = lay.labels.gold, lay.pairs
    answer = {i: lay.walk.findings[j] for i, j in pairs.items()}
    return Detail(
        missed=[(item.quote, item.part, item.state) for i, item in enumerate(gold) if i not in pairs],
        wrong_state=[(gold[i].quote, gold[i].state, answer[i].state) for i in lists.wrong_state],
        extra=[_made(lay, j) for j in lay.extra],
        from_talk=[_made(lay, j) for j in lists.from_talk],
        lost_silently=[gold[i].quote for i in lists.lost],
        called_good=[gold[i].quote for i in lists.called_good],
        invented=[_made(lay, j) for j in lists.invented],
        wrong_side=[(gold[i].quote, gold[i].side, answer[i].side) for i in lists.wrong_side],
        missed_measures=[(gold[i].quote, a.value, a.unit) for i, a in lists.missed_measures],
        wrong_numbers=[
            (gold[i].quote, [m.text for m in answer[i].measurements]) for i in lists.wrong_numbers
        ],
        unsaid_not_listed=lists.not_listed,
        false_unsaid=lists.falsely_unsaid,
    )


def _made(lay: Pairing, finding: int) -> Made:
    found, text = lay.walk.findings[finding], lay.walk.transcript.text
    return found.part, found.state, [text[start:end] for start, end in lay.evidence[finding]]
