"""Wishes at random, as an impatient person would have them; some cannot be met, which is part of it."""

import random

from saycheck.models.review import Standing
from saycheck.models.wishes import Number, Patch, Wish
from saycheck.vocabulary.compiled import Vocabulary

ACTIONS = [
    "accept",
    "change",
    "split",
    "merge",
    "drop",
    "add",
    "settle",
    "answer",
    "machine",
    "undo",
    "undo",
    "redo",
]


def wish(dice: random.Random, standing: Standing, vocabulary: Vocabulary) -> Wish:
    """Something that a person could ask for of a walk as it stands."""
    action = dice.choice(ACTIONS)
    ids = [one.id for one in [*standing.walk.findings, *standing.dropped]]
    few = dice.sample(ids, min(len(ids), 2 if action == "merge" else dice.choice([1, 1, 1, 3])))
    given: dict[str, object] = {"action": action, "who": dice.choice(["Ann", "Ben"]), "reason": "so it is"}
    if action in ("accept", "drop", "merge"):
        given["findings"] = few
    elif action == "change":
        given |= {"findings": few, "patches": [_patch(dice, vocabulary)]}
    elif action == "split":
        given |= {
            "findings": few[:1],
            "patches": [_patch(dice, vocabulary) for _ in range(dice.choice([2, 3]))],
        }
    elif action in ("add", "settle"):
        start = dice.randrange(len(standing.walk.transcript.text))
        given |= {"start": start, "end": start + dice.randrange(1, 60)}
        given |= {"patches": [_whole(dice, vocabulary)]} if action == "add" else {}
    elif action == "answer":
        given["question"] = dice.choice([one.id for one in standing.walk.questions] or ["none"])
    elif action == "machine":
        given |= {"unit": dice.choice(["Number Seven", "Big Bess"]), "hours": dice.randrange(9000)}
    return Wish.model_validate(given)


def _patch(dice: random.Random, vocabulary: Vocabulary) -> Patch:
    whole = _whole(dice, vocabulary)
    keep = dice.sample(["part", "zone", "side", "state", "condition", "measurements"], 2)
    return Patch.model_validate({name: getattr(whole, name) for name in keep})


def _whole(dice: random.Random, vocabulary: Vocabulary) -> Patch:
    return Patch(
        part=dice.choice([*(one.name for one in vocabulary.parts), "brass bell"]),
        zone=dice.choice([*(one.name for one in vocabulary.zones), "roof", None, None]),
        side=dice.choice(["left", "right", "both", "none"]),
        state=dice.choice(["good", "watch", "writeup", "hidden", "later"]),
        condition=dice.choice(["worn", "cracked", "good", "leaking"]),
        measurements=[Number(value=dice.randrange(1, 90), unit=dice.choice(["mm", "bar", ""]))],
    )
