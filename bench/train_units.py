"""Train what a number means whose unit was left out (``understanding/untold_unit.py``); print how well it does.

    python bench/train_units.py [FOLDER] [--folds-only]

Material and folds are those of ``bench/train_statements.py``; FOLDER holds the names learned without each writer
(``bench/train_names.py FOLDER``) and takes, in ``units/``, the weights. A bare number within a label's quote is learned
with the unit of the label's measure that is as much, or as nothing where there is none. Run before
``bench/train_statements.py``. Needs scikit-learn.
"""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import train_statements as material
from saycheck.understanding.linear import STANDING_IN
from saycheck.understanding.pipeline import prepared
from saycheck.understanding.quantities import Quantity
from saycheck.understanding.text import Mention, Reading
from saycheck.understanding.untold_unit import COUNT, NONE, PARTS_OF, UNITS, likeliest

LABELLED = {"%": "percent", "percent": "percent", "°C": "degC", "°F": "degF"}
"""Units of labels under the names that they have here, where those differ."""
NEAR = 0.005
"""Share by which two amounts may differ and be the same, as the scorer has it."""
Seen = tuple[Quantity, dict[str, int], str, str]
"""A number, its features, which of ``UNITS`` it is and which the rules say."""


def truth(value: float, golds: Sequence[dict[str, Any]]) -> str:
    """Which of ``UNITS`` a bare number is by the labels that it stands in; nothing where it is of another unit."""
    measures = [m for gold in golds for m in gold.get("measures") or []]
    told = [(LABELLED.get(m["unit"], m["unit"]), float(m["value"])) for m in measures]
    for name, (unit, scale) in ({name: (name, 1.0) for name in UNITS} | PARTS_OF).items():
        if any(of == unit and is_as_much(amount, value * scale) for of, amount in told):
            return name
    return NONE


def is_as_much(one: float, other: float) -> bool:
    """Whether two amounts are the same, as the scorer has it."""
    return abs(one - other) <= NEAR * abs(one)


def around(label: dict[str, Any], reading: Reading, number: Mention) -> list[dict[str, Any]]:
    """The labels within whose quotes a number stands."""
    start, _ = reading.span(number.start, number.end)
    return [gold for gold, first, end in material.quoted(label) if first <= start < end]


def rows(label: dict[str, Any]) -> list[Seen]:
    """What is seen of every bare number within a label, and what the rules by themselves say."""
    STANDING_IN["units"] = None
    reading, _ = prepared(label["text"], label["machine"])
    del STANDING_IN["units"]
    out = []
    for number, names, ruled in reading.data.get("bare numbers", ()):
        if golds := around(label, reading, number):
            out.append((number.value, dict.fromkeys(names, 1), truth(number.value.value, golds), ruled))
    return out


def figures(told: Sequence[tuple[str, str]]) -> str:
    """Shares of (meant, told): right in all, found of what is measured or counted, and right of what was entered."""
    right = sum(a == b for a, b in told)
    entered = [(a, b) for a, b in told if b != NONE]
    measured = [(a, b) for a, b in told if a != NONE]
    found = sum(a == b for a, b in measured)
    return (
        f"right {right / len(told):.3f}, found {found / len(measured):.3f},"
        f" of those entered right {found / len(entered):.3f}"
    )


def main(folds_only: bool, folds: Path | None) -> None:
    data = material.taught(rows, folds)
    writers = sorted({writer for writer, _ in data})
    ruled, learned = list[tuple[str, str]](), list[tuple[str, str]]()
    for left_out in (set(writers[i :: material.FOLDS]) for i in range(material.FOLDS)):
        some = [row for writer, found in data if writer not in left_out for row in found]
        vector, model = material.fit([x for _, x, *_ in some], [y for _, _, y, _ in some])
        test = [row for writer, found in data if writer in left_out for row in found]
        shares = model.predict_proba(vector.transform([x for _, x, *_ in test]))
        for (number, _, meant, rule), row in zip(test, shares, strict=True):
            learned.append((meant, likeliest(number, dict(zip(model.classes_, row, strict=True)))))
            ruled.append((meant, rule))
        material.save_without(left_out, folds, "units", vector, model)
    print(f"{len(ruled)} bare numbers, {sum(y in (NONE, COUNT) for y, _ in ruled)} of them measure nothing")
    print(f"rules: {figures(ruled)}")
    print(f"learned, without the encoder, writers left out in turn: {figures(learned)}")
    if folds_only:
        return
    every = [row for _, found in data for row in found]
    material.ship("units", *material.fit([x for _, x, *_ in every], [y for _, _, y, _ in every]))


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--")), None)
    main("--folds-only" in sys.argv, where)
