"""What was asked of saycheck and is left to understanding: "same again on this side".

Who asks for it does not just talk, and means the state of what is repeated.
"""

from collections.abc import Sequence

from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading
from saycheck.understanding.weigh import Weight, weigh


def weight_of(
    reading: Reading, statement: Statement, others: Sequence[Statement], asked: Sequence[int]
) -> Weight:
    """The weight of a statement; ``asked`` are the characters behind which saycheck was asked to repeat."""
    source = statement.copied_from
    if source is None or not _asked(reading, statement, asked):
        return weigh(reading, statement, others)
    shares = {
        state: share for state, share in weigh(reading, source, others).shares.items() if state != "talk"
    }
    whole = sum(shares.values())
    return Weight({state: share / whole for state, share in shares.items()})


def _asked(reading: Reading, statement: Statement, asked: Sequence[int]) -> bool:
    begins, _ = reading.span(statement.start, statement.end)
    return any(at <= begins and not reading.text[at:begins].strip(" ,.") for at in asked)
