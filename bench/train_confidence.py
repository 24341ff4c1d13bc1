"""Fit the confidence of findings (``understanding/confidence.py``) and print its reliability curve.

    python bench/train_confidence.py FOLDER [--plot OUT.png]

FOLDER holds the weights learned without each writer (``bench/train_encoder.py FOLDER``, then
``bench/train_statements.py FOLDER``), so that no narration is judged by weights that have seen it. A finding is
right when saycheck's scorer says so.
Figures are on every second narration, fitted on the others. Needs scikit-learn.
"""

import json
import sys
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
from sklearn.feature_extraction import DictVectorizer
from sklearn.linear_model import LogisticRegression

from saycheck.understanding.confidence import features
from saycheck.understanding.judge import judge
from saycheck.understanding.pipeline import MAKER, prepared
from saycheck.understanding.talk import context_of
from saycheck.understanding.weigh import weigh
from train_statements import ROOT, STATE, Quoted, agreement, left_out, narrations, quoted

EDGES = np.linspace(0, 1, 11)


def right(finding: Any, gold: list[Quoted]) -> bool:
    """Whether some label on the same words agrees in part and state."""
    e = finding.evidence[0]
    return any(
        min(b, e.char_end) > max(a, e.char_start)
        and agreement(g["part"], finding) >= 60
        and STATE.get(g["state"], g["state"]) == finding.state
        for g, a, b in gold
    )


def rows(label: dict[str, Any]) -> tuple[list[dict[str, int]], list[str]]:
    """Features of each finding of one narration, and whether it is right."""
    x, y = [], []
    gold = quoted(label)
    reading, statements = prepared(label["text"], label["machine"])
    for statement in statements:
        weight = weigh(reading, statement, statements)
        if weight.best == "talk":
            continue
        finding = MAKER(reading, statement, [], weight)
        verdict = judge(statement)
        ruled = verdict.state
        settled = verdict.__class__(finding.state, verdict.condition, verdict.denied, verdict.worn)
        names = features(statement, settled, weight, ruled, context_of(reading, statement))
        x.append(dict.fromkeys(names, 1))
        y.append("right" if right(finding, gold) else "wrong")
    return x, y


def fit(data: list[tuple[list[dict[str, int]], list[str]]]) -> tuple[DictVectorizer, LogisticRegression]:
    vector = DictVectorizer()
    model = LogisticRegression(C=0.3, max_iter=300)
    model.fit(vector.fit_transform([f for x, _ in data for f in x]), [c for _, y in data for c in y])
    return vector, model


def main(folder: Path, plot: str | None) -> None:
    data = []
    for writer, label in narrations():
        with left_out(writer, folder) as done:
            if done:
                data.append(rows(label))
    vector, model = fit(data[::2])
    x, y = [f for d in data[1::2] for f in d[0]], np.array([c == "right" for d in data[1::2] for c in d[1]])
    p = model.predict_proba(vector.transform(x))[:, list(model.classes_).index("right")]
    print(f"{len(y)} findings, {y.mean():.3f} right; Brier {np.mean((p - y) ** 2):.3f}")
    print("said        right     of")
    curve = []
    for low, high in pairwise(EDGES):
        inside = (p >= low) & (p < high + (high == 1))
        if inside.sum():
            print(f"{low:.1f}-{high:.1f}     {y[inside].mean():.3f}   {inside.sum():5}")
            curve.append((p[inside].mean(), y[inside].mean()))
    print("review below   wrong sent   right sent")
    for limit in (0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9):
        print(f"{limit:.2f}           {(p[~y] < limit).mean():.3f}        {(p[y] < limit).mean():.3f}")
    if plot:
        draw(curve, plot)
    vector, model = fit(data)
    sign = 1 if model.classes_[1] == "right" else -1
    weights = {
        str(n).removesuffix("=1"): [0.0, round(float(w) * sign, 3)]
        for n, w in zip(vector.get_feature_names_out(), model.coef_[0], strict=True)
    }
    body = {
        "classes": ["wrong", "right"],
        "bias": [0.0, round(float(model.intercept_[0]) * sign, 3)],
        "weights": weights,
    }
    out = ROOT / "src" / "saycheck" / "understanding" / "trained" / "confidence.json"
    out.write_text(json.dumps(body, ensure_ascii=False, indent=0) + "\n", encoding="utf-8")


def draw(curve: list[tuple[float, float]], out: str) -> None:
    """The reliability curve as a picture."""
    import matplotlib.pyplot as plt

    figure, axes = plt.subplots(figsize=(4, 4))
    axes.plot([0, 1], [0, 1], color="0.7")
    axes.plot(*zip(*curve, strict=True), marker="o", color="black")
    axes.set(xlabel="confidence said", ylabel="share right", xlim=(0, 1), ylim=(0, 1))
    figure.tight_layout()
    figure.savefig(out, dpi=120)


if __name__ == "__main__":
    given = [a for a in sys.argv[1:] if not a.startswith("--")]
    if not given:
        sys.exit(__doc__)
    main(Path(given[0]), given[1] if "--plot" in sys.argv else None)
