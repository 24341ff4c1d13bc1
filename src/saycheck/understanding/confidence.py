"""How likely a finding is right, as a number that means what it says, and whether a person should look.

Fitted on the tuning narrations by ``bench/train_confidence.py`` from what can be known without the label:
how sure the weighing was and of what else, whether the rules agree, how well the part was named. Without
weights the probability of the weighing itself stands.
"""

from saycheck.understanding.judge import TROUBLE, Verdict
from saycheck.understanding.linear import trained
from saycheck.understanding.phrases import singular
from saycheck.understanding.statements import Statement
from saycheck.understanding.weigh import STATES, Weight, named_by

# Findings less likely right than this go to review; chosen on the reliability curve that
# ``bench/train_confidence.py`` prints.
REVIEW_BELOW = 0.9
# A finding that says "good" is looked at again when trouble is this likely: the costly mistake. On 53 narrations of
# people not learned from, 8 troubles were called good unseen at 0.14, 5 at 0.05, 2 at 0.02; of the right findings 0.47,
# 0.48 and 0.55 were looked at.
TROUBLE_ABOVE = 0.05


def step(value: float, size: float = 0.1) -> int:
    """The number of whole steps in a value, as a feature."""
    return int(value / size)


def features(
    statement: Statement, verdict: Verdict, weight: Weight, ruled: str, talk: str | None
) -> list[str]:
    """Names of the binary features of a finding; ``ruled`` is the state by the rules alone."""
    part = statement.subject.part
    shares = weight.shares
    order = sorted(STATES, key=lambda s: -shares.get(s, 0.0))
    spoken = statement.subject.spoken.lower().split()
    return [
        f"sure={step(shares[verdict.state], 0.05)}",
        f"talk={step(shares.get('talk', 0.0))}",
        f"second={order[1]} {step(shares.get(order[1], 0.0))}",
        f"state={verdict.state}",
        f"agree={ruled == verdict.state}",
        f"agree={ruled == verdict.state} {verdict.state} {step(shares[verdict.state])}",
        f"known={part.part is not None} score={step(part.score, 0.2)}",
        f"carried={statement.subject.carried} named={statement.subject.start >= 0}",
        f"cue={talk}",
        f"claims={min(len(statement.claims), 3)}",
        f"words={min((statement.end - statement.start) // 3, 6)}",
        f"like={part.part.like if part.part else '-'}",
        *(f"mark={m}" for m in sorted(statement.marks)),
        f"name={named_by(statement.subject)} {part.part is not None}",
        f"head={singular(spoken[-1]) if spoken else '-'}",
        f"condition={verdict.condition} {verdict.state}",
        f"margin={step(shares.get(order[0], 0.0) - max(shares.get(order[1], 0.0), shares.get('talk', 0.0)))}",
        f"quantities={min(len(statement.quantities), 2)}",
    ]


def confidence(names: list[str], weight: Weight, state: str) -> float:
    """Probability that the finding is right."""
    model = trained("confidence")
    if model is None:
        return weight.shares.get(state, 0.5)
    return model.shares(names)["right"]


def reasons(statement: Statement, verdict: Verdict, weight: Weight, ruled: str, sure: float) -> list[str]:
    """Why a person should look at a finding, in plain words; empty where nobody need."""
    shares = weight.shares
    trouble = shares.get("watch", 0.0) + shares.get("writeup", 0.0)
    out = []
    if verdict.state == "good" and (trouble > TROUBLE_ABOVE or ruled in TROUBLE):
        out.append("said to be good, or is it?")
    if sure >= REVIEW_BELOW and not out:
        return out
    if shares.get("talk", 0.0) > 0.25:
        out.append("a finding, or only talk?")
    if statement.subject.part.part is None:
        out.append("part is not on the list")
    if statement.subject.carried:
        out.append("part was named earlier")
    if ruled != verdict.state and not out:
        out.append(f"{verdict.state}, or {ruled}?")
    return out or ["not sure of the state"]
