"""Train the weighing of statements (``understanding/weigh.py``) and print how well it does.

    python bench/train_statements.py [FOLDER] [--folds-only]

FOLDER takes the weights learned without each writer, for ``bench/train_confidence.py FOLDER``; run
``bench/train_names.py FOLDER`` before, so that names are read as those of a writer not learned from.

Material: ``tests/narrations/tune``, as written and once more without marks (never those kept aside), and
the annotated sayings in ``bench/material/sayings``: ``kind | words [state: words of a finding] words``.
Each statement the rules find is paired with the labels: its class is the label's state, or ``talk``
where no label fits. Figures are on writers left out in turn; the shipped weights are trained on all.
Needs scikit-learn.
"""

import json
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from typing import Any, TypeVar

import numpy as np
from rapidfuzz import fuzz
from scipy.optimize import linear_sum_assignment
from sklearn.feature_extraction import DictVectorizer
from sklearn.linear_model import LogisticRegression
from sklearn.metrics import classification_report

from saycheck.understanding import encoder
from saycheck.understanding.linear import FOLDER, STANDING_IN, read
from saycheck.understanding.pipeline import MAKER, prepared
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading
from saycheck.understanding.weigh import features
from train_boundaries import ALIAS, spelled

Row = TypeVar("Row")
Quoted = tuple[dict[str, Any], int, int]
ROOT = Path(__file__).resolve().parents[1]
BRACKET = re.compile(r"\[(?P<state>\w+): (?P<words>[^\]]*)\]")
KEEP = 0.04
LEAST_SEEN = 2
FOLDS = 4
# Above 1e-4 the fit stops long before it is one.
TOLERANCE, MOST_STEPS = 1e-4, 400
STRENGTH = 0.1
# From here on two names of a part agree, as the scorer has it.
AGREES = 60
STATE = {"fault": "writeup"}
# A statement on labelled words but about another part: neither right nor talk, so not learned from.
UNSURE = "unsure"


def raw(text: str) -> str:
    """Text as a recogniser gives it: lower case, no marks, numbers in words."""
    text = re.sub(r"(?<=\w)-(?=\w)", " ", spelled(text).lower())
    return re.sub(r"\s+", " ", re.sub(r"[^a-z0-9'’%/ ]+", " ", text)).strip()


def narrations() -> Iterator[tuple[str, dict[str, Any]]]:
    """(writer, label) of all narrations to tune on, as written and without marks."""
    for path in sorted((ROOT / "tests" / "narrations" / "tune").glob("*.json")):
        label = json.loads(path.read_text(encoding="utf-8"))
        label["machine"] = ALIAS.get(label["machine"], label["machine"])
        yield path.stem.split("-")[0], label
        if label["text"].count(".") * 40 > len(label["text"].split()):
            bare = {
                **label,
                "text": raw(label["text"]),
                "gold": [{**g, "quote": raw(g["quote"])} for g in label["gold"]],
            }
            yield path.stem.split("-")[0], bare


def sayings() -> Iterator[tuple[str, str, list[tuple[int, int, str]]]]:
    """(machine kind, text, findings as (start, end, state)) of every annotated saying, and without marks."""
    for path in sorted((ROOT / "bench" / "material" / "sayings").glob("*.txt")):
        for line in path.read_text(encoding="utf-8").splitlines():
            kind, _, marked = line.partition(" | ")
            text, found, at = "", [], 0
            for match in BRACKET.finditer(marked):
                text += marked[at : match.start()]
                found.append((len(text), len(text) + len(match["words"]), match["state"]))
                text, at = text + match["words"], match.end()
            text += marked[at:]
            yield kind, text, found


Seen = Callable[[Reading, Statement, list[Statement]], Row]
"""What a training script sees of a statement among all of its text."""


def binary(reading: Reading, statement: Statement, others: list[Statement]) -> dict[str, int]:
    """The features of a statement as scikit-learn takes them."""
    return dict.fromkeys(features(reading, statement, others), 1)


