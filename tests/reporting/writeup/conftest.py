"""Walks to write up, and what goes with them."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from saycheck.coverage.checklist import checklist
from saycheck.models.decisions import Decision
from saycheck.models.review import Edit
from saycheck.models.walk import Walk
from saycheck.reporting.writeup.given import Given
from saycheck.standing import after
from saycheck.vocabulary.load import load
from saycheck.vocabulary.waiting import sentences

MADE = datetime(2025, 3, 11, 15, 42, tzinfo=UTC)

TEXT = (
    "Cold morning, minus four. Left front tyre has a cut in the sidewall. Brake lining measures three point two "
    "millimetres, worn. Right mirror is cracked. Radiator is blocked. Horn is dead. Engine oil is low. Two bolts "
    "missing. Fan belt is worn, seven millimetres. I can't see the frame for the mud. Battery later, when it is "
    "warm. Mumble."
)

Make = Callable[..., Given]


def said(words: str) -> dict[str, object]:
    """Where words stand in TEXT, heard ten characters a second."""
    start = TEXT.index(words)
    end = start + len(words)
    return {"char_start": start, "char_end": end, "start_s": start / 10, "end_s": end / 10}


def finding(
    name: str, words: str, part: str, state: str, condition: str, **other: object
) -> dict[str, object]:
    """A finding on words of TEXT."""
    return {
        "id": name, "zone": "left side", "part": part, "line": part, "side": "none", "check": condition,
        "state": state, "condition": condition, "heard_as": words, "confidence": 0.9, "evidence": [said(words)],
    } | other  # fmt: skip


def mm(value: float, plus_minus: float, text: str) -> dict[str, object]:
    """A length as a walk holds it."""
    return {
        "value": value, "unit": "mm", "text": text, "value_si": value / 1000, "unit_si": "m",
        "plus_minus": plus_minus,
    }  # fmt: skip


@pytest.fixture
def truck(make_walk: Callable[..., Walk]) -> Walk:
    """A walk round a road truck with one of everything; a published limit holds for its front brake linings."""
    vocabulary = load("road-truck")
    given = make_walk(
        TEXT,
        unit="tipper nine",
        machine={"kind": "road-truck", "unit": "tipper nine", "hours": 4812},
        walked_at="2025-03-09T06:40",
        source={"name": "tipper.m4a", "sha256": "5" * 64, "duration_s": 724},
        transcript={
            "text": TEXT,
            "words": [{"text": "Mumble.", **said("Mumble.")}],
            "spans": [
                {"char_start": 0, "char_end": 25, "disposition": "talk"},
                {"char_start": 25, "char_end": len(TEXT) - 7, "disposition": "finding"},
                {"char_start": len(TEXT) - 7, "char_end": len(TEXT), "disposition": "unclear", "why": "wind"},
            ],
        },
        findings=[
            finding("f1", "Radiator is blocked", "radiator", "writeup", "blocked", caution="Never open it hot."),
            finding("f2", "Left front tyre has a cut in the sidewall", "steer tyre", "writeup", "cut", side="left"),
            finding(
                "f3", "Brake lining measures three point two millimetres, worn", "steer brake lining", "writeup",
                "worn", side="left", measurements=[mm(3.2, 0.05, "three point two millimetres")],
            ),
            finding("f4", "Right mirror is cracked", "mirrors", "writeup", "crack", side="right", needs_review=True,
                    review_reasons=["writeup, or watch?"]),
            finding("f5", "Fan belt is worn, seven millimetres", "fan belt", "watch", "worn",
                    measurements=[mm(7, 0.5, "seven millimetres")]),
            finding("f6", "I can't see the frame for the mud", "frame", "hidden", "hidden"),
            finding("f7", "Battery later, when it is warm", "batteries", "later", "later"),
        ],
        questions=[{"id": "q1", "about": {"zone": "cab"}, "kind": "skipped", "text": "Steps. Looked at?"}],
        sound=[
            {"start_s": 0, "end_s": 130, "kind": "speech", "snr_db": 21},
            {"start_s": 130, "end_s": 171, "kind": "speech", "snr_db": 2, "trouble": "wind"},
        ],
        made_by={"version": "0.1.0", "ears": ["builtin", "trade"], "vocabulary": "0123456789ab"},
    )  # fmt: skip
    return given.model_copy(update={"checklist": checklist(vocabulary, given.findings)})


@pytest.fixture
def make_given() -> Make:
    """Makes what goes into a write-up of a walk; keywords replace what else there is."""

    def make(
        walk: Walk, edits: Sequence[Edit] = (), decisions: Sequence[Decision] = (), **other: object
    ) -> Given:
        vocabulary = load(walk.machine.kind)
        given: dict[str, object] = {
            "standing": after(walk, edits, vocabulary),
            "vocabulary": vocabulary,
            "waiting": sentences(),
            "made": MADE,
            "version": "0.1.0",
            "walk_sha256": "7" * 64,
            "decisions": decisions,
        }
        return Given(**(given | other))  # type: ignore[arg-type]

    return make


@pytest.fixture
def reviewed(given: Given) -> Given:
    """The same after a reviewer dealt with all of it."""
    there = given.standing
    findings = [one.model_copy(update={"needs_review": False}) for one in there.walk.findings]
    walk = there.walk.model_copy(update={"findings": findings, "questions": []})
    changed = {"walk": walk, "by": ["A. Brandt"], "reviewed_share": 1.0, "open_findings": []}
    return replace(given, standing=there.model_copy(update=changed))


@pytest.fixture
def given(truck: Walk, make_given: Make) -> Given:
    """What goes into the write-up of the truck's walk, not reviewed."""
    return make_given(truck)
