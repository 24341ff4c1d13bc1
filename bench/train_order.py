"""Train the weighing of statements by the order of words (``understanding/order.py``); print how well it does.

    python bench/train_order.py [FOLDER] [--folds-only]

FOLDER takes, in ``order/``, the network learned without each writer; ``bench/train_names.py FOLDER`` and
``bench/train_statements.py FOLDER`` come before. Material, classes and folds are those of
``bench/train_statements.py``. Figures are on writers left out in turn. Needs JAX and Optax.
"""

import os
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import numpy as np

os.environ.setdefault("XLA_FLAGS", "--xla_cpu_multi_thread_eigen=false intra_op_parallelism_threads=1")

import train_statements as material
from saycheck.understanding import order
from saycheck.understanding.linear import FOLDER
from saycheck.understanding.order import HEADS, NOTHING, OWN, PADDED, UNKNOWN, Network, Seen
from saycheck.understanding.statements import Statement, region_end
from saycheck.understanding.tags import tags
from saycheck.understanding.text import Reading

CLASSES = ["good", "hidden", "later", "talk", "watch", "writeup"]
EPOCHS, BATCH, RATE, DECAY, DROP, SMOOTH = 7, 96, 2e-3, 1e-4, 0.3, 0.05
WORD, ENDING, TAG, PLACE, WIDTH, SOUGHT = 40, 16, 24, 8, 96, 32
LEAST_SEEN = 2
AT_ONCE = 2
Rows = list[Seen]


def in_order(reading: Reading, statement: Statement, others: list[Statement]) -> Seen:
    """The words that a statement is seen with."""
    if "tagged" not in reading.data:
        reading.data["tagged"] = tags(reading)
    return order.seen(reading, statement, region_end(reading, statement, others), reading.data["tagged"])


def gathered(folds: Path | None) -> list[tuple[str, Rows, list[str]]]:
    """(writer, words, classes) of every narration, and of the sayings under no writer."""
    taught = material.taught(lambda label: material.rows(label, in_order), folds)
    out = [(writer, *made) for writer, made in taught]
    return out + [("", *material.saying_rows(*saying, in_order)) for saying in material.sayings()]


def empty(rows: Rows, seed: int) -> Network:
    """A network that has learned nothing yet, for the words of these rows."""
    words = Counter(word for row in rows for word in row.words)
    endings = Counter(order.ending(word) for row in rows for word in row.words)
    names = {
        "words": [NOTHING, UNKNOWN, *sorted(w for w, n in words.items() if n >= LEAST_SEEN and w != UNKNOWN)],
        "endings": [
            NOTHING,
            UNKNOWN,
            *sorted(e for e, n in endings.items() if n >= 2 * LEAST_SEEN and e != UNKNOWN),
        ],
        "tags": [NOTHING, *sorted({tag for row in rows for tag in row.tags})],
    }
    chance = np.random.default_rng(seed)

    def drawn(scale: float, *shape: int) -> Any:
        return (chance.standard_normal(shape) * scale).astype(np.float32)

    wide = WORD + ENDING + TAG + PLACE
    weights = {
        "words": drawn(0.3, len(names["words"]), WORD),
        "endings": drawn(0.2, len(names["endings"]), ENDING),
        "tags": drawn(0.3, len(names["tags"]), TAG),
        "places": drawn(0.5, PADDED + 1, PLACE),
        "first": drawn((2 / (3 * wide)) ** 0.5, 3, wide, WIDTH),
        "first_bias": drawn(0, WIDTH),
        "second": drawn((2 / (3 * WIDTH)) ** 0.5, 3, WIDTH, WIDTH),
        "second_bias": drawn(0, WIDTH),
        "query": drawn(WIDTH**-0.5, 2 * WIDTH, HEADS * SOUGHT),
        "key": drawn(WIDTH**-0.5, WIDTH, HEADS * SOUGHT),
        "value": drawn(WIDTH**-0.5, WIDTH, HEADS * SOUGHT),
        "out": drawn(0.05, 3 * WIDTH + HEADS * SOUGHT, len(CLASSES)),
        "out_bias": drawn(0, len(CLASSES)),
    }
    return Network(CLASSES, names, weights)


