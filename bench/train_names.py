"""Train the telling of part names (``understanding/names.py``) and print how well it does.

    python bench/train_names.py [FOLDER]

FOLDER takes the weights learned without each writer, in ``FOLDER/names``: run this before
``bench/train_statements.py FOLDER``, which reads every narration as if its writer had not been learned from.

Material: ``tests/narrations/tune``, as written and without marks (never those kept aside). Inside the words
of a label, the words that its part is named by are names and the others are not; where the label's part is
named by none of them and nothing points back ("that one"), the words teach nothing. Figures are on writers
left out in turn; the shipped weights are trained on all. Needs scikit-learn.
"""

import re
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
from rapidfuzz import fuzz
from sklearn.feature_extraction import DictVectorizer
from sklearn.linear_model import LogisticRegression

from saycheck.understanding.names import NameFinder
from saycheck.understanding.parts import PartFinder
from saycheck.understanding.phrases import singular
from saycheck.understanding.pipeline import pipeline
from saycheck.understanding.resolve import Resolver
from saycheck.understanding.text import Mention, Reading
from saycheck.vocabulary.load import load, shared_tables
from saycheck.vocabulary.schema import Nouns
from train_statements import AGREES, FOLDS, LEAST_SEEN, narrations, save_without, ship

SPELLED = {"tire": "tyre", "rear": "back", "stabilizer": "stabiliser", "fuel": "diesel"}
# Words of a part's name that name no part by themselves.
SMALL = frozenset(
    "the of a and left right front rear back upper lower top bottom level condition system".split()
)
POINTS = frozenset(
    "one ones it they these those this that other others both same them left right rest two three four all each"
    " neither he she its".split()
)
ALIKE, LONG = 84, 4
# What a word outside all labels counts: it may well name a part that is only talked of.
OUTSIDE = 0.35
KEEP = 0.05
STEPS = (0.0, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 1.01)


@dataclass(frozen=True)
class Words:
    """The words of one narration: features, "name", "no" or "outside" (None teaches nothing), part found."""

    writer: str
    rows: list[list[str]]
    truth: list[str | None]
    found: list[bool]


def folded(word: str) -> str:
    word = singular(word.lower())
    return SPELLED.get(word, word)


def read_names(label: dict[str, Any]) -> tuple[Reading, NameFinder, Resolver]:
    """The reading of a narration up to where names are told."""
    nlp = pipeline(label["machine"])
    doc = nlp.make_doc(label["text"])
    doc.user_data["pauses"] = {}
    doc = nlp(doc, disable=["saycheck_names", "saycheck_statements"])
    vocabulary = load(label["machine"])
    nouns = [noun for table in shared_tables("nouns.toml", Nouns) for noun in table.noun]
    return doc._.reading, NameFinder(PartFinder(vocabulary), nouns), Resolver(vocabulary)


def names_in(reading: Reading, inside: list[int], part: str, resolver: Resolver) -> set[int]:
    """Which of the words ``inside`` a label name its ``part``."""
    words = reading.all_words
    wanted = {folded(w) for w in re.findall(r"[A-Za-z0-9/']+", part)}
    names = {
        i
        for i in inside
        if ((w := folded(words[i])) in wanted and w not in SMALL)
        or (len(w) > LONG and any(fuzz.ratio(w, x) >= ALIKE for x in wanted if len(x) > LONG))
    }
    for mention in reading.of("part"):
        if (mention.start in inside or mention.end - 1 in inside) and is_meant(mention, part, resolver):
            names |= set(range(mention.start, mention.end))
    for i in sorted(names):
        before = i - 1
        while before in inside and folded(words[before]) in (wanted | SMALL) - {"the", "a", "and", "of"}:
            names.add(before)
            before -= 1
    return names


def is_meant(mention: Mention, part: str, resolver: Resolver) -> bool:
    """Whether the part found at a mention is the label's."""
    called = (resolver(mention.value, "", None).name, " ".join(mention.value.words))
    return max(fuzz.token_set_ratio(part.lower(), name.lower()) for name in called) >= AGREES


def truth_of(reading: Reading, label: dict[str, Any], resolver: Resolver) -> list[str | None]:
    """What each word is: "name", "no", "outside" of all labels, or None where it teaches nothing."""
    truth: list[str | None] = ["outside"] * len(reading.tokens)
    for mention in reading.of("part"):
        truth[mention.start : mention.end] = [None] * len(mention)
    told: set[int] = set()
    for gold in label["gold"]:
        at = label["text"].find(gold["quote"])
        end = at + len(gold["quote"])
        inside = [i for i, t in enumerate(reading.tokens) if at <= t.start < t.end <= end] if at >= 0 else []
        names = names_in(reading, inside, gold["part"], resolver)
        teaches = names or any(reading.all_words[i] in POINTS for i in inside)
        for i in inside:
            if i in names:
                truth[i] = "name"
            elif i not in told:
                truth[i] = "no" if teaches else None
        told |= set(inside)
    return truth


def truths(label: dict[str, Any]) -> list[str | None]:
    """What each word of a labelled narration is, as ``truth_of``."""
    reading, _, resolver = read_names(label)
    return truth_of(reading, label, resolver)


def material() -> Iterator[Words]:
    for writer, label in narrations():
        reading, finder, resolver = read_names(label)
        found = [False] * len(reading.tokens)
        for mention in reading.of("part"):
            found[mention.start : mention.end] = [True] * len(mention)
        yield Words(writer, finder.rows(reading), truth_of(reading, label, resolver), found)


def fit(material: list[Words]) -> tuple[DictVectorizer, LogisticRegression]:
    taught = [(row, t) for m in material for row, t in zip(m.rows, m.truth, strict=True) if t]
    seen = Counter(feature for row, _ in taught for feature in row)
    vector = DictVectorizer()
    model = LogisticRegression(C=0.3, max_iter=400, tol=1e-5)
    model.fit(
        vector.fit_transform([{f: 1 for f in row if seen[f] >= LEAST_SEEN} for row, _ in taught]),
        ["name" if t == "name" else "no" for _, t in taught],
        sample_weight=[OUTSIDE if t == "outside" else 1.0 for _, t in taught],
    )
    return vector, model


def main(folder: Path | None) -> None:
    whole = list(material())
    writers = sorted({m.writer for m in whole})
    rated: list[tuple[float, str, bool]] = []
    for left_out in (set(writers[i::FOLDS]) for i in range(FOLDS)):
        vector, model = fit([m for m in whole if m.writer not in left_out])
        save_without(left_out, folder, "names", vector, model, KEEP)
        name = list(model.classes_).index("name")
        for m in (m for m in whole if m.writer in left_out):
            shares = model.predict_proba(vector.transform([dict.fromkeys(row, 1) for row in m.rows]))[:, name]
            rated += [(s, t, f) for s, t, f in zip(shares, m.truth, m.found, strict=True) if t]
    print("likely    words   names")
    for low, high in pairwise(STEPS):
        inside = [t == "name" for s, t, _ in rated if low <= s < high]
        print(f"{low:4.2f}-{min(high, 1):4.2f} {len(inside):7} {np.mean(inside) if inside else 0:7.3f}")
    for known, what in ((True, "words of a part found"), (False, "words no table has")):
        of = [(s >= 0.5, t == "name") for s, t, f in rated if f is known]
        right, told, names = sum(a and b for a, b in of), sum(a for a, _ in of), sum(b for _, b in of)
        print(f"{what}: {names} names, precision {right / told:.3f}, recall {right / names:.3f}")
    ship("names", *fit(whole), KEEP)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else None)
