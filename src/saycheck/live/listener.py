"""Listening to one walk: news of what was heard comes in, the view and the answers come out.

The same listener takes a live recording and one that was left unfinished; only its recorder differs.
"""

import pickle
import queue
import time
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from saycheck.capture.aside import Aside
from saycheck.capture.measures import Meter
from saycheck.capture.noise import passages
from saycheck.hearing.ear import Samples
from saycheck.hearing.hear import Fused, Page
from saycheck.hearing.joining import fuse_for
from saycheck.hearing.side_by_side import EarProcess
from saycheck.live.board import Board, last_of
from saycheck.live.commands import Command, command_of, lead_words, sayings
from saycheck.live.follow import Carefully, Drafted, Failed, News, Quickly, Said, Settled
from saycheck.live.handover import Voices
from saycheck.live.marked import Stretch
from saycheck.live.missing import Open
from saycheck.live.obey import Obedience, key_of, words_of
from saycheck.live.own import OwnVoice
from saycheck.live.running import Running
from saycheck.live.signal import Signal
from saycheck.live.utterances import Utterance
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.models.walk import Event, Finding, Transcript
from saycheck.vocabulary.compiled import Vocabulary

MISUNDERSTOOD_WORDS = 3
"""An utterance with fewer words is not worth a tone when nothing was made of it."""


@dataclass(frozen=True)
class Wishes:
    """How to listen: the lead word; whether to say what is open on leaving a zone."""

    lead: str
    zones_aloud: bool = False


