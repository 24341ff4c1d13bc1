"""Train of which part something is said (``understanding/antecedent.py``) and print how well it does.

    python bench/train_antecedents.py [FOLDER] [--folds-only]

Material and folds are those of ``bench/train_statements.py``; FOLDER holds the names learned without each writer
(``bench/train_names.py FOLDER``) and takes, in ``antecedents/``, the weights. A statement on labelled words teaches
by every part named before it: "another" where that part agrees with the label and the statement's own does not,
"own" where its own does. Run before ``bench/train_statements.py``. Needs scikit-learn.
"""

import sys
from pathlib import Path
from typing import Any

import train_statements as material
from saycheck.understanding.antecedent import Antecedents
from saycheck.understanding.findings import heard_as
from saycheck.understanding.pipeline import attached
from saycheck.understanding.statements import Statement, Subject
from saycheck.understanding.text import Reading

STRENGTH = 0.2
STEPS = (0.3, 0.4, 0.45, 0.5, 0.6, 0.7)
# The rows of one statement: (features, "own" or "another") of each other part.
Rows = list[tuple[list[str], str]]


def agrees(part: str, subject: Subject) -> bool:
    """Whether a label's part is the subject's, as the scorer has it."""
    named = subject.part
    return material.likeness(part, named.name, heard_as(subject, ""), named.zone) >= material.AGREES


def touched(reading: Reading, statement: Statement, quotes: list[material.Quoted]) -> list[str]:
    """The parts of the labels whose quotes a statement stands on, the one it shares most with first."""
    start, end = reading.span(statement.start, statement.end)
    shares = sorted(((min(b, end) - max(a, start), g["part"]) for g, a, b in quotes), reverse=True)
    return [part for share, part in shares if share > 0]


def are_meant(subjects: list[Subject], parts: list[str]) -> list[bool]:
    """Which of the subjects is meant by the labels that a statement stands on: its own, the first, by any of them, the
    others by the first; none where there is no label.
    """
    own, *others = subjects
    if not parts:
        return [False] * len(subjects)
    return [any(agrees(part, own) for part in parts), *(agrees(parts[0], other) for other in others)]


def rows(label: dict[str, Any]) -> list[Rows]:
    """What each statement of a labelled narration teaches."""
    reading, statements = attached(label["text"], label["machine"])
    known = Antecedents(reading, statements)
    quotes = material.quoted(label)
    out = []
    for statement in statements:
        if statement.copied_from is not None:
            continue
        choices = known.choices(statement)
        subjects = [statement.subject, *(other.subject for other, _ in choices)]
        own, *right = are_meant(subjects, touched(reading, statement, quotes))
        if not choices or not (own or any(right)):
            continue
        out.append(
            [
                (features, "another" if fits and not own else "own")
                for (_, features), fits in zip(choices, right, strict=True)
            ]
        )
    return out


def fit(taught: list[Rows]) -> tuple[Any, Any]:
    pairs = [row for rows in taught for row in rows]
    return material.fit([dict.fromkeys(f, 1) for f, _ in pairs], [truth for _, truth in pairs], STRENGTH)


def figures(rated: list[list[tuple[float, str]]]) -> None:
    """Print at several thresholds what is gained and lost."""
    wrong = sum(any(t == "another" for _, t in one) for one in rated)
    print(f"{len(rated)} statements, {wrong} of them about another part than the rules say")
    for step in STEPS:
        best = [max(one) for one in rated]
        won = sum(share > step and truth == "another" for share, truth in best)
        lost = sum(
            share > step and all(t == "own" for _, t in one)
            for (share, _), one in zip(best, rated, strict=True)
        )
        print(f"above {step:.2f}: {won} put right, {lost} spoilt")


def main(folds_only: bool, folds: Path | None) -> None:
    data = material.taught(rows, folds)
    writers = sorted({w for w, _ in data})
    rated: list[list[tuple[float, str]]] = []
    for left_out in (set(writers[i :: material.FOLDS]) for i in range(material.FOLDS)):
        vector, model = fit([one for w, some in data if w not in left_out for one in some])
        another = list(model.classes_).index("another")
        for one in (one for w, some in data if w in left_out for one in some):
            shares = model.predict_proba(vector.transform([dict.fromkeys(f, 1) for f, _ in one]))[:, another]
            rated.append([(float(s), t) for s, (_, t) in zip(shares, one, strict=True)])
        material.save_without(left_out, folds, "antecedents", vector, model)
    figures(rated)
    if folds_only:
        return
    material.ship("antecedents", *fit([one for _, some in data for one in some]))


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--")), None)
    main("--folds-only" in sys.argv, where)
