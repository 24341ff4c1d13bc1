"""The built-in ear's network: sound to frames, and frames with the words so far to the next piece.

The English ``tiny-en`` model inside the ``moonshine-voice==0.1.0`` wheel (MIT), run by ``onnxruntime``
without importing that package. Shapes, read off the two files: the encoder takes samples (1, n) and
gives frames (1, t, 288), t about n/384; the decoder takes pieces (b, 1) and, once a first call has made
it, a cache of 6 layers x keys and values (b, 8, pieces so far, 36) and (1, 8, t, 36). Its
``encoder_attention_mask`` counts samples, not frames. Mask, frames and their keys and values need not be
repeated for each of the b readings of a beam: the decoder spreads a first dimension of 1 over them all.
"""

import importlib.util
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from saycheck.errors import EarError
from saycheck.hearing.ear import Samples
from saycheck.hearing.tokens import START, Tokens

Floats = NDArray[np.float32]

_PACKAGE = "moonshine_voice"
_FILES = ("encoder_model.ort", "decoder_model_merged.ort", "tokenizer.bin")
_HEADS, _WIDTH = 8, 36


def model_folder() -> Path:
    """The folder of the model inside the installed wheel.

    Raises:
        EarError: the package is missing, or is a release that does not carry the model.
    """
    spec = importlib.util.find_spec(_PACKAGE)
    if spec is None or not spec.submodule_search_locations:
        raise EarError(
            "the built-in ear needs the package moonshine-voice, which is not installed;"
            " run: pip install moonshine-voice==0.1.0"
        )
    folder = Path(next(iter(spec.submodule_search_locations))) / "assets" / "tiny-en"
    missing = [name for name in _FILES if not (folder / name).is_file()]
    if missing:
        raise EarError(
            f"the installed moonshine-voice carries no English model ({folder} lacks {', '.join(missing)});"
            " run: pip install moonshine-voice==0.1.0"
        )
    return folder


@dataclass
class Heard:
    """Sound as the decoder sees it: the frames, and the keys and values made from them."""

    frames: Floats
    mask: NDArray[np.int64]
    frame_cache: dict[str, Floats]
    piece_cache: dict[str, Floats]


class SpeechModel:
    """Encoder and decoder sessions, each on ``threads`` threads; about 60 MB of memory."""

    def __init__(self, folder: Path | None = None, threads: int = 1) -> None:
        """Load the model.

        Raises:
            EarError: onnxruntime is missing, or a file of the model cannot be loaded.
        """
        folder = folder or model_folder()
        self.tokens = Tokens.read(folder / "tokenizer.bin")
        self._encoder = _session(folder / "encoder_model.ort", threads)
        self._decoder = _session(folder / "decoder_model_merged.ort", threads)
        self._giving_back = _giving_back()
        past = [i.name for i in self._decoder.get_inputs() if i.name.startswith("past_key_values")]
        self._frame_keys = [name for name in past if ".encoder." in name]
        self._piece_keys = [name for name in past if ".decoder." in name]

    def begin(self, samples: Samples, given: Sequence[int] = ()) -> tuple[Heard, Floats]:
        """Encode ``samples`` (16 kHz); return what the decoder needs and the first scores (1, pieces).

        ``given`` are pieces known to be said at the start of the sound; the scores are those after them.
        """
        sound = np.ascontiguousarray(samples, np.float32)[None]
        mask = np.ones(sound.shape, np.int64)
        (frames,) = self._encoder.run(
            None, {"input_values": sound, "attention_mask": mask}, self._giving_back
        )
        heard = Heard(frames, mask, {}, {})
        empty = np.zeros((1, _HEADS, 0, _WIDTH), np.float32)
        keys = self._frame_keys + self._piece_keys
        scores, *present = self._decoder.run(
            ["logits", *map(_present, keys)],
            self._feed(heard, np.array([[START, *given]]), False) | dict.fromkeys(keys, empty),
        )
        made = dict(zip(keys, present, strict=True))
        heard.frame_cache = {key: made[key] for key in self._frame_keys}
        heard.piece_cache = {key: made[key] for key in self._piece_keys}
        return heard, scores[:, -1]

    def step(self, heard: Heard, pieces: list[int], parents: list[int]) -> Floats:
        """Write one more piece on each reading of a beam; return the scores (readings, all pieces).

        ``parents[i]`` says which of the former readings number ``i`` goes on from.
        """
        before = len(next(iter(heard.piece_cache.values())))
        if parents != list(range(before)):
            heard.piece_cache = {key: cache[parents] for key, cache in heard.piece_cache.items()}
        scores, *present = self._decoder.run(
            ["logits", *map(_present, self._piece_keys)],
            self._feed(heard, np.array(pieces)[:, None], True) | heard.frame_cache | heard.piece_cache,
        )
        heard.piece_cache = dict(zip(self._piece_keys, present, strict=True))
        return np.asarray(scores[:, -1], np.float32)

    def _feed(self, heard: Heard, pieces: NDArray[np.int64], cached: bool) -> dict[str, Any]:
        return {
            "encoder_attention_mask": heard.mask,
            "input_ids": pieces,
            "encoder_hidden_states": heard.frames,
            "use_cache_branch": np.array([cached]),
        }


def _present(past: str) -> str:
    return past.replace("past_key_values", "present")


def _giving_back() -> Any:
    """Options of a run after which the session gives its memory back: else it keeps 170 MB for the longest phrase."""
    from onnxruntime import RunOptions

    options = RunOptions()
    options.add_run_config_entry("memory.enable_memory_arena_shrinkage", "cpu:0")
    return options


def _session(path: Path, threads: int) -> Any:
    try:
        import onnxruntime
    except ImportError as error:
        raise EarError("the built-in ear needs onnxruntime; run: pip install onnxruntime") from error
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = threads
    options.inter_op_num_threads = 1
    options.log_severity_level = 4
    try:
        return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])
    except Exception as error:  # onnxruntime raises its own undocumented kinds
        raise EarError(
            f"the built-in ear cannot load {path}; install moonshine-voice==0.1.0 again"
        ) from error
