"""From judged statements to findings: names, side, evidence, measurements, confidence, review flags."""

import re
from dataclasses import replace

import pint

from saycheck.models.walk import Evidence, Finding, Measurement, Side, State, Word
from saycheck.understanding.confidence import confidence, features, reasons
from saycheck.understanding.denial import ABSENT_REACH, absent, absent_by_saying
from saycheck.understanding.judge import TROUBLE, Verdict, judge
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.talk import context_of
from saycheck.understanding.text import Mention, Reading
from saycheck.understanding.weigh import Weight

NOT_PART_WORDS = frozenset(
    "the a an and our this that these those left right both all nearside offside".split()
)
OWNERS = re.compile(r"['\u2019]s(?=\s)")
# Where another thought begins, and mentions that are one.
NEW_THOUGHT = frozenset(
    "and or but so because cause though although while then now except bar which who where as if when not".split()
)
OWN_THOUGHT = ("part", "condition", "take-back", "correct", "same")
# Words that a statement takes in, at most, to end its clause.
LAST_WORDS = 4
NOT_MEASURES = frozenset(["day", "week", "month", "year"])
# Short times measure something behind these: "a drop every ten seconds"; else somebody waits, "give me two minutes".
TIMED = frozenset(["min", "s"])
TIMED_BY = frozenset("in every after within inside over per to each for".split())
# Within so many words before it these tell that it is still to come: "I'll be back in five minutes".
WAITS = frozenset(
    "i'll we'll he'll she'll it'll you'll will back again done ready give wait finished home lunch".split()
)
WAITED = 6


def times(words: list[Word], start: int, end: int) -> tuple[float | None, float | None]:
    """Start and end in seconds of the words between two offsets."""
    inside = [w for w in words if w.char_start < end and w.char_end > start and w.start_s is not None]
    return (inside[0].start_s, inside[-1].end_s) if inside else (None, None)


class Units:
    """SI values through pint, with one registry for the whole program."""

    def __init__(self) -> None:
        self.registry: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
        self.registry.define("thread = []")
        self.registry.define("finger = []")
        self.cache: dict[str, tuple[float, float, str]] = {}

    def si(self, value: float, unit: str) -> tuple[float, str]:
        """The value in SI base units and their name; a count stays a count."""
        if unit in ("count", "finger", "thread", "mark"):
            return value, unit
        quantity = self.registry.Quantity(value, SPELLED.get(unit, unit)).to_base_units()
        return float(quantity.magnitude), f"{quantity.units:~}" or "1"


SPELLED = {
    "N m": "newton * meter", "lbf ft": "foot_pound", "in": "inch", "h": "hour", "lb": "pound", "ton": "short_ton",
    "L": "liter", "mL": "milliliter", "gal": "gallon", "min": "minute", "s": "second", "tonne": "metric_ton",
    "km/h": "kilometer / hour", "mph": "mile / hour", "kVA": "kilovolt * ampere", "hp": "horsepower",
}  # fmt: skip


def heard_as(subject: Subject, quote: str) -> str:
    """The words heard for the part, behind those of its heading or owner; the whole quote where none were."""
    before = subject.under or subject.owner
    return ", ".join(map(without_articles, filter(None, (before, subject.spoken)))) or quote


def without_articles(spoken: str) -> str:
    """The words without the articles and sides that they begin with, and without the "'s" of an owner in them."""
    words = OWNERS.sub("", spoken).split()
    while len(words) > 1 and words[0].lower() in NOT_PART_WORDS:
        words = words[1:]
    return " ".join(words)


def reworded(verdict: Verdict, state: State) -> str:
    """The condition where the weighing overturned the state: the words said nothing of the kind."""
    if state in ("hidden", "later"):
        return state
    if state == "good" and (verdict.state in TROUBLE or verdict.condition.startswith("not ")):
        return "good"
    return verdict.condition if verdict.condition not in ("mentioned", "measured") else state


def naming_the_denied(reading: Reading, statement: Statement, verdict: Verdict) -> tuple[Verdict, int]:
    """ "Fine, no glaze on it": of what is said for good, the trouble that is named as absent tells most.

    Returns the token, too, where the statement then ends.
    """
    if verdict.state != "good" or verdict.denied:
        return verdict, statement.end
    known = [c.said.condition for c in statement.claims if c.denied and c.said.condition.form == "fault"]
    if known:
        return replace(verdict, condition=known[0].name, denied=True), statement.end
    fine = [c.mention for c in statement.claims if not c.denied and c.said.condition.form == "fine"]
    absences = (absent_by_saying(reading.words(mention.start, mention.end)) for mention in fine)
    if said := next(filter(None, absences), None):
        return replace(verdict, condition=said, denied=True), statement.end
    told = absent(reading, statement.start, reach(reading, statement))
    if told is None or judge(statement).state != "good":
        return verdict, statement.end
    name, end = told
    return replace(verdict, condition=name, denied=True), max(end, statement.end)


def reach(reading: Reading, statement: Statement) -> int:
    """How far behind a statement words may still say what is not there: not past the next one or the sentence."""
    _, end = reading.sentences[statement.sentence]
    others: list[Statement] = reading.data.get("statements", [])
    later = [s.start for s in others if s.start >= statement.end]
    return max(statement.end, min([end, statement.end + ABSENT_REACH, *later]))