class Listener:
    """Holds what is known of the walk while it goes on.

    ``say`` and ``tone`` are given what is to be said aloud and the names of tones, where someone sets them;
    ``note`` is given each event as it happens.
    """

    def __init__(
        self,
        vocabulary: Vocabulary,
        wishes: Wishes,
        note: Callable[[Event], None],
    ) -> None:
        self.vocabulary = vocabulary
        self.board = Board(vocabulary, wishes.zones_aloud, self.answer)
        self.view = self.board.view
        self.done = False
        self.failed: Failed | None = None
        self.events: list[Event] = []
        self.commands: list[Command] = []
        self.stretches: list[Stretch] = []
        self.delays_s: deque[float] = deque(maxlen=10_000)
        self.signal = Signal()
        self.say: Callable[[str], None] = _nobody
        self.tone: Callable[[str], None] = _nobody
        self._note = note
        self.lead = lead_words(wishes.lead)
        self._known = sayings(vocabulary)
        self._page = Page(fuse_for(vocabulary))
        self._heard = Aside()
        self.running = Running(vocabulary, self.lead)
        self._voices = Voices()
        self._news: queue.SimpleQueue[News] = queue.SimpleQueue()
        self.findings: list[Finding] = []
        self.corrected: list[Finding] = []
        self._obey = Obedience(self)
        self._own = OwnVoice()
        self._followers: list[Quickly | Carefully] = []

    def follow(
        self,
        path: Path,
        ended: Callable[[], bool],
        quick: Sequence[EarProcess],
        careful: Sequence[EarProcess],
    ) -> None:
        """Begin to hear a recording; ``quick`` ends with the ear for commands, ``careful`` is as for ``hear``."""
        self._heard = Aside(path.parent)
        self._quickly = Quickly(path, ended, self._news, quick, self.window)
        self._carefully = Carefully(path, ended, self._news, careful)
        self._followers = [self._quickly, self._carefully]
        for follower in self._followers:
            follower.start()
        self._warm_up()

    def _warm_up(self) -> None:
        """Load what reads words while the ears load too, lest the first finding wait for it."""
        said = [HeardWord(text=word, start_s=0.0, end_s=0.1, confidence=0.9) for word in ("bucket", "fine")]
        first = Running(self.vocabulary, self.lead)
        first.said(said)
        first.findings()
        self._page.fused([Hearing(ear=name, words=said) for name in ("builtin", "trade")])
        self.look()

    @property
    def speaking(self) -> bool:
        return self._quickly.speaking

    @property
    def last(self) -> Finding | None:
        """What was found last."""
        return last_of(self.findings)

    @property
    def over(self) -> bool:
        """Whether all of the recording has been heard."""
        return self._news.empty() and not any(follower.is_alive() for follower in self._followers)

    @property
    def heard_s(self) -> float:
        """Up to where it has been heard with every care, seconds."""
        return self._carefully.heard_s

    def window(self, window: Samples, chance: float) -> None:
        """Take a window of sound for the level and the signal."""
        self.signal.add(window, chance)

    def turn(self, recorded_s: float) -> None:
        """Take all news in and bring the view up to date."""
        began = time.monotonic()
        while not self._news.empty():
            news = self._news.get()
            if isinstance(news, Said):
                self._said(news)
                self.look()
                self.delays_s.append(recorded_s + time.monotonic() - began - news.utterance.ended_s)
            elif isinstance(news, Drafted):
                self._drafted(news)
            elif isinstance(news, Settled):
                self._settled(news)
                self.look()
            else:
                self.failed = news
        self._obey.think_over(recorded_s, self.speaking)
        self._levels(recorded_s)
        self.board.grow_old(recorded_s)

    def own_voice_begins(self, at_s: float, text: str) -> float:
        """Remember that saycheck itself says a text from now on; return since when it may be heard."""
        return self._own.begins(at_s, text)

    def own_voice(self, start_s: float, end_s: float, text: str) -> None:
        """Remember that saycheck itself said a text here."""
        self._own.ended(start_s, end_s, text)
        self.mark(Stretch(start_s, end_s, "talk", "said by saycheck itself", text))
        self.happened(Event(kind="said", start_s=start_s, end_s=end_s, text=text))

    def gap(self, at_s: float, why: str) -> None:
        """Remember that sound is missing here."""
        self.happened(Event(kind="gap", start_s=at_s, end_s=at_s, text=why))
        self.tell(why)

    def transcript(self) -> Transcript:
        """Everything heard, once it is over."""
        for row in self._heard.rows():
            fused: Fused = pickle.loads(row)
            self._page.take(fused)
        return self._page.transcript(passages(self.meter.measures()))

    @property
    def meter(self) -> Meter:
        return self._carefully.meter

    def close(self) -> None:
        """Write down a pause that nobody ended."""
        self._obey.go_on(max(self._carefully.heard_s, self._quickly.heard_s))

    def forget(self) -> None:
        """Let go of what was put aside, once it is in the walk."""
        self._heard.close()
        self._carefully.measured.close()

    # what was heard

    def _said(self, said: Said) -> None:
        utterance = said.utterance
        self.view.draft = ""
        own = self._own.heard(utterance.began_s, [word.text for word in said.heard.words])
        if not own:
            self._own.spoken(utterance.phrase.end_s)
            self._listen_who(utterance)
        if said.command.words:
            words = [word.text for word in said.command.words]
            start_s, end_s = said.command.words[0].start_s, utterance.phrase.end_s
            command = command_of(words, self.lead, self._known, start_s, end_s)
            if command is not None:
                self._obey(command, " ".join(word.text for word in said.heard.words))
                return
        if own or _stray(said.heard):
            return
        self._obey.talk(utterance.began_s)
        if self._obey.paused:
            return
        self.running.said(said.heard.words)
        text = " ".join(word.text for word in said.heard.words)
        self.view.quote = text or self.view.quote
        before = {key_of(one) for one in self.findings}
        self.findings = self.running.findings()
        if any(key_of(one) not in before for one in self.findings):
            self.tone("heard")
        elif len(said.heard.words) >= MISUNDERSTOOD_WORDS and self.signal.trouble:
            self.tone("not understood")

    def _listen_who(self, utterance: Utterance) -> None:
        """Note a handover where another voice has taken over; who talks in a pause takes nothing over."""
        if self._obey.paused:
            return
        since_s = self._voices.changed(utterance.phrase.samples, utterance.began_s)
        if since_s is not None:
            self.happened(Event(kind="handover", start_s=since_s, end_s=since_s))
            self.tell("another voice: noted as a handover")

    def _drafted(self, drafted: Drafted) -> None:
        own = self._own.heard(drafted.utterance.began_s, [word.text for word in drafted.heard.words])
        if not own and not self._obey.paused and not _stray(drafted.heard):
            self.view.draft = " ".join(word.text for word in drafted.heard.words)

    def _settled(self, settled: Settled) -> None:
        fused = self._page.fused(settled.hearings)
        self._heard.put(pickle.dumps(fused))
        before = {key_of(one): one for one in self.findings}
        self.running.heard(settled.end_s, fused.words)
        self.findings = self.running.findings()
        after = {key_of(one) for one in self.findings}
        gone = [one for key, one in before.items() if key not in after]
        new = [one for one in self.findings if key_of(one) not in before]
        self.corrected = [] if new else gone  # the careful ears may hear "take that back" before we do
        if gone or new:
            self.board.correct(corrected(gone, new, self.findings))

    # for those who obey

    def mark(self, stretch: Stretch) -> None:
        self.stretches.append(stretch)
        self.running.stretches.append(stretch)

    def happened(self, event: Event) -> None:
        self.events.append(event)
        self._note(event)

    def answer(self, text: str, aloud: bool = True, parts: Sequence[Open] = ()) -> None:
        self.board.answered(text, parts)
        if aloud:
            self.say(text)

    def tell(self, notice: str) -> None:
        self.board.tell(notice)

    # the view

    def look(self) -> None:
        self.board.show(self.findings)
        self.view.found = self.running.count

    def _levels(self, recorded_s: float) -> None:
        view, signal = self.view, self.signal
        view.level_db, view.noise_db = signal.level_db, signal.noise_db
        view.over_noise_db, view.trouble = signal.over_noise_db, signal.trouble or ""
        view.speaking, view.paused = self._quickly.speaking, self._obey.paused
        view.recorded_s = recorded_s
        view.ready = self._quickly.is_ready
        view.behind_s = recorded_s - self._quickly.taken_s
        view.heard_s, view.settling_s = self._carefully.heard_s, self._carefully.behind_s(recorded_s)


def corrected(gone: Sequence[Finding], new: Sequence[Finding], now: Sequence[Finding]) -> str:
    """What changed when the careful ears had heard it, in a few words.

    ``gone`` are the findings that no longer stand, ``new`` those that were not there before.
    """
    if not gone:
        return f"also heard: {words_of(new[-1])}"
    for one in reversed(gone):
        of_it = [other for other in now if (other.part, other.side) == (one.part, one.side)]
        if of_it:
            return f"corrected: {words_of(of_it[-1])}"
    if new and key_of(new[-1])[2:] == key_of(gone[-1])[2:]:
        return f"corrected: {words_of(gone[-1])} is {words_of(new[-1])}"
    return f"corrected: not {words_of(gone[-1])}" + (f"; heard: {words_of(new[-1])}" if new else "")


def _stray(heard: Hearing) -> bool:
    """Whether an ear wrote the word that it writes for a cough or a tone."""
    return [word.text.lower().strip(".,!?") for word in heard.words] in ([], ["you"], ["okay"], ["oh"])


def _nobody(_: str) -> None:
    """Nobody is there to hear it."""
