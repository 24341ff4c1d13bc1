"""From what a person asks for to the edit that does it: whole findings before and after."""

from collections.abc import Callable, Sequence

from saycheck.errors import ReviewError
from saycheck.models.review import Edit, Standing
from saycheck.models.walk import Evidence, Finding, Transcript
from saycheck.models.wishes import Patch, Wish
from saycheck.review.edits import new_id, now
from saycheck.review.hearing import fingerprint, quotes
from saycheck.review.patching import made_of, patched
from saycheck.vocabulary.compiled import Vocabulary

SPLIT_MOST = 20


def edit_for(wish: Wish, standing: Standing, vocabulary: Vocabulary) -> Edit:
    """The edit that a wish asks for, on the walk as it stands.

    Raises:
        ReviewError: the wish names a finding, question, place or unit that is not there, or lacks something.
    """
    making = _Making(wish, standing, vocabulary)
    before, after = _ACTIONS[wish.action](making)
    transcript = standing.heard.transcript
    passage = making.place() if wish.action == "settle" else None
    words = quotes([*before, *after], transcript)
    if passage:
        words["passage"] = transcript.text[passage.char_start : passage.char_end]
    machine = standing.walk.machine
    changed = machine.model_copy(update=_machine_of(wish)) if wish.action == "machine" else None
    return Edit(
        id=new_id(),
        at=now(),
        who=wish.who.strip() or "someone",
        action=wish.action,
        heard=fingerprint(standing.heard),
        before=before,
        after=after,
        reason=wish.reason.strip(),
        refers=making.refers() if wish.action in ("undo", "redo") else None,
        question=making.question(),
        passage=passage,
        machine=changed,
        machine_before=machine if changed else None,
        quotes=words,
        origins={
            one.id: (done.edit, done.made)
            for one in before
            if (done := standing.settled.get(one.id)) and done.made
        },
        way=wish.way,
    )


def _machine_of(wish: Wish) -> dict[str, object]:
    given = {"unit": wish.unit.strip() if wish.unit else None, "hours": wish.hours}
    said: dict[str, object] = {name: value for name, value in given.items() if value is not None}
    if not said:
        raise ReviewError("neither a name nor a reading was given for the unit; type one of them")
    return said


Changed = tuple[list[Finding], list[Finding]]


