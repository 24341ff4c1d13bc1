"""What a person asks to be changed, as the page, the terminal and other commands say it."""

from typing import Annotated, Literal

from pydantic import Field

from saycheck.models.base import Model
from saycheck.models.walk import Side, State

Words = Annotated[str, Field(max_length=500)]
Name = Annotated[str, Field(min_length=1, max_length=80)]
Ident = Annotated[str, Field(max_length=120)]


class Number(Model):
    """A number with its unit; an empty unit counts pieces. ``plus_minus`` is in the same unit.

    ``unit_told`` settles a unit that the walker's word had left open ("mil"). ``attribute`` tells what was
    measured, where the walker's words had left that open ("thickness left").
    """

    value: float = Field(allow_inf_nan=False, ge=-1e9, le=1e9)
    unit: Annotated[str, Field(max_length=40)] = ""
    plus_minus: float = Field(default=0.0, allow_inf_nan=False, ge=0, le=1e9)
    unit_told: bool = False
    attribute: Annotated[str, Field(max_length=40)] | None = None


class Patch(Model):
    """What is to be otherwise about a finding; what is None stays, ``measured`` is added to its numbers.

    ``part`` is a part of the vocabulary or, where it has none, the reviewer's own word.
    """

    part: Annotated[str, Field(min_length=1, max_length=120)] | None = None
    zone: Annotated[str, Field(max_length=80)] | None = None
    side: Side | None = None
    state: State | None = None
    condition: Annotated[str, Field(min_length=1, max_length=120)] | None = None
    denied: bool | None = None
    measurements: Annotated[list[Number], Field(max_length=20)] | None = None
    measured: Annotated[list[Number], Field(max_length=20)] = []


class Wish(Model):
    """One edit as it is asked for.

    ``findings`` are ids, as many as the action takes; ``patches`` go with them: one for change, one a piece
    for split and add, at most one for merge. ``start`` and ``end`` are offsets of words in the transcript
    (add, settle). ``seen`` is the last edit that the person has seen, so that they are told of others'.
    """

    action: Literal[
        "accept", "change", "split", "merge", "drop", "add", "settle", "answer", "machine", "undo", "redo"
    ]
    who: Name
    findings: Annotated[list[Ident], Field(max_length=1000)] = []
    patches: Annotated[list[Patch], Field(max_length=200)] = []
    reason: Words = ""
    question: Ident | None = None
    start: int | None = Field(default=None, ge=0)
    end: int | None = Field(default=None, ge=0)
    unit: Annotated[str, Field(max_length=80)] | None = None
    hours: float | None = Field(default=None, ge=0, le=1e7, allow_inf_nan=False)
    refers: Ident | None = None
    seen: Ident | None = None
    way: Literal["page", "terminal", "keyboard", "voice"] = "page"
