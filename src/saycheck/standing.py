"""The walk as it stands: what was heard, with the edits of its reviewers.

Commands that show, write up or remember a walk read it through here, never ``walk.json`` alone.
"""

from bisect import bisect_left
from collections.abc import Sequence
from pathlib import Path

from saycheck import walkfolder
from saycheck.coverage.checklist import checklist
from saycheck.coverage.questions import questions
from saycheck.coverage.wording import called, sentence, slug
from saycheck.limits import judged
from saycheck.models.review import Edit, Standing
from saycheck.models.walk import About, Finding, Question, Span, Walk
from saycheck.models.wishes import Wish
from saycheck.review.changes import edit_for
from saycheck.review.edits import append, read
from saycheck.review.hearing import moved
from saycheck.review.replay import Replayed, replay, stacks
from saycheck.review.spans import spans_after
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load


def standing(folder: Path) -> Standing:
    """The walk of a folder as it stands after its edits.

    Raises:
        SaycheckError: there is no walk, or its edits are damaged.
    """
    heard = walkfolder.read(folder)
    folder = folder if folder.is_dir() else folder.parent
    vocabulary = load(heard.machine.kind, unit=heard.machine.unit)
    return after(heard, read(folder), vocabulary, walkfolder.earlier(folder))


def after(
    heard: Walk, edits: Sequence[Edit], vocabulary: Vocabulary, earlier: Sequence[Walk] = ()
) -> Standing:
    """A walk as it stands after edits, with checklist and questions made anew where there are any.

    ``earlier`` are hearings of the same walk before this one.
    """
    replayed = replay(heard, edits, earlier)
    order = stacks(edits)
    walk = _walk(heard, replayed, vocabulary) if edits else heard
    differing = {one.finding for one in replayed.differences}
    photos: dict[str, list[str]] = {}
    for photograph in replayed.photographs:
        photos.setdefault(photograph.finding, []).append(photograph.file)
    return Standing.model_construct(
        walk=walk,
        heard=heard,
        edits=list(edits),
        settled=replayed.settled,
        dropped=[finding for finding, _ in replayed.dropped.values()],
        open_findings=[one.id for one in walk.findings if one.needs_review or one.id in differing],
        differences=replayed.differences,
        reviewed_share=_share(heard, walk, differing),
        photos=photos,
        by=list(dict.fromkeys(edit.who for edit in edits)),
        answers=_answers(edits, set(order.done)),
        undo=order.done[-1] if order.done else None,
        redo=order.undone[-1] if order.undone else None,
    )


def apply(folder: Path, wish: Wish) -> Edit:
    """Do what a person asks for on the walk of a folder; the edit is on the disk when this returns.

    Raises:
        SaycheckError: the wish cannot be met, or the disk refuses.
    """
    heard = walkfolder.read(folder)
    vocabulary = load(heard.machine.kind, unit=heard.machine.unit)

    earlier = walkfolder.earlier(folder)

    def make(edits: list[Edit]) -> list[Edit]:
        return [edit_for(wish, after(heard, edits, vocabulary, earlier), vocabulary)]

    return append(folder, make)[0]


def _answers(edits: Sequence[Edit], counting: set[str]) -> dict[str, str]:
    return {one.question: one.reason for one in edits if one.question and one.reason and one.id in counting}


def _walk(heard: Walk, replayed: Replayed, vocabulary: Vocabulary) -> Walk:
    text = heard.transcript.text
    spans = spans_after(heard.transcript, replayed)
    findings = judged(replayed.findings, vocabulary)
    walk = heard.model_copy(
        update={
            "machine": replayed.machine,
            "findings": findings,
            "checklist": checklist(
                vocabulary,
                findings,
                text=text,
                recordings=[one.char_start for one in heard.joined],
                spans=spans,
            ),
            "transcript": heard.transcript.model_copy(update={"spans": spans}),
        }
    )
    again = _still_to_ask(heard, findings)
    asked = [*questions(vocabulary, walk, again), *_lost(replayed.lost, heard)]
    still = [one for one in asked if one.id not in replayed.answered]
    return walk.model_copy(update={"questions": still})


def _lost(findings: Sequence[Finding], heard: Walk) -> list[Question]:
    """A question for each trouble that the hearing before had and this one has not."""
    return [
        Question(
            id=slug(
                "gone",
                was.part,
                was.side,
                was.condition,
                *(int(e.start_s or e.char_start) for e in was.evidence),
            ),
            about=About(zone=was.zone, part=was.part, side=was.side),
            kind="conflict",
            text=f"{sentence(called(was.part, was.side))}: {was.condition} was heard before, and is not heard now. "
            "Which holds?",
            evidence=moved(was, "", heard.transcript),
        )
        for was in findings
        if was.state != "good"
    ]


def _still_to_ask(heard: Walk, findings: Sequence[Finding]) -> list[Question]:
    """Questions from earlier walks, but those of parts that an edit has spoken of since."""
    known = {one.id for one in heard.findings}
    spoken = {(one.part, side) for one in findings if one.id not in known for side in (one.side, "none")}
    return [
        one
        for one in heard.questions
        if one.kind == "again" and (one.about.part, one.about.side) not in spoken
    ]


def _share(heard: Walk, walk: Walk, differing: set[str]) -> float:
    """The share of findings and passages needing a look that have had it."""
    needing = {one.id for one in [*heard.findings, *walk.findings] if one.needs_review} | differing
    still = {one.id for one in walk.findings if one.needs_review} | differing
    passages, left = _unclear(heard.transcript.spans), _unclear(walk.transcript.spans)
    wanted = len(needing) + len(passages)
    open_now = len(still) + sum(_touched(one, left) for one in passages)
    return 1 - open_now / wanted if wanted else 1.0


def _unclear(spans: Sequence[Span]) -> list[Span]:
    return [span for span in spans if span.disposition == "unclear"]


def _touched(one: Span, spans: Sequence[Span]) -> bool:
    """Whether one of the spans, which stand in order and do not overlap, shares a character with this one."""
    behind = bisect_left(spans, one.char_end, key=lambda span: span.char_start)
    return behind > 0 and spans[behind - 1].char_end > one.char_start