class _Making:
    """One wish met with the walk as it stands."""

    def __init__(self, wish: Wish, standing: Standing, vocabulary: Vocabulary) -> None:
        self.wish, self.standing, self.vocabulary = wish, standing, vocabulary
        self.there = {finding.id: finding for finding in standing.walk.findings}
        self.gone = {finding.id: finding for finding in standing.dropped}

    def named(self, least: int = 1, most: int | None = None) -> list[Finding]:
        """The findings that the wish names; one that another person dropped meanwhile is taken up again."""
        found = []
        for one in dict.fromkeys(self.wish.findings):
            finding = self.there.get(one) or self.gone.get(one)
            if finding is None:
                raise ReviewError(f"there is no finding '{one}' on this walk any more; load the page again")
            found.append(finding)
        if len(found) < least or (most is not None and len(found) > most):
            raise ReviewError(f"{self.wish.action} was asked for with {len(found)} findings; choose again")
        return found

    def place(self) -> Evidence:
        """The words that the wish points to."""
        return words_at(self.standing.heard.transcript, self.wish.start, self.wish.end)

    def patches(self, least: int, most: int) -> Sequence[Patch]:
        """The changes that the wish brings."""
        if not least <= len(self.wish.patches) <= most:
            raise ReviewError(
                f"{self.wish.action} was asked for with {len(self.wish.patches)} changes; try again"
            )
        return self.wish.patches

    def question(self) -> str | None:
        """The question that is answered, which must be open."""
        if self.wish.question is None:
            if self.wish.action == "answer":
                raise ReviewError("no question was named; choose one and answer again")
            return None
        if self.wish.question not in {one.id for one in self.standing.walk.questions}:
            raise ReviewError(
                f"the question '{self.wish.question}' is not open any more; load the page again"
            )
        return self.wish.question

    def refers(self) -> str:
        """The edit that is to be undone or redone."""
        stands = self.standing.undo if self.wish.action == "undo" else self.standing.redo
        wanted = self.wish.refers or stands
        if stands is None or wanted is None:
            raise ReviewError(f"there is nothing to {self.wish.action}")
        if wanted != stands:
            raise ReviewError(
                f"someone has edited this walk meanwhile; look at it and {self.wish.action} again"
            )
        return wanted

    def accept(self) -> Changed:
        before = self.named()
        return before, [settled(finding) for finding in before]

    def change(self) -> Changed:
        before = self.named()
        patches = self.patches(1, len(before))
        if len(patches) not in (1, len(before)):
            raise ReviewError("there are more findings than changes; change them one by one")
        each = [patches[0]] * len(before) if len(patches) == 1 else patches
        pairs = zip(before, each, strict=True)
        return before, [patched(settled(was), patch, self.vocabulary) for was, patch in pairs]

    def split(self) -> Changed:
        (was,) = self.named(1, 1)
        first, *others = self.patches(2, SPLIT_MOST)
        pieces = [patched(settled(was), first, self.vocabulary)]
        for patch in others:
            pieces.append(patched(settled(was).model_copy(update={"id": new_id()}), patch, self.vocabulary))
        return [was], pieces

    def merge(self) -> Changed:
        before = self.named(2, SPLIT_MOST)
        whole = merged(before)
        for patch in self.patches(0, 1):
            whole = patched(whole, patch, self.vocabulary)
        return before, [whole]

    def drop(self) -> Changed:
        return self.named(), []

    def add(self) -> Changed:
        spoken = self.wish.start is not None
        place = [self.place()] if spoken else []
        text = self.standing.heard.transcript.text
        heard_as = text[place[0].char_start : place[0].char_end] if place else ""
        patches = self.patches(1, 200)
        return [], [made_of(patch, place, heard_as, self.vocabulary) for patch in patches]

    def nothing(self) -> Changed:
        return [], []


_ACTIONS: dict[str, Callable[[_Making], Changed]] = {
    "accept": _Making.accept,
    "change": _Making.change,
    "split": _Making.split,
    "merge": _Making.merge,
    "drop": _Making.drop,
    "add": _Making.add,
    "settle": _Making.nothing,
    "answer": _Making.nothing,
    "machine": _Making.nothing,
    "undo": _Making.nothing,
    "redo": _Making.nothing,
}


def settled(finding: Finding) -> Finding:
    """The finding as a person has looked at it: nothing about it is in doubt any more."""
    return finding.model_copy(update={"needs_review": False, "review_reasons": []})


def merged(findings: Sequence[Finding]) -> Finding:
    """Several findings as one: the first, with the words and the numbers of all."""
    first = findings[0]
    evidence = {(e.char_start, e.char_end): e for finding in findings for e in finding.evidence}
    numbers = {(m.value, m.unit): m for finding in findings for m in finding.measurements}
    return settled(first).model_copy(
        update={
            "evidence": [evidence[place] for place in sorted(evidence)],
            "measurements": list(numbers.values()),
            "caution": next((f.caution for f in findings if f.caution), None),
        }
    )


def words_at(transcript: Transcript, start: int | None, end: int | None) -> Evidence:
    """A stretch of the transcript, widened to whole words, with its time in the sound.

    Raises:
        ReviewError: there are no words between the two offsets.
    """
    inside = [
        word
        for word in transcript.words
        if start is not None and end is not None and word.char_start < end and word.char_end > start
    ]
    if not inside:
        raise ReviewError("there are no words at that place; select some and try again")
    timed = [word for word in inside if word.start_s is not None]
    return Evidence(
        char_start=inside[0].char_start,
        char_end=inside[-1].char_end,
        start_s=timed[0].start_s if timed else None,
        end_s=timed[-1].end_s if timed else None,
    )
