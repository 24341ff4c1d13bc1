"""What to walk back for, in the order that walks least."""

from saycheck.coverage.checklist import checklist
from saycheck.coverage.places import round_of
from saycheck.coverage.questions import questions
from saycheck.coverage.route import shortest
from saycheck.models.base import Model
from saycheck.models.walk import ChecklistLine, Question, Side, Walk
from saycheck.vocabulary.compiled import Vocabulary

TO_LOOK_AT = frozenset(["unsaid", "unclear", "hidden", "later"])


class Stop(Model):
    """A zone to go back to: its side, the lines to look at there, the questions to answer there.

    The question for skipped parts is left out, since its parts stand among the lines.
    """

    zone: str
    side: Side
    lines: list[ChecklistLine]
    questions: list[Question]


def missed(vocabulary: Vocabulary, walk: Walk) -> list[Stop]:
    """The zones with something left to look at or to answer, by the shortest way from where the walk ended.

    The machine is walked round on a closed loop of stops (front, left, rear, right), one step apart; cab,
    engine bay and the like are looked at from one of them (``places``). ``route`` tells the way. Zones
    with one stop come in walk order. A walk without findings ended at the first stop. Questions about the
    walk as a whole have no stop.
    """
    lines = walk.checklist or checklist(vocabulary, walk.findings, text=walk.transcript.text)
    asked = walk.questions if walk.checklist else questions(vocabulary, walk)
    stops = {
        zone.name: Stop(
            zone=zone.name,
            side=zone.side,
            lines=[line for line in lines if line.zone == zone.name and line.state in TO_LOOK_AT],
            questions=[q for q in asked if q.about.zone == zone.name and q.kind != "skipped"],
        )
        for zone in vocabulary.zones
    }
    loop = round_of(vocabulary)
    place = {zone: number for number, zones in enumerate(loop) for zone in zones}
    wanted = {name: stop for name, stop in stops.items() if stop.lines or stop.questions}
    way = shortest((place[name] for name in wanted), place.get(ended_at(walk), 0), len(loop))
    return [wanted[name] for number in way for name in loop[number] if name in wanted]


def ended_at(walk: Walk) -> str:
    """The zone of what was said last, empty where nothing was found."""
    spoken = [finding for finding in walk.findings if finding.evidence]  # a reviewer may add some without
    last = max(spoken, key=lambda f: max(e.char_end for e in f.evidence), default=None)
    return last.zone if last else ""
