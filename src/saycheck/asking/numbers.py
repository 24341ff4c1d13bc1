"""Answers that are a number: how thick, how deep, which unit was meant, what the hour meter reads."""

from collections.abc import Sequence
from itertools import pairwise

from saycheck.asking.matter import UNKNOWN, Answer, Matter, more
from saycheck.asking.replies import is_reply, words_of
from saycheck.asking.told import Told, ended, told
from saycheck.coverage.names import Names
from saycheck.coverage.numbers import UNIT_WORDS, measure_for
from saycheck.limits import choices_of
from saycheck.models.walk import Finding
from saycheck.models.wishes import Number, Patch
from saycheck.review.measures import number_in, numbers_taking
from saycheck.sums.leaks import MEANING, Class, leak_in_words
from saycheck.understanding.findings import NOT_MEASURES
from saycheck.understanding.hours import LEAST_READING
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.quantities import Quantity
from saycheck.vocabulary.schema import Measure

PLAIN = frozenset(["thickness", "depth", "length", "lining"])
"""What is measured with a tape: a "mil" of it is a millimetre, since a thousandth of an inch is none."""

ASKED = {
    "How thick": "thickness",
    "How deep": "depth",
    "How long": "length",
    "How much play": "gap",
    "How much stretch": "elongation",
    "How much lining": "lining",
}


def asked_for(matter: Matter) -> str:
    """What a question about a number wants measured: thickness, depth, gap ...; empty where it is not told."""
    for start, attribute in ASKED.items():
        if matter.question.text.startswith(start):
            return attribute
    words = matter.question.text.split()
    return words[1] if words[0] == "What" and len(words) > 1 else ""


def measure(matter: Matter, words: str) -> Answer:
    """An answer to "How thick is the cutting edge?" or to "... too close to call. Measure again?"."""
    about = matter.findings
    if is_reply(words, "no", "not measured"):
        return matter.settled(f"not measured: {words}")
    if is_reply(words, "later", "hidden"):
        return matter.settled(f"not measured, {'later' if is_reply(words, 'later') else 'hidden'}: {words}")
    if not about:
        return UNKNOWN
    if is_reply(words, "yes"):
        return more("How much, and in which unit?", lambda now: now)
    finding = about[0]
    wanted = measure_for(Names(matter.vocabulary), finding)
    quantities = quantities_in(words, matter.vocabulary.kind, finding.part)
    if not quantities:
        put_off = _not_now(told(words, matter.vocabulary, finding.part))
        return matter.settled(f"not measured: {words}") if put_off else UNKNOWN
    if sides := _by_side(matter, words, finding):
        return matter.edit("split", findings=[finding.id], patches=sides, reason=words[:500])
    if len({(one.value, one.unit) for one in quantities}) > 1:
        return more("Those were several numbers. Which one, with its unit?", lambda now: now)
    if doubtful := next((one for one in quantities if _doubtful(one, asked_for(matter), wanted)), None):
        units = [UNIT_WORDS.get(unit, unit) for unit in (doubtful.unit or "", *doubtful.also)]
        value = f"{doubtful.value:g}"
        return more(
            f"{value}: {', '.join(units[:-1])} or {units[-1]}?",
            lambda now: f"{_hedge(doubtful)}{value} {now}",
        )
    said = quantities[0]
    number = _number(said, finding, wanted)
    if number is None:
        return more(f"{said.value:g} of what: millimetres, inches ...?", lambda now: f"{said.value:g} {now}")
    note = "" if said.unit else f"no unit was said, {UNIT_WORDS.get(number.unit, number.unit)} taken"
    if matter.question.id.startswith("measure-again"):
        patch = Patch(measurements=[*_counts(finding), number])
    else:
        patch = Patch(measured=[number])
    return matter.edit("change", note, findings=[finding.id], patches=[patch], reason=words[:500])


def quantities_in(words: str, kind: str, part: str) -> list[Quantity]:
    """All amounts in an answer about a part, counts of days and the like left out."""
    before = f"{part}. "
    reading, _ = prepared(before + ended(words), kind)
    behind = [one for one in reading.of("quantity") if reading.span(one.start, one.end)[0] >= len(before)]
    found = [mention.value for mention in behind]
    return [one for one in found if isinstance(one, Quantity) and one.unit not in NOT_MEASURES]


def _hedge(one: Quantity) -> str:
    return "about " if one.hedged else ""


def _not_now(said: Sequence[Told]) -> bool:
    return any(one.state in ("hidden", "later") for one in said)


def _doubtful(one: Quantity, attribute: str, wanted: Measure | None) -> bool:
    """Whether its words leave open which unit, and what was asked for does not tell."""
    return bool(one.also) and not (attribute in PLAIN and wanted is not None and wanted.unit == one.unit)


def _number(one: Quantity, finding: Finding, wanted: Measure | None) -> Number | None:
    """It in the unit that was said; else the one last used for the part, else the one it is measured in."""
    units = [m.unit for m in finding.measurements if m.unit != "count"]
    if one.form == "fraction" and one.unit is None:
        units = ["in"]
    unit = one.unit or (units[-1] if units else wanted.unit if wanted else None)
    return Number(value=one.value, unit=unit, plus_minus=one.plus_minus) if unit else None


