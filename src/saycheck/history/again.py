"""What was bad on the last walk and is not spoken of on this one becomes a question, best while still there."""

from collections.abc import Callable, Sequence
from pathlib import Path

from saycheck.coverage.wording import called, sentence, slug
from saycheck.errors import SaycheckError
from saycheck.history.compare import compared
from saycheck.history.index import opened
from saycheck.history.names import unit_key
from saycheck.history.records import Walked
from saycheck.history.sense import sense_of
from saycheck.history.sync import sync
from saycheck.history.take import taken
from saycheck.history.troubles import Trouble, follow
from saycheck.history.unit import unit_history
from saycheck.history.wording import day
from saycheck.models.walk import About, Question, Side, Walk
from saycheck.reporting.wording import number

Asker = Callable[[Walk], list[Question]]


def asker(walks: Path, unit: str, kind: str, url: str | None, note: Callable[[str], None]) -> Asker | None:
    """What asks about the troubles of earlier walks; None where there are none.

    Nothing that is wrong with the history may stop a hearing: ``note`` is told it in one sentence.
    """
    if not walks.is_dir():
        return None
    try:
        with opened(walks, url) as index:
            sync(index)
            with index.reading() as connection:
                earlier = unit_history(connection, unit, kind).walks
    except SaycheckError as error:
        if not str(error).startswith("there is no unit"):
            note(f"earlier walks were not looked at: {error}")
        return None
    return lambda walk: again(earlier, walk)


def again(earlier: Sequence[Walked], walk: Walk) -> list[Question]:
    """A question for each open trouble of earlier walks of which this walk says nothing at all."""
    now = taken(walk, Path())
    # A walk that is heard again is no earlier one: its id ends as this one's does, in the digest of its source.
    before = [one for one in earlier if one.walk_id[-8:] != walk.id[-8:] and one.when <= now.when]
    if not before or unit_key(before[-1].unit or "") != unit_key(now.unit or ""):
        return []
    troubles = follow([*before, now], sense_of(now.kind, now.unit))
    return [
        _question(one.trouble, before)
        for one in compared(troubles, len(before))
        if one.change == "not looked at" and one.trouble.answer == "unsaid"
    ]


def _question(trouble: Trouble, before: Sequence[Walked]) -> Question:
    said = trouble.said
    side: Side = said.side  # type: ignore[assignment]
    last = before[trouble.seen]
    at = f" at {number(round(last.hours, 1))} h" if last.hours is not None else ""
    return Question(
        id=slug("again", said.zone, said.side, said.part, said.condition),
        about=About(zone=said.zone, part=said.part, side=side),
        kind="again",
        text=f"{sentence(called(said.part, side))}: {said.condition} on {day(last.day)}{at}, "
        "not mentioned today. How is it now?",
    )