def scores(w: Any, codes: Any, chance: Any) -> Any:
    """What ``Network.scores`` gives, with a share of what it sees left out at random."""
    import jax
    import jax.numpy as jnp

    first, second, third = jax.random.split(chance, 3)

    def spared(x: Any, key: Any, share: float) -> Any:
        return x * jax.random.bernoulli(key, 1 - share, x.shape) / (1 - share)

    def slid(x: Any, kernel: Any) -> Any:
        return jax.lax.conv_general_dilated(x, kernel, (1,), "SAME", dimension_numbers=("NWC", "WIO", "NWC"))

    there, own = (codes["places"] < PADDED)[..., None], (codes["places"] <= OWN)[..., None]
    x = jnp.concatenate([w[kind][codes[kind]] for kind in ("words", "endings", "tags", "places")], -1)
    h = jax.nn.relu(slid(spared(x, first, DROP * 0.7) * there, w["first"]) + w["first_bias"]) * there
    h = spared(h, second, DROP)
    h = (jax.nn.relu(slid(h, w["second"]) + w["second_bias"]) + h) * there
    mean = (h * own).sum(1) / jnp.maximum(own.sum(1), 1)
    strongest = (h * own).max(1)
    query = (jnp.concatenate([strongest, mean], -1) @ w["query"]).reshape(-1, HEADS, SOUGHT)
    key, value = ((h @ w[name]).reshape(*h.shape[:2], HEADS, SOUGHT) for name in ("key", "value"))
    fits = jnp.einsum("rhd,rwhd->rhw", query, key) / SOUGHT**0.5
    shares = jax.nn.softmax(jnp.where(there[:, None, :, 0], fits, -1e9), -1)
    sought = jnp.einsum("rhw,rwhd->rhd", shares, value).reshape(len(h), -1)
    pooled = jnp.concatenate([strongest, mean, h.max(1), sought], -1)
    return spared(pooled, third, DROP) @ w["out"] + w["out_bias"]


def learned(rows: Rows, classes: list[str], seed: int = 0) -> Network:
    """A network fitted to these rows."""
    import jax
    import optax

    network = empty(rows, seed)
    codes, truth = network.codes(rows), np.array([CLASSES.index(c) for c in classes])
    steps = EPOCHS * (len(rows) // BATCH)
    rule = optax.adamw(optax.cosine_decay_schedule(RATE, steps), weight_decay=DECAY)

    def loss(w: Any, some: Any, y: Any, key: Any) -> Any:
        wanted = optax.smooth_labels(jax.nn.one_hot(y, len(CLASSES)), SMOOTH)
        return optax.softmax_cross_entropy(scores(w, some, key), wanted).mean()

    @jax.jit
    def step(w: Any, state: Any, some: Any, y: Any, key: Any) -> Any:
        change, state = rule.update(jax.grad(loss)(w, some, y, key), state, w)
        return optax.apply_updates(w, change), state

    w = network.weights
    state, key, chance = rule.init(w), jax.random.PRNGKey(seed), np.random.default_rng(seed)
    for _ in range(EPOCHS):
        mixed = chance.permutation(len(rows))
        for i in range(0, len(rows) - BATCH + 1, BATCH):
            some = mixed[i : i + BATCH]
            key, now = jax.random.split(key)
            w, state = step(w, state, {k: c[some] for k, c in codes.items()}, truth[some], now)
    network.weights = {name: np.asarray(array) for name, array in w.items()}
    return network


def without_writers(job: tuple[list[tuple[str, Rows, list[str]]], set[str], Path | None]) -> Network:
    """The network learned without these writers, kept in the folder for each of them."""
    data, left_out, folder = job
    network = learned(
        [row for w, rows, _ in data if w not in left_out for row in rows],
        [c for w, _, classes in data if w not in left_out for c in classes],
    )
    material.keep_for(left_out, folder, "order", lambda path: order.write(path, network))
    return network


def main(folds_only: bool, folds: Path | None) -> None:
    data = gathered(folds)
    writers = sorted({w for w, _, _ in data if w})
    parts = [set(writers[i :: material.FOLDS]) for i in range(material.FOLDS)]
    jobs = [(data, part, folds) for part in parts] + ([] if folds_only else [(data, set[str](), None)])
    with ProcessPoolExecutor(AT_ONCE, get_context("spawn")) as pool:
        networks = list(pool.map(without_writers, jobs))
    right = whole = 0
    for part, network in zip(parts, networks, strict=False):
        rows = [row for w, some, _ in data if w in part for row in some]
        truth = [c for w, _, classes in data if w in part for c in classes]
        told = [max(shares, key=lambda k: shares[k]) for shares in network.shares(rows)]
        right += sum(a == b for a, b in zip(told, truth, strict=True))
        whole += len(truth)
    print(f"by the order of words alone, writers left out in turn: accuracy {right / whole:.3f} of {whole}")
    if not folds_only:
        order.write(FOLDER / "order.npz", networks[-1])
        print(f"{(FOLDER / 'order.npz').stat().st_size // 1024} kB")


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--")), None)
    main("--folds-only" in sys.argv, where)
