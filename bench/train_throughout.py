"""Train the weighing of every word (``understanding/throughout.py``) and print how well it does.

    python bench/train_throughout.py [FOLDER] [--folds-only]

FOLDER takes, in ``throughout/``, the network learned without each writer; ``bench/train_names.py FOLDER`` comes
before. Material and folds are those of ``bench/train_statements.py``. A word within a label's quote is of its state,
any other is talk. Figures are on writers left out in turn. Needs JAX and Optax.
"""

import os
import re
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import numpy as np

os.environ.setdefault("XLA_FLAGS", "--xla_cpu_multi_thread_eigen=false intra_op_parallelism_threads=1")

import train_statements as material
from saycheck.understanding import throughout
from saycheck.understanding.linear import FOLDER
from saycheck.understanding.order import ending
from saycheck.understanding.pipeline import reading_of
from saycheck.understanding.throughout import CLASSES, NOTHING, REACH, TINY, UNKNOWN, Reader, Words

EPOCHS, BATCH, RATE, DECAY, SMOOTH = 7, 12, 2.5e-3, 1e-3, 0.05
WORD, ENDING, TAG, WIDTH = 48, 16, 24, 112
LENGTH, STEP, LEAST = 256, 224, 32
"""Narrations are learned from in stretches of so many words, the next beginning so many later; shorter ones are not."""
UNHEARD = 0.06
"""Share of words that are taken for unknown ones while learning."""
AT_ONCE = 2


@dataclass(frozen=True)
class Labelled:
    """The words of a narration and the class of each."""

    words: Words
    classes: list[str]


def labelled(label: dict[str, Any]) -> Labelled:
    """A narration with the class of every word."""
    reading = reading_of(label["text"], label["machine"])
    quotes = [
        (m.start(), m.end(), material.STATE.get(g["state"], g["state"]))
        for g in label["gold"]
        if (m := re.search(re.escape(g["quote"]), label["text"]))
    ]
    classes = [
        next((state for start, end, state in quotes if start <= token.start < end), "talk")
        for token in reading.tokens
    ]
    return Labelled(throughout.seen(reading), classes)


def empty(data: list[Labelled], seed: int) -> Reader:
    """A network that has learned nothing yet, for the words of these narrations."""
    words = Counter(word for one in data for word in one.words.words)
    endings = Counter(ending(word) for one in data for word in one.words.words)
    names = {
        "words": [NOTHING, UNKNOWN, *sorted(w for w, n in words.items() if n >= 2 and w != UNKNOWN)],
        "endings": [NOTHING, UNKNOWN, *sorted(e for e, n in endings.items() if n >= 4 and e != UNKNOWN)],
        "tags": [NOTHING, *sorted({tag for one in data for tag in one.words.tags})],
    }
    chance = np.random.default_rng(seed)

    def drawn(scale: float, *shape: int) -> Any:
        return (chance.standard_normal(shape) * scale).astype(np.float32)

    wide = WORD + ENDING + TAG + 2
    weights = {
        "words": drawn(0.3, len(names["words"]), WORD),
        "endings": drawn(0.2, len(names["endings"]), ENDING),
        "tags": drawn(0.3, len(names["tags"]), TAG),
        "in": drawn(wide**-0.5, wide, WIDTH),
        "in_bias": drawn(0, WIDTH),
        "out": drawn(0.05, 2 * WIDTH, len(CLASSES)),
        "out_bias": drawn(0, len(CLASSES)),
    }
    for layer in range(len(REACH)):
        weights[f"layer{layer}"] = drawn((2 / (3 * WIDTH)) ** 0.5, 3, WIDTH, WIDTH)
        weights[f"bias{layer}"] = drawn(0, WIDTH)
    return Reader(names, weights)


def stretches(reader: Reader, data: list[Labelled]) -> dict[str, Any]:
    """Narrations cut into rows of ``LENGTH`` words, each array (rows, ``LENGTH``)."""
    rows: dict[str, list[Any]] = {}
    for one in data:
        whole = {
            **reader.codes(one.words),
            "names": np.asarray(one.words.names, np.float32),
            "begins": np.asarray(one.words.begins, np.float32),
            "classes": np.array([CLASSES.index(c) for c in one.classes], np.int32),
            "there": np.ones(len(one.classes), np.float32),
        }
        for start in range(0, max(len(one.classes) - LEAST, 1), STEP):
            for name, array in whole.items():
                row = np.zeros(LENGTH, array.dtype)
                piece = array[start : start + LENGTH]
                row[: len(piece)] = piece
                rows.setdefault(name, []).append(row)
    return {name: np.stack(given) for name, given in rows.items()}


