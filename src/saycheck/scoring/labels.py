"""A labelled narration: what was said on a walk, and what a good mechanic would agree it says."""

import json
import re
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, ValidationError

from saycheck.errors import SaycheckError
from saycheck.models.walk import Side, State

LabelState = Literal["good", "watch", "fault", "hidden", "later"]

Place = tuple[int, int]
"""First character and the one after the last, counted in a text."""


class LabelsError(SaycheckError):
    """A file of labels that cannot be read or does not hold a labelled narration."""


class Amount(BaseModel):
    """A labelled number with its unit; ``unit`` is written as in ``walk.json`` ("mm", "psi", "count")."""

    model_config = ConfigDict(frozen=True)

    value: float
    unit: str


class Item(BaseModel):
    """One labelled statement; ``quote`` is the shortest run of words that carries it.

    ``negated`` is true where a defect is named to say that it is not there; ``corrects`` quotes the
    earlier words that this one takes back.
    """

    model_config = ConfigDict(frozen=True)

    quote: str
    part: str
    side: Side
    state: LabelState
    condition: str = ""
    negated: bool | None = False
    measures: list[Amount] | None = None
    corrects: str | None = None

    @property
    def walk_state(self) -> State:
        """The state as ``walk.json`` names it: what labels call a fault is a write-up there."""
        return "writeup" if self.state == "fault" else self.state

    @property
    def amounts(self) -> list[Amount]:
        """The labelled numbers, an empty list where there are none."""
        return self.measures or []


class Labels(BaseModel):
    """A labelled narration.

    ``distractors`` are words that must not become a finding; ``unsaid`` names parts that such a walk
    covers and this one never mentions.
    """

    machine: str
    text: str
    gold: list[Item]
    distractors: list[str] = []
    unsaid: list[str] = []


def read_labels(path: Path) -> Labels:
    """Read one labelled narration; LabelsError when the file is none."""
    try:
        return Labels.model_validate(json.loads(path.read_text(encoding="utf-8")))
    except (OSError, UnicodeDecodeError, json.JSONDecodeError, ValidationError) as error:
        first = str(error).splitlines()[0]
        raise LabelsError(f"{path} is no labelled narration ({first}); see the format in the docs") from None


def places_of(text: str, quote: str) -> list[Place]:
    """Every place where ``quote`` stands in ``text``, letter for letter."""
    return [match.span() for match in re.finditer(re.escape(quote), text)]


def shared(one: Place, other: Place) -> int:
    """How many characters two places have in common."""
    return max(0, min(one[1], other[1]) - max(one[0], other[0]))
