"""What others did on the same walk meanwhile, each in one sentence."""

from collections.abc import Sequence

from saycheck.models.review import Edit
from saycheck.reporting.wording import plain, with_side

VERBS = {
    "accept": "accepted", "change": "changed", "split": "split", "merge": "joined", "drop": "took off", "add": "added",
    "settle": "settled a passage as talk", "answer": "answered a question", "machine": "named the unit",
    "attach": "added a photograph", "detach": "took a photograph off", "undo": "undid", "redo": "redid",
}  # fmt: skip


def since(edits: Sequence[Edit], seen: str | None) -> list[Edit]:
    """The edits after the one that was seen last; all where none was."""
    ids = [edit.id for edit in edits]
    return list(edits[ids.index(seen) + 1 :]) if seen in ids else list(edits)


def sentence(edit: Edit, edits: Sequence[Edit] = ()) -> str:
    """What an edit did: "Ben changed left mirror"."""
    meant = next((one for one in edits if one.id == edit.refers), None)
    if meant:
        return f"{plain(edit.who)} {VERBS[edit.action]}: {sentence(meant)}"
    about = edit.after or edit.before
    names = [with_side(plain(one.part), one.side) for one in about[:2]]
    more = f" and {len(about) - 2} more" if len(about) > 2 else ""
    return " ".join([plain(edit.who), VERBS[edit.action], " and ".join(names)]).strip() + more


def clashes(made: Edit, news: Sequence[Edit]) -> list[str]:
    """What others had just done to the same findings; the edit made now stands over it."""
    touched = {one.id for one in made.before}
    return [
        f"{sentence(edit)} just before you; yours stands now, and undo brings theirs back"
        for edit in news
        if touched & {one.id for one in [*edit.before, *edit.after]}
    ]
