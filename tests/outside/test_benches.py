"""Denials and spoken quantities against annotated sets, through the benches that print the figures."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

BENCH = Path(__file__).resolve().parents[2] / "bench"


def bench(name: str) -> dict[str, dict[str, Any]]:
    """What a bench prints as JSON."""
    run = subprocess.run(
        [sys.executable, BENCH / name, "--json"], check=True, capture_output=True, text=True, timeout=300
    )
    found: dict[str, dict[str, Any]] = json.loads(run.stdout)
    return found


def test_denials(outside: Callable[[str], str]) -> None:
    """Source: NegEx annotations (Chapman et al. 2001), 1,200 hospital sentences; F1 0.95 or better."""
    outside("negex-annotations.txt")
    assert bench("denial.py")["saycheck"]["F1"] >= 0.95


def test_quantities(outside: Callable[[str], str]) -> None:
    """Source: NeMo's spoken measures and quantulum3's test sentences; value and unit right in 0.97."""
    outside("nemo-itn-measure.txt")
    outside("quantulum3-quantities.json")
    found = [figures["saycheck"] for figures in bench("quantities.py").values()]
    assert sum(one["right"] for one in found) / sum(one["of"] for one in found) >= 0.97
    assert sum(one["extra"] for one in found) == 0