def saying_rows(
    kind: str, text: str, found: list[tuple[int, int, str]], seen: Seen[Row]
) -> tuple[list[Row], list[str]]:
    """What is seen of the statements in a saying and their class: the state of the bracket it stands in, or talk."""
    reading, statements = prepared(text, kind)
    x, y = [], []
    for statement in statements:
        start, end = reading.span(statement.start, statement.end)
        shares = [(min(end, b) - max(start, a), state) for a, b, state in found]
        most, state = max(shares, default=(0, "talk"))
        if 0 < most < (end - start) / 2:
            continue
        x.append(seen(reading, statement, statements))
        y.append(state if most > 0 else "talk")
    return x, y


def quoted(label: dict[str, Any]) -> list[Quoted]:
    """Each label with where its quote begins and ends in the text."""
    found = ((g, re.search(re.escape(g["quote"]), label["text"])) for g in label["gold"])
    return [(g, match.start(), match.end()) for g, match in found if match]


def agreement(part: str, finding: Any) -> float:
    return likeness(part, finding.part, finding.heard_as, finding.zone)


def likeness(part: str, name: str, heard_as: str, zone: str) -> float:
    """How well a label's part agrees with a part by its name, the words heard for it and its zone, 0 to 100."""
    names = [name, heard_as, f"{zone} {name}"]
    return max(fuzz.token_set_ratio(part.lower(), n.lower().replace("-", " ")) for n in names)


def rows(label: dict[str, Any], seen: Seen[Row]) -> tuple[list[Row], list[str]]:
    """What is seen of every statement in a labelled narration, and its class."""
    text = label["text"]
    reading, statements = prepared(text, label["machine"])
    findings = [MAKER(reading, s, []) for s in statements]
    spans = [
        (m.start(), m.end()) if (m := re.search(re.escape(g["quote"]), text)) else (-1, -1)
        for g in label["gold"]
    ]
    weight = np.zeros((len(label["gold"]), len(findings)))
    for i, (gold, (a, b)) in enumerate(zip(label["gold"], spans, strict=True)):
        for j, f in enumerate(findings):
            e = f.evidence[0]
            touch = min(b, e.char_end) - max(a, e.char_start)
            agree = agreement(gold["part"], f)
            if touch > 0 and agree >= AGREES:
                same = STATE.get(gold["state"], gold["state"]) == f.state
                weight[i, j] = 1 + agree / 100 + 0.5 * same + min(touch, 40) / 400
    classes = ["talk"] * len(findings)
    for j, f in enumerate(findings):
        e = f.evidence[0]
        if any(min(b, e.char_end) - max(a, e.char_start) > 8 for a, b in spans):
            classes[j] = UNSURE
        if weight.shape[0] and weight[:, j].max() > 0:
            state = label["gold"][int(weight[:, j].argmax())]["state"]
            classes[j] = STATE.get(state, state)
    paired = set()
    if weight.size:
        for i, j in zip(*linear_sum_assignment(weight, maximize=True), strict=True):
            if weight[i, j] > 0:
                paired.add(i)
                classes[j] = STATE.get(label["gold"][i]["state"], label["gold"][i]["state"])
    for j, f in enumerate(findings):
        e = f.evidence[0]
        touched = [i for i, (a, b) in enumerate(spans) if min(b, e.char_end) > max(a, e.char_start)]
        if classes[j] == UNSURE and all(i in paired for i in touched):
            classes[j] = "talk"
    told = [(s, c) for s, c in zip(statements, classes, strict=True) if c != UNSURE]
    return [seen(reading, s, statements) for s, _ in told], [c for _, c in told]


kept, kept_encoder = lru_cache(maxsize=2)(read), lru_cache(maxsize=2)(encoder.kept)
"""Weights read once for all narrations of a writer."""


def without(writer: str, folds: Path | None) -> None:
    """Read names, sides and numbers, and which part is meant, as if this writer had not been learned from, where the
    scripts for them left weights for it: in use no text is known by heart.
    """
    if folds is None:
        return
    for name in ("names", "antecedents", "sides", "units"):
        path = folds / name / f"{writer}.json"
        if path.exists():
            STANDING_IN[name] = kept(path)
    encoded = folds / "encoder" / writer
    encoder.STANDING_IN[:] = [kept_encoder(encoded.resolve()) if encoded.exists() else None]


@contextmanager
def left_out(writer: str, folds: Path) -> Iterator[bool]:
    """Within it every trained part stands in that was learned without this writer; yields whether there are some."""
    weights = folds / f"{writer}.json"
    there = weights.exists() and (folds / "encoder" / writer).exists()
    if there:
        without(writer, folds)
        STANDING_IN["statements"] = kept(weights)
    try:
        yield there
    finally:
        STANDING_IN.clear()
        encoder.STANDING_IN.clear()


