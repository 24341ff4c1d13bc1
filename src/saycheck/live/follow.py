"""Hearing follows the recording: quickly, utterance by utterance, and behind that with every care.

Both read the growing file, each at its own pace, so that sound is never dropped however slow the computer
is. What they hear goes into one line of news that whoever shows it takes from.
"""

import queue
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from saycheck.capture.aside import Aside
from saycheck.capture.measures import Meter
from saycheck.capture.phrases import phrases
from saycheck.capture.recording import following
from saycheck.capture.voice import SURE, WINDOW, windows
from saycheck.errors import SaycheckError
from saycheck.hearing.ear import SAMPLE_RATE, Phrase, Samples
from saycheck.hearing.side_by_side import EarProcess
from saycheck.live.ears import give_way
from saycheck.live.utterances import Utterance, Utterances
from saycheck.models.hearing import Hearing

_CLICK = SAMPLE_RATE // 20

AHEAD = 3
"""Phrases given to an ear before its first answer is waited for."""


@dataclass(frozen=True)
class Said:
    """An utterance, quickly heard: its words, and the words of the command that it is, if it is one."""

    utterance: Utterance
    heard: Hearing
    command: Hearing


@dataclass(frozen=True)
class Drafted:
    """What has been heard so far of an utterance that may go on."""

    utterance: Utterance
    heard: Hearing


@dataclass(frozen=True)
class Settled:
    """A phrase as all ears heard it; what was heard quickly up to its end no longer counts."""

    end_s: float
    hearings: list[Hearing]


@dataclass(frozen=True)
class Failed:
    """A follower had to give up."""

    error: SaycheckError


News = Said | Drafted | Settled | Failed


class Follower(threading.Thread):
    """Gives stretches of sound to ears and tells what they heard, one giving and one answering thread."""

    def __init__(self, news: "queue.SimpleQueue[News]", ears: Sequence[EarProcess], name: str) -> None:
        super().__init__(name=name, daemon=True)
        self.news = news
        self.ears = ears
        self.heard_s = 0.0
        """Up to where the recording has been heard, seconds."""
        self._room = threading.Semaphore(AHEAD)
        self._given: queue.SimpleQueue[tuple[object, bool] | SaycheckError | None] = queue.SimpleQueue()
        self._gave = self._told = 0

    def run(self) -> None:
        """Follow to the end of the recording."""
        giving = threading.Thread(target=self._give_all, name=f"{self.name}-gives", daemon=True)
        try:
            with ExitStack() as running:
                for ear in self.ears:
                    running.enter_context(ear)
                self.ready()
                giving.start()
                while (given := self._given.get()) is not None:
                    if isinstance(given, SaycheckError):
                        raise given
                    thing, anew = given
                    self.tell(thing, [ear.answer() for ear in self.ears] if anew else [])
                    self._told += 1
                    self._room.release()
        except SaycheckError as error:
            self.news.put(Failed(error))

    def _give_all(self) -> None:
        try:
            for thing, phrase in self.stretches():
                self._room.acquire()
                self._gave += 1
                if phrase is not None:
                    for ear in self.ears:
                        ear.give(phrase)
                self._given.put((thing, phrase is not None))
            self._given.put(None)
        except SaycheckError as error:
            self._given.put(error)

    @property
    def idle(self) -> bool:
        """Whether nothing is in work."""
        return self._gave == self._told

    def ready(self) -> None:
        """What is done when the ears run."""

    def stretches(self) -> Iterator[tuple[object, Phrase | None]]:
        """What is to be heard, one after another, and its sound; None where that has been heard before."""
        raise NotImplementedError

    def tell(self, thing: object, hearings: list[Hearing]) -> None:
        """Pass on what was heard; none where nothing was given."""
        raise NotImplementedError


