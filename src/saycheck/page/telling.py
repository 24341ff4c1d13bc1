"""What an entry says in words besides what was heard: who did what about it, and what is heard otherwise now."""

from collections.abc import Sequence

from saycheck.models.review import Difference, Settled
from saycheck.models.walk import Evidence, Finding
from saycheck.reporting.wording import STATE_WORDS, clock, plain, said_of, with_side

DONE = {
    "accept": "accepted", "change": "changed", "split": "split", "merge": "joined", "drop": "taken off",
    "add": "added", "attach": "photographed", "detach": "photographed",
}  # fmt: skip


def by(settled: Settled) -> str:
    """Who did what last: "changed by Ann"."""
    return f"{DONE.get(settled.action, settled.action)} by {plain(settled.who)}"


def differs(difference: Difference) -> str:
    """How another hearing and an edit differ."""
    if difference.kind == "new":
        return "heard for the first time now that the walk was heard again"
    if difference.kind == "gone":
        return "not heard any more now that the walk was heard again; your edit stands"
    now = whole(difference.now) if difference.now else "nothing"
    was = whole(difference.was) if difference.was else "nothing"
    return f"heard again as {now}, before as {was}; your edit stands"


def whole(finding: Finding) -> str:
    """A finding in one line: part with its side, state, and what was said."""
    parts = [with_side(plain(finding.part), finding.side), STATE_WORDS[finding.state], said(finding)]
    return ", ".join(part for part in parts if part)


def said(finding: Finding) -> str:
    """What is said of a part, without repeating the word in the margin."""
    words = plain(said_of(finding))
    state = STATE_WORDS[finding.state]
    for word in (state, finding.state):
        if words == word:
            return ""
        words = words.removeprefix(f"{word}, ")
    return words


def at(evidence: Sequence[Evidence]) -> str:
    """When it was said, as a clock shows it; empty where there is no sound."""
    start = next((one.start_s for one in evidence if one.start_s is not None), None)
    return "" if start is None else clock(start)