def scores(w: Any, some: Any, chance: Any) -> Any:
    """What ``Reader.scores`` gives, with a share of what it sees left out at random."""
    import jax
    import jax.numpy as jnp

    keys = jax.random.split(chance, len(REACH) + 3)

    def spared(x: Any, key: Any, share: float) -> Any:
        return x * jax.random.bernoulli(key, 1 - share, x.shape) / (1 - share)

    words = some["words"]
    words = jnp.where(jax.random.bernoulli(keys[-1], UNHEARD, words.shape) & (words > 0), 1, words)
    told = jnp.stack([some["names"], some["begins"]], -1)
    x = jnp.concatenate([w["words"][words], w["endings"][some["endings"]], w["tags"][some["tags"]], told], -1)
    there = some["there"][..., None]
    first = h = jax.nn.relu(spared(x, keys[0], 0.2) @ w["in"] + w["in_bias"]) * there
    for layer, reach in enumerate(REACH):
        slid = jax.lax.conv_general_dilated(
            spared(h, keys[layer + 1], 0.15),
            w[f"layer{layer}"],
            (1,),
            [(reach, reach)],
            rhs_dilation=(reach,),
            dimension_numbers=("NWC", "WIO", "NWC"),
        )
        h = (h + jax.nn.relu(slid + w[f"bias{layer}"])) * there
        h = h / jnp.sqrt((h * h).mean(-1, keepdims=True) + TINY)
    return spared(jnp.concatenate([h, first], -1), keys[-2], 0.3) @ w["out"] + w["out_bias"]


def learned(data: list[Labelled], seed: int = 0) -> Reader:
    """A network fitted to these narrations."""
    import jax
    import optax

    reader = empty(data, seed)
    rows = stretches(reader, data)
    many = len(rows["words"])
    rule = optax.adamw(optax.cosine_decay_schedule(RATE, EPOCHS * (many // BATCH)), weight_decay=DECAY)

    def loss(w: Any, some: Any, key: Any) -> Any:
        wanted = optax.smooth_labels(jax.nn.one_hot(some["classes"], len(CLASSES)), SMOOTH)
        lost = optax.softmax_cross_entropy(scores(w, some, key), wanted)
        return (lost * some["there"]).sum() / some["there"].sum()

    @jax.jit
    def step(w: Any, state: Any, some: Any, key: Any) -> Any:
        change, state = rule.update(jax.grad(loss)(w, some, key), state, w)
        return optax.apply_updates(w, change), state

    w = reader.weights
    state, key, chance = rule.init(w), jax.random.PRNGKey(seed), np.random.default_rng(seed)
    for _ in range(EPOCHS):
        mixed = chance.permutation(many)
        for i in range(0, many - BATCH + 1, BATCH):
            key, now = jax.random.split(key)
            w, state = step(
                w, state, {name: array[mixed[i : i + BATCH]] for name, array in rows.items()}, now
            )
    reader.weights = {name: np.asarray(array) for name, array in w.items()}
    return reader


def without_writers(job: tuple[list[tuple[str, Labelled]], set[str], Path | None]) -> Reader:
    """The network learned without these writers, kept in the folder for each of them."""
    data, left_out, folder = job
    reader = learned([one for writer, one in data if writer not in left_out])
    material.keep_for(left_out, folder, "throughout", lambda path: throughout.write(path, reader))
    return reader


def main(folds_only: bool, folds: Path | None) -> None:
    data = material.taught(labelled, folds)
    writers = sorted({writer for writer, _ in data})
    parts = [set(writers[i :: material.FOLDS]) for i in range(material.FOLDS)]
    jobs = ([] if folds_only else [(data, set[str](), None)]) + [(data, part, folds) for part in parts]
    with ProcessPoolExecutor(AT_ONCE, get_context("spawn")) as pool:
        readers = list(pool.map(without_writers, jobs))
    if not folds_only:
        throughout.write(FOLDER / "throughout.npz", readers[0])
        print(f"{(FOLDER / 'throughout.npz').stat().st_size // 1024} kB")
    right = whole = 0
    for part, reader in zip(parts, readers[-len(parts) :], strict=True):
        for one in (one for writer, one in data if writer in part):
            told = reader.shares(one.words).argmax(axis=1)
            right += sum(CLASSES[a] == b for a, b in zip(told, one.classes, strict=True))
            whole += len(one.classes)
    print(f"by every word alone, writers left out in turn: accuracy {right / whole:.3f} of {whole}")


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--")), None)
    main("--folds-only" in sys.argv, where)
