"""Labels and findings of one walk sorted into right and wrong, each kind of wrong by itself."""

from dataclasses import dataclass

from saycheck.scoring.agreement import same_amount
from saycheck.scoring.labels import Amount, shared
from saycheck.scoring.pairing import Pairing
from saycheck.scoring.unsaid import falsely_unsaid, listed

SHOWN = 0.5
"""Share of a label's characters that must lie in unclear spans for the reviewer to be shown them."""

TROUBLE = ("writeup", "watch")


@dataclass(frozen=True)
class Sorted:
    """Numbers of labels and findings, sorted.

    Of labels: ``wrong_state``, ``sided``, ``wrong_side``, ``missed_measures`` (with the amount),
    ``wrong_numbers``, ``denials``, ``trouble``, ``lost`` (silently) and ``called_good``. Of findings:
    ``from_talk``, ``invented``, ``wrong`` and ``correct``. Part names: ``not_listed`` and
    ``falsely_unsaid``.
    """

    wrong_state: list[int]
    sided: list[int]
    wrong_side: list[int]
    missed_measures: list[tuple[int, Amount]]
    wrong_numbers: list[int]
    denials: list[int]
    trouble: list[int]
    lost: list[int]
    called_good: list[int]
    from_talk: list[int]
    invented: list[int]
    wrong: list[int]
    correct: list[int]
    not_listed: list[str]
    falsely_unsaid: list[str]


def sort_out(lay: Pairing) -> Sorted:
    """Sort every label and every finding of a walk."""
    gold, found, pairs = lay.labels.gold, lay.walk.findings, lay.pairs
    right = {j for i, j in pairs.items() if gold[i].walk_state == found[j].state} | lay.restated
    sided = [i for i in pairs if gold[i].side in ("left", "right")]
    trouble = [i for i, item in enumerate(gold) if item.walk_state in TROUBLE]
    amounts = [(i, amount) for i, item in enumerate(gold) for amount in item.amounts]
    return Sorted(
        wrong_state=[i for i, j in pairs.items() if gold[i].walk_state != found[j].state],
        sided=sided,
        wrong_side=[i for i in sided if gold[i].side != found[pairs[i]].side],
        missed_measures=[(i, amount) for i, amount in amounts if not _measured(lay, i, amount)],
        wrong_numbers=[i for i in pairs if _misread(lay, i)],
        denials=[i for i in pairs if gold[i].negated],
        trouble=trouble,
        lost=[i for i in trouble if i not in pairs and not _shown(lay, i)],
        called_good=[i for i in trouble if i in pairs and _claims(lay, pairs[i], ("good",))],
        from_talk=[j for j in lay.extra if _is_talk(lay, j)],
        invented=_invented(lay),
        wrong=[j for j in range(len(found)) if j not in right],
        correct=sorted(right),
        not_listed=[name for name in lay.labels.unsaid if not listed(name, lay.walk.checklist)],
        falsely_unsaid=[item.part for item in gold if falsely_unsaid(item, lay.walk.checklist)],
    )


def _measured(lay: Pairing, item: int, amount: Amount) -> bool:
    if item not in lay.pairs:
        return False
    return any(same_amount(amount, found) for found in lay.walk.findings[lay.pairs[item]].measurements)


def _misread(lay: Pairing, item: int) -> bool:
    """Whether a finding has numbers where its label has some, and none of them is a labelled one."""
    wanted, found = lay.labels.gold[item].amounts, lay.walk.findings[lay.pairs[item]].measurements
    return bool(wanted and found) and not any(same_amount(w, f) for w in wanted for f in found)


def _shown(lay: Pairing, item: int) -> bool:
    """Whether the reviewer is shown a label's words: in a flagged finding or as unclear."""
    if any(finding.needs_review and lay.touch(item, j) for j, finding in enumerate(lay.walk.findings)):
        return True
    unclear = [(s.char_start, s.char_end) for s in lay.walk.transcript.spans if s.disposition == "unclear"]
    return any(
        sum(shared(place, span) for span in unclear) / max(place[1] - place[0], 1) >= SHOWN
        for place in lay.wanted[item]
    )


def _claims(lay: Pairing, finding: int, states: tuple[str, ...]) -> bool:
    """Whether a finding claims one of these states without asking for review."""
    return lay.walk.findings[finding].state in states and not lay.walk.findings[finding].needs_review


def _is_talk(lay: Pairing, finding: int) -> bool:
    """Whether a finding that answers no label was made from words that are only talk."""
    on_talk = any(shared(place, talk) for place in lay.evidence[finding] for talk in lay.talk)
    return on_talk and not lay.touches_any(finding)


def _invented(lay: Pairing) -> list[int]:
    """Findings of trouble that nobody spoke of, or that was called good, without a flag."""
    nowhere = [j for j in lay.extra if _claims(lay, j, TROUBLE)]
    gold = lay.labels.gold
    turned = [j for i, j in lay.pairs.items() if gold[i].state == "good" and _claims(lay, j, TROUBLE)]
    return nowhere + turned