def _by_side(matter: Matter, words: str, finding: Finding) -> list[Patch]:
    """A patch for each side where a finding of both is answered "twenty left, eighteen right"."""
    if finding.side != "both":
        return []
    said = {one.side: one for one in told(words, matter.vocabulary, finding.part) if one.numbers}
    if set(said) != {"left", "right"}:
        return []
    return [Patch(side=side, measured=list(one.numbers)) for side, one in said.items()]


def _counts(finding: Finding) -> list[Number]:
    """What was counted on a finding, which a new measurement does not take the place of."""
    counted = [m for m in finding.measurements if m.unit == "count"]
    return [Number(value=m.value, unit=m.unit, plus_minus=m.plus_minus) for m in counted]


def which_unit(matter: Matter, words: str) -> Answer:
    """An answer to "Bellcrank "three mil": millimetres or thousandths of an inch?"."""
    about = matter.findings
    doubtful = [m for one in about for m in one.measurements if m.other_units]
    if not doubtful:
        return UNKNOWN
    units = [doubtful[0].unit, *doubtful[0].other_units]
    meant = _unit_said(words, units)
    if meant is None:
        return UNKNOWN
    patches = [Patch(measurements=[number_in(m, meant) for m in one.measurements]) for one in about]
    return matter.edit("change", findings=[one.id for one in about], patches=patches, reason=words[:500])


def which_measure(matter: Matter, words: str) -> Answer:
    """An answer to "Forks “twelve percent”: thickness left, thickness worn away or tip difference?"."""
    found = [
        (finding, one, choices)
        for finding in matter.findings
        for one in finding.measurements
        if (choices := choices_of(one, finding, matter.vocabulary))
    ]
    if not found:
        return UNKNOWN
    finding, measurement, choices = found[0]
    what = _measure_said(words, choices)
    if what is None:
        return UNKNOWN
    patch = Patch(measurements=numbers_taking(finding.measurements, measurement, what))
    return matter.edit(
        "change", f"taken as {what}", findings=[finding.id], patches=[patch], reason=words[:500]
    )


def _measure_said(words: str, choices: Sequence[str]) -> str | None:
    """The one choice that shares a word with an answer that no other choice has; None where none or several do."""
    said = {ALSO_SAID.get(word, word) for word in words_of(words)}
    own = {
        one: set(one.split()) - {word for other in choices if other != one for word in other.split()}
        for one in choices
    }
    found = [one for one in choices if own[one] & said]
    return found[0] if len(found) == 1 else None


ALSO_SAID = {"lost": "worn", "gone": "worn", "remaining": "left", "tips": "tip", "straight": "straightness"}


def leak_class(matter: Matter, words: str) -> Answer:
    """An answer to "Left tilt cylinder, leak: only wet, drops that hang, or drops that fall?"."""
    if is_reply(words, "no", "later", "hidden"):
        return matter.settled(f"class of the leak not told: {words}")
    row = words_of(words)
    told = {CLASSES[one] for one in row if one in CLASSES and (len(row) == 1 or "class" in row)}
    if found := leak_in_words(words):
        told.add(found.leak_class)
    if not told and "not" not in row:
        told = {DROPS[one] for one in row if one in DROPS}
    return matter.settled(f"{MEANING[told.pop()]}: {words}") if len(told) == 1 else UNKNOWN


DROPS: dict[str, Class] = {
    "hang": "II", "hangs": "II", "hanging": "II", "fall": "III", "falls": "III", "falling": "III",
}  # fmt: skip
CLASSES: dict[str, Class] = {
    "1": "I", "i": "I", "one": "I", "2": "II", "ii": "II", "two": "II", "3": "III", "iii": "III", "three": "III",
}  # fmt: skip


WORDS_FOR = {
    "mm": {"millimetres", "millimetre", "millimeters", "millimeter", "mm", "metric", "millis"},
    "thou": {"thou", "thous", "thousandths", "thousandth", "imperial", "inch", "inches"},
    "degC": {"celsius", "centigrade", "c"},
    "degF": {"fahrenheit", "f"},
    "in": {"inches", "inch"},
    "angle": {"angle", "degrees"},
}


def _unit_said(words: str, units: Sequence[str]) -> str | None:
    """The one unit that is named; None where none or several are."""
    for place, name in enumerate(("first", "second")):
        if is_reply(words, name) and place < len(units):
            return units[place]
    row = words_of(words)
    said = set(row)
    denied = {after for before, after in pairwise(row) if before == "not"}
    found = [unit for unit in units if WORDS_FOR.get(unit, {unit.lower()}) & (said - denied)]
    return found[0] if len(found) == 1 else None


def hours(matter: Matter, words: str) -> Answer:
    """An answer to "What does the hour meter read?"."""
    if is_reply(words, "no", "later"):
        return matter.settled(f"not read: {words}")
    reading, _ = prepared(f"Cab. Hour meter reads {ended(words)}", matter.vocabulary.kind)
    found = [one.value for one in reading.of("quantity") if one.value.unit in (None, "h")]
    values = {one.value for one in found if one.value >= LEAST_READING} or {one.value for one in found}
    if len(values) == 1:
        return matter.edit("machine", hours=float(values.pop()), reason=words[:500])
    said = told(words, matter.vocabulary, matter.question.about.part or "")
    if said and not values:
        patches = [one.patch("none") for one in said]
        return matter.edit("add", patches=patches, reason=words[:500])
    return UNKNOWN
