"""Walks made by hand, folders to put them in, and databases to index them with."""

import hashlib
import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

import own_postgresql
from saycheck.history.index import Index, opened
from saycheck.history.records import Said, Walked
from saycheck.models.walk import (
    SCHEMA,
    ChecklistLine,
    Evidence,
    Finding,
    Machine,
    MadeBy,
    Measurement,
    Source,
    Transcript,
    Walk,
)
from saycheck.walkfolder import writing

Row = tuple[str, str, str, str]
"""A finding in short: part, side, state, condition ("no leak" is denied)."""

ZONES = {"front tyre": "left side", "lift cylinder": "left side", "windscreen": "cab", "bucket": "front"}


def finding(number: int, row: Row, *measurements: Measurement) -> Finding:
    """A finding of one of the rows above."""
    part, side, state, condition = row
    denied = condition.startswith("no ")
    return Finding.model_validate(
        {
            "id": f"f{number:03}", "zone": ZONES.get(part, "front"), "part": part, "side": side,
            "check": condition, "state": state, "condition": condition.removeprefix("no "), "denied": denied,
            "heard_as": part, "confidence": 0.9, "measurements": list(measurements),
            "evidence": [Evidence(char_start=0, char_end=4)], "line": part,
        }
    )  # fmt: skip


def millimetres(value: float, text: str = "") -> Measurement:
    """A length in millimetres as said."""
    return Measurement(
        value=value, unit="mm", text=text or f"{value} mm", value_si=value / 1000, unit_si="m", plus_minus=0.5
    )


def made_walk(
    day: str,
    *rows: Row,
    unit: str | None = "Loader Seven",
    kind: str = "wheel-loader",
    hours: float | None = None,
    numbers: dict[int, float] | None = None,
    text: str = "Said so",
) -> Walk:
    """A walk of a day; ``numbers`` are millimetres measured by the place of their row."""
    findings = [
        finding(place, row, *([millimetres(numbers[place])] if numbers and place in numbers else []))
        for place, row in enumerate(rows)
    ]
    sound = hashlib.sha256(f"{day}{unit}{kind}{rows}{text}".encode("utf-8", "replace")).hexdigest()
    sides: dict[str, list[str]] = {"both": ["left", "right"]}
    return Walk(
        schema=SCHEMA,
        id=f"{day[:10]}-{sound[:8]}",
        walked_at=day,
        machine=Machine(kind=kind, unit=unit, hours=hours),
        source=Source(name="walk.txt", sha256=sound),
        transcript=Transcript(text=text, words=[]),
        findings=findings,
        checklist=[
            ChecklistLine.model_validate(
                {
                    "zone": one.zone,
                    "part": one.part,
                    "side": side,
                    "state": one.state,
                    "finding_ids": [one.id],
                }
            )
            for one in findings
            for side in sides.get(one.side, [one.side])
        ],
        made_by=MadeBy(version="0.1.0", vocabulary="0123456789ab"),
    )


def put(walk: Walk, folder: Path) -> Path:
    """Write a walk folder."""
    with writing(folder) as draft:
        draft.write(walk)
    return folder


def walked(day: str, *rows: Row, hours: float | None = None) -> Walked:
    """A walk as the history takes it, without a folder."""
    said = tuple(
        Said("front", part, side, part, condition.removeprefix("no "), state, condition.startswith("no "))
        for part, side, state, condition in rows
    )
    return Walked(day, day, "wheel-loader", "Loader Seven", hours, day, said=said)


@pytest.fixture
def walks(tmp_path: Path) -> Path:
    """An empty folder for walks."""
    folder = tmp_path / "walks"
    folder.mkdir()
    return folder


@pytest.fixture
def index(walks: Path, tmp_path: Path) -> Iterator[Index]:
    """An index on SQLite over those walks."""
    with opened(walks, f"sqlite:///{tmp_path / 'index.sqlite'}") as there:
        yield there


@pytest.fixture(scope="session")
def postgresql() -> Iterator[str]:
    """The URL of a PostgreSQL of our own."""
    with ExitStack() as stack:
        try:
            url = stack.enter_context(own_postgresql.running())
        except own_postgresql.MissingError as why:
            pytest.skip(str(why))
        yield url


@pytest.fixture
def fresh_database(postgresql: str) -> Callable[[], str]:
    """Gives the URL of a new, empty database in it."""
    import psycopg

    def make() -> str:
        name = f"t{os.urandom(6).hex()}"
        with psycopg.connect(postgresql, autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}")
        return postgresql.replace("/postgres?", f"/{name}?")

    return make