class Quickly(Follower):
    """Hears utterances as they end; ``ears`` are a general ear, if any, and the ear for commands.

    Drafts of an utterance are heard when nothing else is to be done, so that they hold up nothing.
    ``listener`` is given every window of sound with its chance of speech, for levels and the like.
    """

    def __init__(
        self,
        path: Path,
        ended: Callable[[], bool],
        news: "queue.SimpleQueue[News]",
        ears: Sequence[EarProcess],
        listener: Callable[[Samples, float], None],
    ) -> None:
        super().__init__(news, ears, "quickly")
        self._path = path
        self._ended = ended
        self._listener = listener
        self._utterances = Utterances()
        self.taken_s = 0.0
        self.is_ready = False
        """Whether the ears have loaded; sound is kept before that too, and heard as soon as they have."""
        self._spoke_at = 0.0
        self._drafted: Phrase | None = None
        self._last: list[Hearing] = []

    @property
    def speaking(self) -> bool:
        """Whether someone speaks right now, or did a quarter of a second ago."""
        return time.monotonic() - self._spoke_at < 0.25 or self._utterances.speaking

    def ready(self) -> None:
        """Let the ears load before the first utterance."""
        _load(self.ears, SAMPLE_RATE)
        self.is_ready = True

    def stretches(self) -> Iterator[tuple[Utterance, Phrase | None]]:
        for window, chance in windows(following(self._path, self._ended)):
            self.taken_s += len(window) / SAMPLE_RATE
            if len(window) < WINDOW:
                break
            self._listener(window, chance)
            if chance >= SURE:
                self._spoke_at = time.monotonic()
            utterance = self._utterances.add(window, chance)
            if utterance is not None and (utterance.ended or self.idle):
                yield utterance, self._unheard(utterance)
        utterance = self._utterances.finish()
        if utterance is not None:
            yield utterance, self._unheard(utterance)

    def _unheard(self, utterance: Utterance) -> Phrase | None:
        """The sound of an utterance, None where its last draft was heard and is all of it."""
        if utterance.phrase is self._drafted:
            return None
        self._drafted = utterance.phrase
        return utterance.phrase

    def tell(self, thing: object, hearings: list[Hearing]) -> None:
        assert isinstance(thing, Utterance)
        self._last = hearings or self._last
        *general, command = self._last
        heard = general[0] if general else Hearing(ear="none", words=[])
        if thing.ended:
            self.heard_s = thing.ended_s
            self.news.put(Said(thing, heard, command))
        elif not command.words:
            self.news.put(Drafted(thing, heard))


class Carefully(Follower):
    """Hears whole phrases with the chosen ears, exactly as ``saycheck hear`` does; ``meter`` measures.

    What is measured waits beside the recording, on the disk.
    """

    def __init__(
        self,
        path: Path,
        ended: Callable[[], bool],
        news: "queue.SimpleQueue[News]",
        ears: Sequence[EarProcess],
    ) -> None:
        super().__init__(news, ears, "carefully")
        self._path = path
        self._ended = ended
        self.measured = Aside(path.parent)
        self.meter = Meter(self.measured)

    def behind_s(self, recorded_s: float) -> float:
        """How far behind what is being said; none while nothing is in work."""
        return 0.0 if self.idle else recorded_s - self.heard_s

    def ready(self) -> None:
        """Let the quick ears go first, and load before the first phrase; a click tells an ear nothing."""
        give_way(self.ears)
        _load(self.ears, _CLICK)

    def stretches(self) -> Iterator[tuple[Phrase, Phrase | None]]:
        for phrase in phrases(following(self._path, self._ended), self.meter.add):
            yield phrase, phrase

    def tell(self, thing: object, hearings: list[Hearing]) -> None:
        assert isinstance(thing, Phrase)
        self.heard_s = thing.end_s
        self.news.put(Settled(thing.end_s, hearings))


def _load(ears: Sequence[EarProcess], samples: int) -> None:
    """Let ears load by giving them so much silence, long before the recording begins."""
    from numpy import zeros

    for ear in ears:
        ear.give(Phrase(zeros(samples, "float32"), -1000.0))
    for ear in ears:
        ear.answer()
