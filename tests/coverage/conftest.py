"""A small loader of its own over the shipped parts, and findings and walks made by hand."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from saycheck.models.walk import Evidence, Finding, Machine, MadeBy, Source, Transcript, Walk
from saycheck.vocabulary.compiled import Vocabulary
from saycheck.vocabulary.load import load

PARTS = {
    "front": [
        "bucket",
        "cutting edge",
        "tilt cylinder: like=cylinder kinds=tilt",
        "loader hoses: like=hydraulic hose kinds=loader",
        "coupler: option=quick coupler",
        "coupler lock: option=quick coupler",
    ],
    "left side": [
        "front tyre: like=tyre kinds=front sided",
        "front wheel nuts: like=wheel nut kinds=front sided",
        "lift cylinder: like=cylinder kinds=lift sided",
        "articulation joint",
        "rear tyre: like=tyre kinds=rear sided",
        "rear wheel nuts: like=wheel nut kinds=rear sided",
    ],
    "rear": ["counterweight", "rear hoses: like=hydraulic hose kinds=rear"],
    "right side": ["hydraulic tank"],
    "engine bay": ["engine", "fan belt: like=belt", "fuel filter"],
    "fluids": ["engine oil", "coolant", "hydraulic oil"],
    "cab": [
        "seat belt",
        "horn",
        "mirrors: like=mirror sided",
        "cab glass: like=glass",
        "rear screen: like=glass kinds=rear",
        "hour meter",
        "radio: option=radio",
    ],
    "lights": ["headlight: sided", "work lights: like=work light", "beacon"],
    "safety equipment": ["fire extinguisher", "decals: like=decal"],
}


def machine_file() -> str:
    """The toy loader as a vocabulary file."""
    out = ['name = "toy loader"', 'standard = "trade name"']
    for zone, parts in PARTS.items():
        out += ["[[zone]]", f'name = "{zone}"']
        if zone.endswith(" side"):
            out.append(f'side = "{zone.removesuffix(" side")}"')
        if zone == "right side":
            out.append('mirror = "left side"')
        if zone == "cab":
            out.append('sayings = ["in the cab"]')
        for part in parts:
            name, _, rest = part.partition(": ")
            keys = dict(_keys(rest))
            out += ["[[zone.part]]", f'name = "{name}"', f'like = "{keys.get("like", name)}"']
            out += [f'kinds = ["{keys["kinds"]}"]'] if "kinds" in keys else []
            out += [f'option = "{keys["option"]}"'] if "option" in keys else []
            out += ["sided = true"] if "sided" in keys else []
    return "\n".join(out) + "\n"


def _keys(text: str) -> list[tuple[str, str]]:
    """ "like=work light sided" as pairs."""
    pairs: list[tuple[str, str]] = []
    for word in text.split():
        key, mark, value = word.partition("=")
        if mark or word == "sided":
            pairs.append((key, value))
        else:
            pairs[-1] = (pairs[-1][0], f"{pairs[-1][1]} {word}")
    return pairs


@pytest.fixture(scope="session")
def toy(tmp_path_factory: pytest.TempPathFactory) -> Vocabulary:
    """The vocabulary of the toy loader."""
    folder: Path = tmp_path_factory.mktemp("shop")
    (folder / "machines").mkdir()
    (folder / "machines" / "toy-loader.toml").write_text(machine_file(), encoding="utf-8")
    return load("toy-loader", [folder])


Say = Callable[..., Finding]


@pytest.fixture
def say(toy: Vocabulary) -> Say:
    """Makes findings: ids, places in the text and zones follow from the order in which they are made."""
    zones = {line.part: line.zone for line in reversed(toy.lines)}
    count = iter(range(1, 1000))

    def finding(part: str, state: str = "good", **more: object) -> Finding:
        number = next(count)
        line = more.pop("line", part if part in zones else None)
        words = {
            "zone": zones.get(str(line), "front"),
            "side": "none",
            "condition": "good" if state == "good" else state,
            "heard_as": part,
            "evidence": [Evidence(char_start=10 * number, char_end=10 * number + 9)],
            **more,
        }
        return Finding.model_validate(
            {"id": f"f{number:03}", "part": part, "state": state, "line": line, "check": "any"}
            | {"confidence": 0.9}
            | words
        )

    return finding


Walked = Callable[..., Walk]


@pytest.fixture
def walked(toy: Vocabulary) -> Walked:
    """Makes a walk of findings, with any other field given by name."""

    def walk(findings: Sequence[Finding] = (), **more: object) -> Walk:
        fields = {
            "schema": "saycheck.walk/1",
            "id": "walk",
            "machine": Machine(kind=toy.kind, unit="number four", hours=100.0),
            "source": Source(name="walk.txt", sha256=""),
            "transcript": Transcript(text="", words=[]),
            "findings": list(findings),
            "made_by": MadeBy(version="0", vocabulary=toy.version),
        }
        return Walk.model_validate(fields | more)

    return walk
