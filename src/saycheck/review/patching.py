"""A finding with some of it otherwise: part, side, state, condition, numbers, each put in its place."""

from saycheck.errors import ReviewError
from saycheck.models.walk import Evidence, Finding, Measurement, Side
from saycheck.models.wishes import Number, Patch
from saycheck.review.edits import new_id
from saycheck.review.measures import in_unit, measurement
from saycheck.vocabulary.compiled import Part, Vocabulary

PLAIN = {"good": "good", "hidden": "hidden", "later": "later", "watch": "watch", "writeup": "write up"}
"""The condition of a finding of which only the state was told."""


def patched(finding: Finding, patch: Patch, vocabulary: Vocabulary) -> Finding:
    """The finding with what the patch says; zone, line and caution follow the part and the side."""
    told: dict[str, object] = {}
    side = patch.side or finding.side
    part = find_part(vocabulary, finding.line or finding.part)
    if patch.part is not None and patch.part != finding.part:
        part = find_part(vocabulary, patch.part)
        told |= {"part": part.name if part else patch.part.strip(), "line": part.name if part else None}
    zone = patch.zone or zone_for(vocabulary, part, side, finding.zone)
    condition = patch.condition.strip() if patch.condition else finding.condition
    state = patch.state or finding.state
    told |= {"side": side, "zone": zone, "condition": condition, "state": state}
    if patch.denied is not None:
        told["denied"] = patch.denied
    if patch.measurements is not None:
        told["measurements"] = [_as_said(n, finding.measurements) for n in patch.measurements]
    if patch.measured:
        said = told.get("measurements", finding.measurements)
        assert isinstance(said, list)
        told["measurements"] = [*said, *_measurements(patch.measured)]
    if condition != finding.condition:
        check = vocabulary.check_of(part, condition)
        told["check"] = check.name if check else condition
    told["caution"] = part.caution if part and state == "writeup" else None
    changed = finding.model_copy(update=told)
    return changed if changed == finding else changed.model_copy(update={"confidence": 1.0})


def made_of(patch: Patch, evidence: list[Evidence], heard_as: str, vocabulary: Vocabulary) -> Finding:
    """A finding that nobody heard: a person says so.

    Raises:
        ReviewError: part or state is missing.
    """
    if patch.part is None or patch.state is None:
        raise ReviewError("a finding needs a part and a state; fill in both")
    part = find_part(vocabulary, patch.part)
    side = patch.side or _only_side(vocabulary, part, patch.zone)
    condition = patch.condition.strip() if patch.condition else PLAIN[patch.state]
    check = vocabulary.check_of(part, condition)
    return Finding(
        id=new_id(),
        zone=patch.zone or zone_for(vocabulary, part, side, vocabulary.zones[0].name),
        part=part.name if part else patch.part.strip(),
        side=side,
        check=check.name if check else condition,
        state=patch.state,
        condition=condition,
        denied=bool(patch.denied),
        heard_as=heard_as or patch.part.strip(),
        confidence=1.0,
        measurements=_measurements([*(patch.measurements or []), *patch.measured]),
        evidence=evidence,
        line=part.name if part else None,
        caution=part.caution if part and patch.state == "writeup" else None,
    )


def _as_said(number: Number, said: list[Measurement]) -> Measurement:
    """The measurement as the walker said it where the number is the same, else a new one."""
    for one in said:
        if (number.value, number.plus_minus) != (one.value, one.plus_minus):
            continue
        unit = number.unit or "count"
        if number.attribute and unit == one.unit:
            return one.model_copy(update={"attribute": number.attribute})
        if number.unit_told and unit in (one.unit, *one.other_units):
            return in_unit(one, unit)
        if unit == one.unit:
            return one
    return _measured(number)


def _measurements(numbers: list[Number]) -> list[Measurement]:
    return [_measured(one) for one in numbers]


def _measured(number: Number) -> Measurement:
    return measurement(number.value, number.unit, number.plus_minus, number.attribute)


def find_part(vocabulary: Vocabulary, name: str) -> Part | None:
    """The part of that name, or the one that has it among its sayings."""
    wanted = " ".join(name.lower().split())
    for part in vocabulary.parts:
        if part.name == wanted:
            return part
    return next((part for part in vocabulary.parts if wanted in part.sayings), None)


def zone_for(vocabulary: Vocabulary, part: Part | None, side: Side, now: str) -> str:
    """The zone in which a part on a side stands; ``now`` where it stands there too, or nobody knows."""
    if part is None:
        return now
    lines = [line for line in vocabulary.lines if line.part == part.name]
    fitting = [line for line in lines if line.side in (side, "none") or side in ("both", "none")]
    zones = [line.zone for line in fitting or lines]
    return now if now in zones or not zones else zones[0]


def _only_side(vocabulary: Vocabulary, part: Part | None, zone: str | None) -> Side:
    """The side that the zone leaves open for a part."""
    if part is None:
        return "none"
    sides = {line.side for line in vocabulary.lines if line.part == part.name and zone in (None, line.zone)}
    return sides.pop() if len(sides) == 1 else "none"
