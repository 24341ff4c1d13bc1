"""Being told to stop: Ctrl-C, a polite request to end, a closed terminal. All are taken alike."""

import signal
import time
from types import FrameType

REQUESTS = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]

_TIDYING_S = 2.0
"""A second request within this time is not heeded: what the first one began must not stay half done."""

_first: list[float] = []


def listen() -> None:
    """Take requests to stop from now on; those that are ignored already (by ``nohup``) stay so."""
    for one in REQUESTS:
        if signal.getsignal(one) is not signal.SIG_IGN:
            signal.signal(one, _stop)


def look() -> None:
    """Stop now if that has been asked for.

    The interruption itself can be lost where it falls into a library's callback; whoever works for long
    looks here now and then.
    """
    if _first:
        raise KeyboardInterrupt


def _stop(_number: int, _frame: FrameType | None) -> None:
    now = time.monotonic()
    if not _first:
        _first.append(now)
    elif now - _first[0] < _TIDYING_S:
        return
    raise KeyboardInterrupt
