"""Questions about numbers: a worn part without one, one too close to its limit, a doubtful unit, the hour meter."""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from saycheck.coverage.names import Names, names_of, words_of
from saycheck.coverage.wording import called, either, is_or_are, listed, quoted, sentence, slug
from saycheck.limits import choices_of, held_against
from saycheck.models.walk import About, Finding, Machine, Measurement, Question
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import shared_tables
from saycheck.vocabulary.schema import Conditions, Measure

HOUR_METER = "hour meter"
PLAY = "play"
UNIT_WORDS = {
    "mm": "millimetres",
    "thou": "thousandths of an inch",
    "in": "inches",
    "degC": "degrees Celsius",
    "degF": "degrees Fahrenheit",
    "angle": "an angle",
}


@lru_cache(maxsize=1)
def wearing() -> frozenset[str]:
    """The conditions that call for a number."""
    tables = shared_tables("conditions.toml", Conditions)
    return frozenset(c.name for table in tables for c in table.condition if c.wear)


def worn(vocabulary: Vocabulary, findings: Sequence[Finding]) -> Iterable[Question]:
    """A question for each wear part that was called worn and never measured."""
    names = names_of(vocabulary)
    measured = {(f.line, f.part, f.side) for f in findings if any(m.unit != "count" for m in f.measurements)}
    asked: set[tuple[str, str]] = set()
    for finding in findings:
        key = (finding.part.removesuffix(" tread"), finding.side)
        if finding.state not in ("watch", "writeup") or finding.condition not in wearing() or finding.denied:
            continue
        if key in asked or (finding.line, finding.part, finding.side) in measured:
            continue
        if measure := measure_for(names, finding):
            asked.add(key)
            name = called(*key)
            yield asked_of("measure", finding, how_much(measure.attribute, name, finding.side == "both"))


def asked_of(what: str, finding: Finding, text: str) -> Question:
    """A question for a number of one finding; ``what`` begins its id."""
    return Question(
        id=slug(what, finding.zone, finding.side, finding.part),
        about=About(zone=finding.zone, part=finding.part, side=finding.side),
        kind="measure",
        text=text,
        evidence=finding.evidence,
    )


def measure_for(names: Names, finding: Finding) -> Measure | None:
    """What to measure where the finding says wear, None where nothing is.

    A component is measured as that component, its part only where the component is not known.
    """
    part = next((part for part in names.vocabulary.parts if part.name == finding.line), None)
    if part is None:
        return None
    component = names.component(part, finding.part)
    if component is None and words_of(finding.part) != words_of(part.name):
        return None
    measures = names.vocabulary.shared[component].measures if component else part.measures
    fitting = (m for m in measures if m.wear and (m.attribute == "gap" or finding.condition != PLAY))
    return next(fitting, None)


def how_much(attribute: str, name: str, several: bool = False) -> str:
    """The question for a measure of a part: "How thick is the cutting edge?"."""
    verb = "are" if several else is_or_are(name)
    return {
        "thickness": f"How thick {verb} the {name}?",
        "depth": f"How deep is the tread on the {name}?",
        "length": f"How long {verb} the {name}?",
        "gap": f"How much play in the {name}?",
        "elongation": f"How much stretch in the {name}?",
        "lining": f"How much lining is left on the {name}?",
    }.get(attribute, f"What {attribute} is left on the {name}?")


def units(findings: Sequence[Finding]) -> Iterable[Question]:
    """One question for each ambiguous unit, about all numbers said in it.

    The same speaker means the same unit each time, so the question is put once and not to every number.
    """
    said: dict[tuple[str, ...], list[tuple[Finding, Measurement]]] = {}
    for finding in findings:
        for measurement in finding.measurements:
            if measurement.other_units:
                key = (measurement.unit, *measurement.other_units)
                said.setdefault(key, []).append((finding, measurement))
    for key, found in said.items():
        choices = [UNIT_WORDS.get(unit, unit) for unit in key]
        first = found[0][0]
        where = listed([f"{called(f.part, f.side)} {quoted(m.text, 5)}" for f, m in found], most=2)
        yield Question(
            id=slug("measure-unit", *key),
            about=About(
                zone=first.zone,
                part=first.part if len(found) == 1 else None,
                side=first.side if len(found) == 1 else "none",
            ),
            kind="measure",
            text=f"{sentence(where)}: {either(choices)}?",
            evidence=[evidence for finding, _ in found for evidence in finding.evidence],
        )


def too_close(vocabulary: Vocabulary, findings: Sequence[Finding]) -> Iterable[Question]:
    """A question for each number too close to a published limit to call, or beyond it and called good."""
    for finding in findings:
        for measurement in finding.measurements:
            check = held_against(measurement, finding, vocabulary)
            if check is None or check.verdict == "within":
                continue
            if check.verdict == "beyond" and finding.state != "good":
                continue  # the words say so already
            told = {
                "too close to call": f"is too close to {check.limit} to call",
                "beyond": f"is beyond {check.limit}, yet called good",
            }[check.verdict]
            name = sentence(called(finding.part, finding.side))
            text = f"{name}: {quoted(measurement.text, 6)} {told}. Measure again?"
            yield asked_of("measure-again", finding, text)
            break


def which_measure(vocabulary: Vocabulary, findings: Sequence[Finding]) -> Iterable[Question]:
    """A question for each number that may be held against several limits: "Forks “twelve percent”: ...?"."""
    for finding in findings:
        for measurement in finding.measurements:
            measures = choices_of(measurement, finding, vocabulary)
            if not measures:
                continue
            name = sentence(called(finding.part, finding.side))
            text = f"{name} {quoted(measurement.text, 5)}: {either(measures)}?"
            yield asked_of("measure-which", finding, text)
            break


def measures_in(question: Question) -> list[str]:
    """What a question of :func:`which_measure` lets choose from, as its text names it."""
    names = question.text.rpartition("”: ")[2].removesuffix("?")
    return names.replace(" or ", ", ").split(", ")


def hours(vocabulary: Vocabulary, machine: Machine, findings: Sequence[Finding]) -> Iterable[Question]:
    """The question for the hour meter where no reading was given and the meter itself is not in trouble."""
    line = next((line for line in vocabulary.lines if line.part == HOUR_METER), None)
    if line is None or machine.hours is not None or any(f.line == HOUR_METER for f in findings):
        return
    yield Question(
        id="hours",
        about=About(zone=line.zone, part=HOUR_METER),
        kind="hours",
        text="What does the hour meter read?",
    )
