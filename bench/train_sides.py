"""Train on which side a part is that no word tells (``understanding/untold_side.py``); print how well it does.

    python bench/train_sides.py [FOLDER] [--folds-only]

Material and folds are those of ``bench/train_statements.py``; FOLDER holds the names learned without each writer
(``bench/train_names.py FOLDER``) and takes, in ``sides/``, the weights. A statement on labelled words whose part
agrees is learned with the label's side as seen from where the walker stands. Needs scikit-learn.
"""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import train_statements as material
from saycheck.understanding.pipeline import MAKER, prepared
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading, with_neighbours
from saycheck.understanding.untold_side import absolute, features, relative

Row = TypeVar("Row")
Seen = Callable[[Reading, Statement, Statement | None, Statement | None], Row]
"""What a training script sees of a statement and of those said before and after it."""


def binary(
    reading: Reading, statement: Statement, before: Statement | None, after: Statement | None
) -> dict[str, int]:
    """The features of a statement as scikit-learn takes them."""
    return dict.fromkeys(features(reading, statement, before, after), 1)


def rows(label: dict[str, Any], seen: Seen[Row]) -> list[tuple[Row, str, bool]]:
    """(what is seen, the label's side as seen from the walker, whether the rules are right) of every statement whose
    side no word tells.
    """
    reading, statements = prepared(label["text"], label["machine"])
    quotes = material.quoted(label)
    out = []
    for before, statement, after in with_neighbours(statements):
        if statement.subject.told_side or statement.copied_from:
            continue
        finding = MAKER(reading, statement, [])
        evidence = finding.evidence[0]
        fitting = [
            (min(b, evidence.char_end) - max(a, evidence.char_start), gold)
            for gold, a, b in quotes
            if min(b, evidence.char_end) > max(a, evidence.char_start)
            and material.agreement(gold["part"], finding) >= material.AGREES
        ]
        if not fitting:
            continue
        gold = max(fitting, key=lambda fit: fit[0])[1]
        here = statement.stood.side
        side = relative(gold["side"], here)
        if absolute(side, here) is None:
            continue
        out.append((seen(reading, statement, before, after), side, finding.side == gold["side"]))
    return out


def main(folds_only: bool, folds: Path | None) -> None:
    data = material.taught(lambda label: rows(label, binary), folds)
    writers = sorted({w for w, _ in data})
    ruled = right = whole = 0
    for left_out in (set(writers[i :: material.FOLDS]) for i in range(material.FOLDS)):
        learned = [row for w, some in data if w not in left_out for row in some]
        vector, model = material.fit([x for x, *_ in learned], [y for _, y, *_ in learned])
        test = [row for w, some in data if w in left_out for row in some]
        told = model.predict(vector.transform([x for x, *_ in test]))
        right += sum(a == y for a, (_, y, *_) in zip(told, test, strict=True))
        ruled += sum(fits for *_, fits in test)
        whole += len(test)
        material.save_without(left_out, folds, "sides", vector, model)
    print(
        f"side not told, writers left out in turn: rules {ruled / whole:.3f}, learned {right / whole:.3f} of {whole}"
    )
    if folds_only:
        return
    learned = [row for _, some in data for row in some]
    material.ship("sides", *material.fit([x for x, *_ in learned], [y for _, y, *_ in learned]))


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--")), None)
    main("--folds-only" in sys.argv, where)
