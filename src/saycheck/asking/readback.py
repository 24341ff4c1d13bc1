"""What an answer would change, said back in plain words before it counts."""

from collections.abc import Iterable, Sequence

from saycheck.coverage.wording import listed, one_each, sentence
from saycheck.models.review import Edit
from saycheck.models.walk import Finding
from saycheck.reporting.wording import STATE_WORDS, number, plain, said_of, with_side


def read_back(edit: Edit, note: str = "") -> str:
    """An edit as sentences, one a line, without a question at the end."""
    lines = list(_lines(edit))
    if note:
        lines.append(f"{sentence(note)}.")
    return "\n".join(plain(line) for line in lines)


def _lines(edit: Edit) -> Iterable[str]:
    if edit.machine and edit.machine_before:
        if edit.machine.unit != edit.machine_before.unit:
            yield f"The unit is “{edit.machine.unit}”."
        if edit.machine.hours != edit.machine_before.hours and edit.machine.hours is not None:
            yield f"The hour meter reads {number(edit.machine.hours)} h."
    elif edit.action == "answer":
        yield f"{sentence(edit.reason.split(': ', 1)[0])}; nothing else is changed."
    elif edit.action == "settle":
        yield "Only talk; nothing is noted from these words."
    elif edit.action == "drop":
        yield f"{sentence(edit.reason.split(' holds', 1)[0])} holds."
        yield f"Taken off: {listed([_whole(one) for one in edit.before])}."
    elif edit.action == "add":
        yield from _added(edit.after)
    else:
        yield from (f"{sentence(_whole(one))}." for one in edit.after)


def _added(findings: Sequence[Finding]) -> Iterable[str]:
    """New findings, those of which the same is said together: every part is named, none only counted."""
    alike: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        alike.setdefault((STATE_WORDS[finding.state], said_of(finding)), []).append(finding)
    for (state, said), these in alike.items():
        names = listed(one_each((one.part, one.side) for one in these), most=len(these))
        yield f"{sentence(state)}{_said(state, said)}: {names}."


def _whole(finding: Finding) -> str:
    state = STATE_WORDS[finding.state]
    return f"{with_side(finding.part, finding.side)}: {state}{_said(state, said_of(finding))}"


def _said(state: str, said: str) -> str:
    """What is said beside the state; a condition that only repeats it is left out."""
    head, _, rest = said.partition(", ")
    if head == state:
        said = rest
    return f", {said}" if said else ""
