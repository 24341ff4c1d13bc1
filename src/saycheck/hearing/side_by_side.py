"""Ears side by side: each in a process of its own, so that two ears use two cores.

Threads would not do: pocketsphinx holds Python's lock for as long as it decodes (measured with
pocketsphinx 5.1.1: a second thread counted to 6,200 a second beside it and to 4,300,000 alone).
"""

import multiprocessing
import os
import queue
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from multiprocessing.process import BaseProcess
from types import TracebackType
from typing import Any, Self

from saycheck.errors import EarError, SaycheckError
from saycheck.hearing.ear import Ear, Phrase
from saycheck.models.hearing import Hearing

AHEAD = 3
"""Phrases given to an ear before its first answer is waited for; with half a minute each, 6 MB an ear."""

_PATIENCE_S = 1.0
"""How often the two sides look whether the other still lives."""

_SIGNALS = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]

OpenEar = Callable[[], Ear]
"""Builds an ear; must be picklable, for it is called in the ear's own process."""


class EarProcess:
    """One ear in its own process; used as a context. Phrases go in and hearings come out in their order.

    Raises:
        SaycheckError: what opening or hearing raised there; EarError when the process was ended from outside.
    """

    def __init__(self, name: str, open_ear: OpenEar) -> None:
        self.name = name
        self._open_ear = open_ear
        self._process: BaseProcess | None = None

    def __enter__(self) -> Self:
        try:
            with _undisturbed():
                self._start()
        except BaseException:
            self._end()
            raise
        return self

    @property
    def pid(self) -> int | None:
        """The number of its process, None before it is started."""
        return self._process.pid if self._process else None

    def _start(self) -> None:
        context = multiprocessing.get_context("spawn")
        self._phrases: multiprocessing.Queue[Phrase] = context.Queue()
        self._answers: multiprocessing.Queue[Hearing | SaycheckError] = context.Queue()
        self._process = context.Process(
            target=_listen, args=(self._open_ear, self._phrases, self._answers, os.getpid()), daemon=True
        )
        self._process.start()

    def give(self, phrase: Phrase) -> None:
        """Hand over a phrase; returns at once."""
        self._phrases.put(phrase)

    def answer(self) -> Hearing:
        """Wait for what was heard in the oldest phrase not yet answered."""
        while True:
            try:
                answer = self._answers.get(timeout=_PATIENCE_S)
            except queue.Empty:
                process = self._process
                if process is not None and process.is_alive():
                    continue
                raise EarError(
                    f"the {self.name} ear was ended from outside (status {process and process.exitcode}); "
                    "free some memory and start again"
                ) from None
            if isinstance(answer, SaycheckError):
                raise answer
            return answer

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._end()

    def _end(self) -> None:
        if self._process is None or self._process.pid is None:
            return
        self._process.kill()  # it holds nothing that needs tidying, and may still be starting
        self._process.join()
        for line in (self._phrases, self._answers):
            line.cancel_join_thread()
            line.close()


def heard_by_all(
    phrases: Iterable[Phrase], ears: Sequence[EarProcess]
) -> Iterator[tuple[Phrase, list[Hearing]]]:
    """Each phrase with what every ear heard in it, in order of the sound; a few are in work at once."""
    waiting: deque[Phrase] = deque()
    for phrase in phrases:
        waiting.append(phrase)
        for ear in ears:
            ear.give(phrase)
        if len(waiting) >= AHEAD:
            yield waiting.popleft(), [ear.answer() for ear in ears]
    while waiting:
        yield waiting.popleft(), [ear.answer() for ear in ears]


def _listen(open_ear: OpenEar, phrases: Any, answers: Any, parent: int) -> None:
    """What runs in the ear's process until it is ended or its parent is gone."""
    ear: Ear | None = None
    while os.getppid() == parent:
        with suppress(queue.Empty):
            phrase = phrases.get(timeout=_PATIENCE_S)
            try:
                ear = ear or open_ear()
                answers.put(ear.hear(phrase))
            except SaycheckError as error:
                answers.put(error)
            except Exception as error:  # an engine may throw anything; the parent must hear of it
                answers.put(
                    EarError(f"an ear failed ({type(error).__name__}: {error}); try another with --ear")
                )


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Let signals wait while a process is started, lest it is started by half.

    The mask passes on to the process, so that Ctrl-C never reaches it: that is for its parent, which then
    ends it. The mask alone would not do here, since libraries' threads take signals too.
    """
    if threading.current_thread() is not threading.main_thread() or not hasattr(signal, "pthread_sigmask"):
        yield
        return
    came: list[int] = []
    before = {one: signal.signal(one, lambda number, _: came.append(number)) for one in _SIGNALS}
    from multiprocessing import resource_tracker

    resource_tracker.ensure_running()  # Python's own helper, which lets the signals through when it starts
    mask = signal.pthread_sigmask(signal.SIG_BLOCK, _SIGNALS)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, mask)
        for one, handler in before.items():
            signal.signal(one, handler or signal.SIG_DFL)
        for number in came[:1]:
            signal.raise_signal(number)
