"""What a statement means for the owner: its state, the condition that decided it, whether denied."""

from dataclasses import dataclass

from saycheck.models.walk import State
from saycheck.understanding.statements import Claim, Statement

TROUBLE = ("watch", "writeup")
WORST: dict[str, int] = {"good": 0, "watch": 1, "writeup": 2, "hidden": 1}


@dataclass(frozen=True)
class Verdict:
    """State of a statement, the condition behind it, whether it was named to be denied."""

    state: State
    condition: str
    denied: bool = False
    worn: bool = False


def state_of(claim: Claim) -> State:
    """The state one claim means by itself."""
    condition = claim.said.condition
    if claim.denied:
        return condition.denial if condition.form == "fault" else "writeup"
    if claim.degree == "slight" and condition.slight:
        return condition.slight
    if claim.degree == "strong" and condition.strong:
        return condition.strong
    return condition.state


def judge(statement: Statement) -> Verdict:
    """The verdict on a whole statement; words that put a weight on it win over the condition's own."""
    claims = statement.claims
    if "exception" in statement.marks:
        told = claims[-1].said.condition.name if claims else ""
        return Verdict("writeup", f"not {told}" if told else "needs work")
    if not claims:
        if "later" in statement.marks:
            return Verdict("later", "later")
        if "hidden" in statement.marks:
            return Verdict("hidden", "hidden")
        if "absent" in statement.marks:
            return Verdict("writeup", "missing")
        if "needs-work" in statement.marks:
            return Verdict("writeup", "needs work")
        if "keep-an-eye" in statement.marks:
            return Verdict("watch", "watch")
        return Verdict("good", "measured" if statement.quantities else "mentioned")
    worst = max(claims, key=lambda c: WORST[state_of(c)])
    condition = worst.said.condition
    state = state_of(worst)
    if state in TROUBLE:
        if "keep-an-eye" in statement.marks and "needs-work" not in statement.marks:
            state = "watch"
        elif "needs-work" in statement.marks:
            state = "writeup"
    elif state == "good" and "keep-an-eye" in statement.marks and not worst.denied:
        state = "watch"
    if state == "good" and "hidden" in statement.marks:
        state = "hidden"
    if state == "good" and "later" in statement.marks:
        state = "later"
    denied = worst.denied and condition.form == "fault"
    name = condition.name if condition.form == "fault" or not worst.denied else f"not {condition.name}"
    return Verdict(state, name, denied, condition.wear and not worst.denied)
