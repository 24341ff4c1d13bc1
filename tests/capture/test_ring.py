"""The ring between the sound card and the writer."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from saycheck.capture.ring import Ring


@given(st.lists(st.tuples(st.integers(0, 40), st.booleans()), max_size=30), st.integers(1, 2))
def test_what_goes_in_comes_out_in_order(steps: list[tuple[int, bool]], channels: int) -> None:
    """Against a plain list: all frames that had room, once and in order; the others counted."""
    ring = Ring(50, channels)
    waiting: list[int] = []
    came, lost = 0, 0
    for count, take in steps:
        frames = np.repeat(np.arange(came, came + count, dtype=np.int16)[:, None], channels, axis=1)
        came += count
        room = 50 - len(waiting)
        waiting += frames[:room, 0].tolist()
        lost += max(count - room, 0)
        ring.put(frames)
        if take:
            taken = ring.take()
            assert (len(waiting), channels) == taken.shape
            assert waiting == taken[:, -1].tolist()
            waiting = []
    assert (lost, came - lost) == (ring.lost, ring.put_so_far)