def clause_end(reading: Reading, statement: Statement, end: int) -> int:
    """Where the clause of a statement ends, if that is near behind ``end``: "can't see | them".

    What a person reads, or hears played, should not break off before its last words.
    """
    limit = reach(reading, statement)
    begun = {m.start for kind in OWN_THOUGHT for m in reading.inside(kind, end, limit)}
    for at in range(end, min(limit, end + LAST_WORDS + 1)):
        token = reading.tokens[at]
        if token.is_mark or token.text in NEW_THOUGHT:
            return at
        if at in begun:
            return end
    return limit if limit <= end + LAST_WORDS and limit == reading.sentences[statement.sentence][1] else end


def clause_begin(reading: Reading, statement: Statement) -> int:
    """Where the words of a statement begin, with how many there are of the things: "two of the four | bolts"."""
    if statement.count is None:
        return statement.start
    counted = statement.count[1]
    between = reading.tokens[counted.end : statement.start]
    near = counted.end <= statement.start <= counted.end + LAST_WORDS
    return counted.start if near and not any(token.is_mark for token in between) else statement.start


def is_timed(reading: Reading, mention: Mention) -> bool:
    """Whether a short time is how long something took or how often it comes."""
    # A hedge belongs to the number: "an inch over ten seconds".
    start = mention.start + (reading.all_words[mention.start] in TIMED_BY)
    before = [word for word in reading.words(max(0, start - WAITED), start) if word not in ("a", "an")]
    return bool(before) and before[-1] in TIMED_BY and WAITS.isdisjoint(before)


class FindingMaker:
    """Makes findings of statements."""

    def __init__(self) -> None:
        self.units = Units()

    def measurement(self, reading: Reading, quantity: Quantity, mention: Mention, unit: str) -> Measurement:
        """The quantity said at ``mention``, in ``unit`` and in SI."""
        value, unit_si = self.units.si(quantity.value, unit)
        return Measurement(
            value=quantity.value,
            unit=unit,
            text=reading.quote(mention.start, mention.end),
            value_si=value,
            unit_si=unit_si,
            plus_minus=quantity.plus_minus,
            other_units=list(quantity.also),
        )

    def hour_meter(self, reading: Reading, mention: Mention, value: float, words: list[Word]) -> Finding:
        """The finding for an hour-meter reading."""
        start, end = reading.span(mention.start, mention.end)
        start_s, end_s = times(words, start, end)
        quantity = Quantity(value, "h", 0.5)
        return Finding(
            id="",
            zone="cab",
            part="hour meter",
            side="none",
            check="reading",
            state="good",
            condition="reading",
            heard_as=reading.text[start:end],
            confidence=0.9,
            measurements=[self.measurement(reading, quantity, mention, "h")],
            evidence=[Evidence(char_start=start, char_end=end, start_s=start_s, end_s=end_s)],
            line="hour meter",
        )

    def __call__(
        self,
        reading: Reading,
        statement: Statement,
        words: list[Word],
        weight: Weight | None = None,
        side: Side | None = None,
    ) -> Finding:
        """The finding a statement makes; ``words`` give its times, ``weight`` the state it is given, ``side`` the
        side where it is not the subject's own.
        """
        verdict: Verdict = judge(statement)
        ruled = verdict.state
        if weight is None:
            weight = Weight({ruled: 1.0})
        if weight.state != verdict.state:
            verdict = replace(verdict, state=weight.state, condition=reworded(verdict, weight.state))
        if statement.copied_from is not None or (
            verdict.denied and verdict.state != ruled and ruled == "good"
        ):
            verdict = replace(verdict, state=ruled)
        talk = context_of(reading, statement)
        sure = confidence(features(statement, verdict, weight, ruled, talk), weight, verdict.state)
        why = reasons(statement, verdict, weight, ruled, sure)
        verdict, end_token = naming_the_denied(reading, statement, verdict)
        begin_token = statement.start
        if statement.copied_from is None:
            begin_token, end_token = (
                clause_begin(reading, statement),
                clause_end(reading, statement, end_token),
            )
        start, end = reading.span(begin_token, end_token)
        start_s, end_s = times(words, start, end)
        part = statement.subject.part
        measured = [
            self.measurement(reading, q, m, q.unit)
            for q, m in statement.quantities
            if q.unit is not None
            and q.unit not in NOT_MEASURES
            and (q.unit not in TIMED or is_timed(reading, m))
        ]
        if statement.count and not statement.copied_from:
            number, mention = statement.count
            counted = Quantity(float(number), "count", 0.0)
            measured.append(self.measurement(reading, counted, mention, "count"))
        return Finding(
            id="",
            zone=part.zone,
            part=part.name,
            side=side or statement.subject.side or "none",  # type: ignore[arg-type]
            check=verdict.condition,
            state=verdict.state,
            condition=verdict.condition,
            denied=verdict.denied,
            heard_as=heard_as(statement.subject, reading.text[start:end]),
            confidence=round(sure, 3),
            needs_review=bool(why),
            review_reasons=why,
            measurements=measured,
            evidence=[Evidence(char_start=start, char_end=end, start_s=start_s, end_s=end_s)],
            line=part.part.name if part.part else None,
            caution=part.part.caution if part.part and verdict.state == "writeup" else None,
        )
