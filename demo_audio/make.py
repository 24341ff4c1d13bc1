"""Make the demo recordings anew from their texts.

    python demo_audio/make.py             all of them
    python demo_audio/make.py yard-backhoe

Each ``NAME.json`` beside this file holds what is said and what any good mechanic would agree it says (the
format of labelled narrations); this script speaks it with the synthetic voices of Debian packages
(``bench/speak.py`` names them) and writes ``NAME.ogg``. The quarry, the yard and the farm are invented.
"""

import argparse
import json
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "bench"))

from speak import SAMPLE_RATE, Samples, speak, with_noise  # noqa: E402

BITS_A_SECOND = 40_000
"""Opus at this rate sounds like the original and keeps three minutes under a megabyte."""


@dataclass(frozen=True)
class Scene:
    """Who speaks, paragraph by paragraph in turn, and how far below them (dB) the engine runs."""

    voices: tuple[str, ...]
    engine_db: float | None = None


SCENES = {
    "quarry-loader": Scene(("slt-hts",)),
    "yard-backhoe": Scene(("rms",), engine_db=12.0),
    "training-loader": Scene(("slt-hts", "rms")),
}


def sound(name: str) -> Samples:
    """Return a demo recording as samples at 16 kHz."""
    scene = SCENES[name]
    text = json.loads((HERE / f"{name}.json").read_text(encoding="utf-8"))["text"]
    if len(scene.voices) == 1:
        said = speak(text, scene.voices[0])
    else:
        turns = text.split("\n\n")
        said = np.concatenate(
            [speak(turn, scene.voices[n % len(scene.voices)]) for n, turn in enumerate(turns)]
        )
    return said if scene.engine_db is None else with_noise(said, scene.engine_db, "engine")


def write_ogg(path: Path, samples: Samples) -> None:
    """Write Opus in Ogg, mono, the same bytes each time."""
    import av

    # The marks of time and chance that a stream usually bears would change the file at every making.
    with av.open(str(path), "w", format="ogg", options={"fflags": "+bitexact"}) as file:
        track = file.add_stream("libopus", rate=SAMPLE_RATE, layout="mono")
        track.bit_rate = BITS_A_SECOND
        track.codec_context.format = "s16"
        whole = np.clip(np.rint(samples * 32768), -32768, 32767).astype(np.int16)
        frame = av.AudioFrame.from_ndarray(whole[None], format="s16", layout="mono")
        frame.sample_rate = SAMPLE_RATE
        file.mux(track.encode(frame))
        file.mux(track.encode(None))


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument(
        "names", nargs="*", metavar="NAME", help=f"of {', '.join(SCENES)}; all if none is given"
    )
    names = parser.parse_args().names or list(SCENES)
    unknown = [name for name in names if name not in SCENES]
    if unknown:
        parser.error(f"there is no demo recording '{unknown[0]}'; there are {', '.join(SCENES)}")
    for name in names:
        samples = sound(name)
        path = HERE / f"{name}.ogg"
        write_ogg(path, samples)
        print(
            f"{path.name}: {len(samples) / SAMPLE_RATE:.0f} s, {path.stat().st_size / 1000:.0f} kB",
            file=sys.stderr,
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