def taught(rows: Callable[[dict[str, Any]], Row], folds: Path | None) -> list[tuple[str, Row]]:
    """(writer, what ``rows`` makes of the label) of every narration, read as if its writer was not learned from."""
    data = []
    for writer, label in narrations():
        without(writer, folds)
        data.append((writer, rows(label)))
    STANDING_IN.clear()
    encoder.STANDING_IN.clear()
    return data


def fit(
    x: list[dict[str, int]], y: list[str], strength: float = STRENGTH
) -> tuple[DictVectorizer, LogisticRegression]:
    seen = Counter(name for row in x for name in row)
    vector = DictVectorizer()
    model = LogisticRegression(C=strength, max_iter=MOST_STEPS, tol=TOLERANCE)
    model.fit(vector.fit_transform([{k: 1 for k in row if seen[k] >= LEAST_SEEN} for row in x]), y)
    return vector, model


def save(vector: DictVectorizer, model: LogisticRegression, out: Path, keep: float = KEEP) -> int:
    """Write the weights of ``keep`` and more; returns how many features have some."""
    coefficients, bias = model.coef_, model.intercept_
    if len(model.classes_) == 2:
        # scikit-learn keeps one row for two classes; the other's is nought.
        coefficients, bias = np.vstack([0 * coefficients, coefficients]), np.array([0.0, bias[0]])
    weights = {}
    for name, column in zip(vector.get_feature_names_out(), coefficients.T, strict=True):
        if abs(column).max() >= keep:
            weights[str(name).removesuffix("=1")] = [round(float(w), 2) for w in column]
    body = {
        "classes": list(model.classes_),
        "bias": [round(float(b), 3) for b in bias],
        "weights": weights,
    }
    out.write_text(json.dumps(body, ensure_ascii=False, indent=0) + "\n", encoding="utf-8")
    return len(weights)


def save_without(
    writers: Iterable[str],
    folds: Path | None,
    name: str,
    vector: DictVectorizer,
    model: LogisticRegression,
    keep: float = KEEP,
) -> None:
    """Keep weights that were learned without these writers, where there is a folder for them."""
    if folds is None:
        return
    (folds / name).mkdir(parents=True, exist_ok=True)
    for writer in writers:
        save(vector, model, folds / name / f"{writer}.json", keep)


def ship(name: str, vector: DictVectorizer, model: LogisticRegression, keep: float = KEEP) -> None:
    """Put weights in the place of those that are shipped, and print how many there are."""
    out = FOLDER / f"{name}.json"
    print(f"{save(vector, model, out, keep)} features kept, {out.stat().st_size // 1024} kB")


def main(folds_only: bool, folds: Path | None) -> None:
    data = [(writer, *made) for writer, made in taught(lambda label: rows(label, binary), folds)]
    writers = sorted({w for w, _, _ in data})
    # Sayings help to learn; the figures are on narrations only.
    learned = data + [("", *saying_rows(*saying, binary)) for saying in sayings()]
    truth, guessed, ruled = [], [], []
    for left_out in (set(writers[i::FOLDS]) for i in range(FOLDS)):
        vector, model = fit(
            [f for w, x, _ in learned if w not in left_out for f in x],
            [c for w, _, y in learned if w not in left_out for c in y],
        )
        save_without(left_out, folds, ".", vector, model)
        test = [(x, y) for w, x, y in data if w in left_out]
        guessed += list(model.predict(vector.transform([f for x, _ in test for f in x])))
        truth += [c for _, y in test for c in y]
        for x, _ in test:
            for f in x:
                rule = next(k for k in f if k.startswith("rule=") and " " not in k).removeprefix("rule=")
                ruled.append(rule if "talk=None" in f else "talk")
    print("rules alone")
    print(classification_report(truth, ruled, digits=3))
    print("weighed, writers left out in turn")
    print(classification_report(truth, guessed, digits=3))
    if folds_only:
        return
    every = fit([f for _, x, _ in learned for f in x], [c for _, _, y in learned for c in y])
    ship("statements", *every)


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--")), None)
    main("--folds-only" in sys.argv, where)
