"""What is said of one part in two breaths and is one finding: "drawbar ball is loose. Quarter inch of play"."""

from collections.abc import Iterable

from saycheck.understanding.statements import Claim, Statement


def joined(statements: Iterable[Statement]) -> list[Statement]:
    """The statements, each number that only goes on with what was just said of its part taken into that."""
    kept: list[Statement] = []
    for statement in statements:
        if kept and goes_on(kept[-1], statement):
            take_in(kept[-1], statement)
        else:
            kept.append(statement)
    return kept


def goes_on(before: Statement, statement: Statement) -> bool:
    """Whether a statement is the number to what was said of the same part just before."""
    subject, told = statement.subject, before.subject
    same = subject is told or (subject.carried and subject.part.name == told.part.name)
    if not same or subject.side not in (told.side, None) or statement.sentence - before.sentence > 1:
        return False
    if statement.taken_back or before.taken_back or statement.copied_from or before.copied_from:
        return False
    if not statement.quantities or before.quantities or not before.claims:
        return False
    return all(is_trouble(claims) for claims in (before.claims, statement.claims)) or not statement.claims


def take_in(before: Statement, statement: Statement) -> None:
    """Make the second statement part of the first."""
    before.quantities += statement.quantities
    before.claims += statement.claims
    before.marks |= statement.marks
    before.count = before.count or statement.count
    before.stretch(statement.start, statement.end)


def is_trouble(claims: Iterable[Claim]) -> bool:
    """Whether nothing but faults is said."""
    return all(c.said.condition.form == "fault" and not c.denied for c in claims)
