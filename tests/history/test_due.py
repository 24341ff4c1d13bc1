"""When a trouble wants attention."""

import pytest

from saycheck.history.due import Due, due

SEEN = "2025-03-09"


@pytest.mark.parametrize(
    ("state", "urgency", "choice", "decided_due", "expected"),
    [
        ("writeup", "before work", "", "", Due(SEEN, "before work")),
        ("writeup", "this week", "", "", Due("2025-03-16", "this week")),
        ("writeup", "next service", "", "", Due(None, "next service")),  # nobody told when that is
        ("watch", "before work", "", "", Due(None, "next walk")),
        ("writeup", "before work", "now", "", Due("2025-03-10", "decided: now")),
        ("writeup", "before work", "later", "2025-06-01", Due("2025-06-01", "decided: later")),
        ("writeup", "before work", "later", "", Due(None, "decided: later, no day named")),
        ("writeup", "before work", "later", "2025-13-01", Due(None, "decided: later, no day named")),
        ("writeup", "before work", "never", "2025-06-01", Due(None, "decided: not at all")),
        ("watch", "this week", "later", "2025-06-01", Due("2025-06-01", "decided: later")),
    ],
)
def test_due(state: str, urgency: str, choice: str, decided_due: str, expected: Due) -> None:
    """The owner's day goes before the urgency of the check, and where no day is known none is made up."""
    assert expected == due(state, urgency, SEEN, choice, decided_due, "2025-03-10" if choice else "")


def test_the_end_of_the_calendar() -> None:
    """A week after the last day there is has no date."""
    assert Due(None, "this week") == due("writeup", "this week", "9999-12-31")
