"""Question and words to an answer: the same words mean other things after other questions."""

from collections.abc import Callable

from saycheck.asking import doubts, numbers, parts
from saycheck.asking.matter import UNKNOWN, Answer, Matter
from saycheck.asking.replies import is_reply, words_of
from saycheck.leaking import ASKED


def understand(matter: Matter, words: str) -> Answer:
    """What ``words`` mean as the answer to the question of ``matter``; what is not understood stays unknown."""
    if not words_of(words):
        return UNKNOWN
    for kind in ("stop", "again", "open"):
        if is_reply(words, kind):
            return Answer(kind)
    return _by_kind(matter)(matter, words)


def _by_kind(matter: Matter) -> Callable[[Matter, str], Answer]:
    question = matter.question
    if question.kind == "measure" and question.id.startswith("measure-unit"):
        return numbers.which_unit
    if question.kind == "measure" and question.id.startswith("measure-which"):
        return numbers.which_measure
    if question.kind == "measure" and question.id.startswith(ASKED):
        return numbers.leak_class
    if question.kind == "unclear" and question.id.startswith("side"):
        return doubts.which_side
    if question.kind == "unclear" and question.id.startswith("alike"):
        return doubts.which_part
    return _KINDS[question.kind]


_KINDS: dict[str, Callable[[Matter, str], Answer]] = {
    "skipped": parts.skipped,
    "hidden": parts.not_seen,
    "later": parts.not_seen,
    "again": parts.again,
    "measure": numbers.measure,
    "hours": numbers.hours,
    "conflict": doubts.conflict,
    "unclear": doubts.passage,
    "unit": doubts.unit_name,
    "sound": doubts.recording,
}
