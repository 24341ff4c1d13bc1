"""Pictures of the figures of ``hear_figures.py``; not a command. Needs matplotlib, as ``train_confidence.py`` does."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from hearings import is_noise, order

STYLES = {"plain": ":", "general": "--", "trade": "-.", "either": (0, (1, 1)), "fused": "-"}


def draw(
    found: Mapping[tuple[str, str], Mapping[str, Any]],
    steps: Sequence[tuple[float, float, int]],
    folder: Path,
) -> None:
    """Draw ``heard.svg``, statements word-perfect by noise level, and ``sure.svg``, the reliability curve."""
    import matplotlib

    matplotlib.use("svg")
    matplotlib.rcParams["svg.hashsalt"] = "saycheck"  # the same picture for the same figures
    folder.mkdir(parents=True, exist_ok=True)
    _save(_levels(found), folder / "heard.svg")
    _save(_reliability(steps), folder / "sure.svg")


def _levels(found: Mapping[tuple[str, str], Mapping[str, Any]]) -> Any:
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6, 3.4), layout="constrained")
    axes = figure.subplots()
    levels = sorted({level for level, _ in found}, key=order)
    for ear, style in STYLES.items():
        shares = [found.get((level, ear), {}).get("perfect") for level in levels]
        points = [(at, one.right / one.of) for at, one in enumerate(shares) if one and one.of]
        if points:
            axes.plot(*zip(*points, strict=True), linestyle=style, color="black", marker=".", label=ear)
    axes.set_xticks(range(len(levels)), [f"{one} dB" if is_noise(one) else one for one in levels])
    axes.set_ylim(0, 1)
    axes.set_ylabel("statements heard word-perfect")
    axes.set_xlabel("speech over engine noise")
    axes.legend(frameon=False)
    return figure


def _reliability(steps: Sequence[tuple[float, float, int]]) -> Any:
    from matplotlib.figure import Figure

    figure = Figure(figsize=(3.8, 3.6), layout="constrained")
    axes = figure.subplots()
    axes.plot([0, 1], [0, 1], color="0.7")
    axes.plot([said for said, _, _ in steps], [right for _, right, _ in steps], color="black", marker=".")
    for said, right, count in steps:
        axes.annotate(str(count), (said, right), textcoords="offset points", xytext=(4, -9), fontsize=7)
    axes.set_xlabel("confidence of a fused word")
    axes.set_ylabel("share right (how many beside it)")
    axes.set_xlim(0, 1)
    axes.set_ylim(0, 1)
    return figure


def _save(figure: Any, path: Path) -> None:
    figure.savefig(path, metadata={"Date": None, "Creator": None})
