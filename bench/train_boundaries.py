"""Train the placing of stops and commas (``understanding/boundaries.py``) and print how well it does.

    python bench/train_boundaries.py

Material: the punctuated narrations in ``bench/material`` and ``tests/narrations/tune`` (never the ones
kept aside). Figures are on every fifth text, left out of a first training; the shipped model is then
trained on all. Needs scikit-learn.
"""

import json
import re
from pathlib import Path

from num2words import num2words
from sklearn.feature_extraction import DictVectorizer
from sklearn.linear_model import LogisticRegression
from sklearn.metrics import classification_report

from saycheck.understanding.boundaries import features, tags
from saycheck.understanding.pipeline import mentions
from saycheck.understanding.text import FILLERS, Reading, Token, plain, split

ROOT = Path(__file__).resolve().parents[1]
STOPS, COMMAS = set(".!?;…"), set(",:—–-()")
KEEP = 0.3
ALIAS = {
    "mobile generator set": "generator-set",
    "rough-terrain forklift truck": "rough-terrain-forklift",
    "counterbalance forklift truck": "counterbalance-forklift",
    "road truck and trailer": "road-truck",
    "generator set": "generator-set",
    "forklift": "counterbalance-forklift",
    "forklift truck": "counterbalance-forklift",
}


def spelled(text: str) -> str:
    """Figures as words, as a recogniser gives them."""
    text = re.sub(r"(\d),(\d{3})", r"\1\2", text)
    return re.sub(
        r"\d+(?:\.\d+)?",
        lambda m: " " + num2words(float(m[0]) if "." in m[0] else int(m[0])).replace("-", " ") + " ",
        text,
    )


def texts() -> list[tuple[str, str]]:
    """(machine kind, punctuated text) of all material."""
    out = []
    for path in sorted((ROOT / "bench" / "material").glob("*.txt")):
        head, _, body = path.read_text(encoding="utf-8").partition("\n")
        out.append((ALIAS.get(k := head.lstrip("# ").strip().lower(), k), body))
    for path in sorted((ROOT / "tests" / "narrations" / "tune").glob("*.json")):
        label = json.loads(path.read_text(encoding="utf-8"))
        if label["text"].count(".") * 40 > len(label["text"].split()):
            out.append((ALIAS.get(label["machine"], label["machine"]), label["text"]))
    return out


def gaps(text: str) -> tuple[list[Token], list[str]]:
    """Words without marks, and for each the mark before it: none, comma or stop."""
    words: list[Token] = []
    marks: list[str] = []
    pending = "none"
    for word, start, end in split(spelled(text)):
        word = plain(word)
        if word in STOPS:
            pending = "stop"
        elif word in COMMAS:
            pending = pending if pending == "stop" else "comma"
        elif word in FILLERS or not any(c.isalnum() or c == "%" for c in word):
            continue
        else:
            words.append(Token(word, start, end))
            marks.append(pending)
            pending = "none"
    return words, marks


def rows(kind: str, text: str) -> tuple[list[dict[str, int]], list[str]]:
    tokens, marks = gaps(text)
    reading = Reading(spelled(text), tokens)
    mentions(reading, kind, None)
    words, tag = [t.text for t in tokens], tags(reading, len(tokens))
    return [dict.fromkeys(features(words, tag, i), 1) for i in range(1, len(words))], marks[1:]


def fit(x: list[dict[str, int]], y: list[str]) -> tuple[DictVectorizer, LogisticRegression]:
    vector = DictVectorizer()
    model = LogisticRegression(C=0.6, max_iter=300)
    model.fit(vector.fit_transform(x), y)
    return vector, model


def main() -> None:
    data = [rows(kind, text) for kind, text in texts()]
    learn = [r for i, r in enumerate(data) if i % 5]
    test = [r for i, r in enumerate(data) if not i % 5]
    vector, model = fit([f for x, _ in learn for f in x], [m for _, y in learn for m in y])
    guessed = model.predict(vector.transform([f for x, _ in test for f in x]))
    print(classification_report([m for _, y in test for m in y], guessed, digits=3))
    vector, model = fit([f for x, _ in data for f in x], [m for _, y in data for m in y])
    weights = {}
    for name, column in zip(vector.get_feature_names_out(), model.coef_.T, strict=True):
        if abs(column).max() >= KEEP:
            weights[str(name).removesuffix("=1")] = [round(float(w), 2) for w in column]
    out = ROOT / "src" / "saycheck" / "understanding" / "trained" / "boundaries.json"
    out.write_text(
        json.dumps(
            {
                "classes": list(model.classes_),
                "bias": [round(float(b), 3) for b in model.intercept_],
                "weights": weights,
            },
            ensure_ascii=False,
            indent=0,
        )
        + "\n",
        encoding="utf-8",
    )
    print(f"{len(data)} texts, {len(weights)} features kept, {out.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
