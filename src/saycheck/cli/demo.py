"""``saycheck demo``: hear the recording that comes with saycheck."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.hear import hear
from saycheck.cli.options import Ears

RECORDING = "quarry-loader.ogg"
MACHINE = "wheel-loader"


def demo(
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FOLDER", help="Where the walk goes.")
    ] = None,
) -> None:
    """Hear the demo recording, a walk round a wheel loader, and show what comes out."""
    hear(recording(), MACHINE, out=out, ear=Ears.both)


def recording() -> Path:
    """The demo recording: inside the package, or in ``demo_audio/`` of a checkout."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "demo_audio"
    return (inside if inside.is_dir() else package.parents[1] / "demo_audio") / RECORDING
