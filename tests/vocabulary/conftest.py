"""A small vocabulary of its own, so that these tests do not move when the shipped words do."""

from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from saycheck.vocabulary import load as loading

PARTS = """\
[[part]]
name = "tyre"
heads = ["tire"]
components = ["valve stem"]
checks = ["worn", "leaking"]
measures = [{ attribute = "depth", unit = "mm", wear = true }, { attribute = "pressure", unit = "bar" }]
caution = "Stand aside."

[[part]]
name = "valve stem"
checks = ["leaking"]

[[part]]
name = "cylinder"
heads = ["Ram", "boom  ram"]
checks = ["leaking"]
"""

CHECKS = """\
[[check]]
name = "leaking"
conditions = ["leak", "dry"]
good = "dry"

[[check]]
name = "worn"
conditions = ["worn"]
good = "within limit"

[[check]]
name = "thin"
conditions = ["worn", "bald"]
good = "thick"
hurts = true
urgency = "before work"
"""

MACHINE = """\
name = "toy loader"
standard = "trade name"
sayings = ["Little Digger"]

[[zone]]
name = "front"
sayings = ["nose"]

[[zone.part]]
name = "bucket"
checks = ["worn"]

[[zone.part]]
name = "mirror"
sided = true
checks = ["leaking"]

[[zone]]
name = "left side"
side = "left"

[[zone.part]]
name = "front tyre"
like = "tyre"
kinds = ["front"]
sided = true

[[zone.part]]
name = "hydraulic tank"
checks = ["leaking"]

[[zone.part]]
name = "boom cylinder"
like = "cylinder"
kinds = ["boom", "hoe boom"]
sayings = ["Big Ram"]
sided = true
option = "boom"

[[zone]]
name = "right side"
side = "right"
mirror = "left side"

[[zone.part]]
name = "fuel tank"
checks = ["leaking"]
"""

Write = Callable[..., Path]


@pytest.fixture
def shop(tmp_path: Path) -> Write:
    """Writes a folder of a shop's own: keywords are ``parts``, ``checks`` and ``machine`` (toy-loader)."""

    def write(folder: str = "shop", kind: str = "toy-loader", **texts: str) -> Path:
        root = tmp_path / folder
        names = {
            "parts": "shared/parts.toml",
            "checks": "shared/checks.toml",
            "machine": f"machines/{kind}.toml",
        }
        root.mkdir(exist_ok=True)
        for key, text in texts.items():
            path = root / names[key]
            path.parent.mkdir(exist_ok=True)
            path.write_text(dedent(text), encoding="utf-8")
        return root

    return write


@pytest.fixture
def toy(shop: Write, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small vocabulary in the place of the shipped one."""
    root = shop("vocab", parts=PARTS, checks=CHECKS, machine=MACHINE)
    monkeypatch.setattr(loading, "shipped_folder", lambda: root)
    return root
