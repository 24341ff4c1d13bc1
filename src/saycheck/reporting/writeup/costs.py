"""What waiting costs, from figures that the owner gives in a file; nothing is reckoned without them.

The file is TOML::

    money = "EUR"            # named in the sentences, any money
    period = "spring"        # completes "before ..."
    crew_per_h = 45          # what the idle crew costs an hour
    machine_per_h = 80       # what the idle machine costs an hour

    [[job]]
    part = "tilt cylinder"   # as the write-up names it, or finding = "f012"
    side = "none"            # left, right, both; left out: any
    chance = [0.05, 0.2]     # that it fails before then: a share, or the two ends of what is thought
    now = { cost = 900, hours_down = 6 }
    later = { cost = 900, hours_down = 6 }
    failed = { cost = 4200, hours_down = [16, 40] }

Every number may be a pair of ends. Formula, range and source stand in ``sums.waiting``.
"""

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from pydantic import Field, ValidationError

from saycheck.errors import SumError, WriteUpError
from saycheck.models.base import Model
from saycheck.models.walk import Finding
from saycheck.reporting.writeup.document import Plot
from saycheck.reporting.writeup.tornado import tornado
from saycheck.sums import waiting
from saycheck.sums.reading import Amount, Reading

Number = float | tuple[float, float]


class Way(Model):
    """One way of doing the job: parts and labour, and the hours that crew and machine stand idle."""

    cost: Number
    hours_down: Number = 0.0


class Job(Model):
    """One job, about a finding named by its id or by part and side."""

    finding: str = ""
    part: str = ""
    side: Literal["left", "right", "both", "none", ""] = ""
    chance: Number
    now: Way
    later: Way
    failed: Way
    period: str = ""


class Figures(Model):
    """The whole file."""

    money: str = ""
    period: str = "the end of the period"
    crew_per_h: Number = 0.0
    machine_per_h: Number = 0.0
    job: list[Job] = Field(min_length=1)


@dataclass(frozen=True)
class Cost:
    """What the sum says of one finding, and its tornado plot."""

    sentences: tuple[str, ...]
    plot: Plot | None


def figures(text: str, name: str) -> Figures:
    """The figures of a file called ``name``; WriteUpError where it is not as it should be."""
    try:
        return Figures.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise WriteUpError(f"'{name}' is not TOML ({error}); put it right") from error
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(str(step) for step in first["loc"])
        raise WriteUpError(f"'{name}' is not as it should be: {where}: {first['msg'].lower()}") from error


def costs(given: Figures, findings: Sequence[Finding], name: str) -> Mapping[str, Cost]:
    """What waiting costs by finding id; WriteUpError for a job about no finding, or that cannot be reckoned."""
    found: dict[str, Cost] = {}
    for job in given.job:
        about = [one for one in findings if _fits(job, one)]
        told = job.finding or f"{job.side} {job.part}".strip()
        if not about:
            parts = ", ".join(dict.fromkeys(one.part for one in findings)) or "none"
            raise WriteUpError(f"'{name}' tells of '{told}', which is not written up; those are {parts}")
        try:
            result = _reckoned(job, given)
        except SumError as error:
            raise WriteUpError(f"'{name}', {told}: {error}") from error
        for one in about:
            found[one.id] = Cost(
                (result.plainly, *([result.caution] if result.caution else [])), tornado(result)
            )
    return found


def _reckoned(job: Job, given: Figures) -> waiting.Waiting:
    return waiting.now_or_later(
        now=_way(job.now),
        later=_way(job.later),
        failed=_way(job.failed),
        crew_per_h=_amount(given.crew_per_h),
        machine_per_h=_amount(given.machine_per_h),
        chance=_amount(job.chance),
        period=job.period or given.period,
        money=given.money,
    )


def _fits(job: Job, finding: Finding) -> bool:
    if job.finding:
        return job.finding == finding.id
    return job.part in (finding.part, finding.line) and job.side in ("", finding.side)


def _way(given: Way) -> waiting.Job:
    return waiting.Job(_amount(given.cost), _amount(given.hours_down))


def _amount(number: Number) -> Amount:
    return Reading.between(*number) if isinstance(number, tuple) else number
