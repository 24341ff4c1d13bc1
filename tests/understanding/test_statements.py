"""What a statement is before it is judged."""

from saycheck.understanding.resolve import Resolved
from saycheck.understanding.statements import Statement, Subject


def test_stretch() -> None:
    """A statement grows over further words, and never shrinks."""
    made = Statement(Subject(Resolved("bucket", None, "front"), None, 4, 5), 0, 4, 5)
    made.stretch(6, 8)
    made.stretch(2, 3)
    made.stretch(4, 5)
    assert (2, 8) == (made.start, made.end)
