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
from saycheck.coverage.checklist import checklist
from saycheck.coverage.numbers import worn
from saycheck.hearing.ear import Samples
from saycheck.hearing.hear import Fused, Page
from saycheck.hearing.joining import fuse_for
from saycheck.hearing.side_by_side import EarProcess
from saycheck.live.commands import Command, command_of, lead_words, sayings
from saycheck.live.follow import Carefully, Drafted, Failed, News, Quickly, Said, Settled
from saycheck.live.handover import Voices
from saycheck.live.marked import Stretch
from saycheck.live.missing import Open, in_three_words, open_parts, told
from saycheck.live.obey import Obedience, key_of, words_of
from saycheck.live.running import Running
from saycheck.live.signal import Signal
from saycheck.live.view import View
from saycheck.models.hearing import HeardWord, Hearing
from saycheck.models.walk import ChecklistLine, Event, Finding, Transcript
from saycheck.reporting.wording import said_of, with_side
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
        self.view = View(lines=len(vocabulary.lines))
        self.done = False
        self.failed: Failed | None = None
        self.events: list[Event] = []
        self.commands: list[Command] = []
        self.stretches: list[Stretch] = []
        self.delays_s: deque[float] = deque(maxlen=10_000)
        self.signal = Signal()
        self._wishes = wishes
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
        self._lines: list[ChecklistLine] = []
        self.open: list[Open] = []
        self.corrected: list[Finding] = []
        self._asked: set[str] = set()
        self._obey = Obedience(self)
        self._zone_told = ""
        self._own: deque[tuple[float, float]] = deque(maxlen=20)
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
        return max(self.findings, key=lambda one: one.evidence[-1].end_s or 0.0, default=None)

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
        self._levels(recorded_s)

    def own_voice(self, start_s: float, end_s: float, text: str) -> None:
        """Remember that saycheck itself was heard here."""
        self._own.append((start_s, end_s))
        self.mark(Stretch(start_s, end_s, "talk", "said by saycheck itself"))
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
        self._obey.go_on(self._carefully.heard_s)

    def forget(self) -> None:
        """Let go of what was put aside, once it is in the walk."""
        self._heard.close()
        self._carefully.measured.close()

    # what was heard

    def _said(self, said: Said) -> None:
        utterance = said.utterance
        if said.command.words:
            words = [word.text for word in said.command.words]
            start_s, end_s = said.command.words[0].start_s, utterance.phrase.end_s
            command = command_of(words, self.lead, self._known, start_s, end_s)
            if command is not None:
                self._obey(command, " ".join(word.text for word in said.heard.words))
                return
        own = any(first <= utterance.began_s < last for first, last in self._own)
        if own or self._obey.paused or _stray(said.heard):
            return
        if self._voices.changed(utterance.phrase.samples):
            self.happened(Event(kind="handover", start_s=utterance.began_s, end_s=utterance.began_s))
            self.tell("another voice: noted as a handover")
        self.running.said(said.heard.words)
        text = " ".join(word.text for word in said.heard.words)
        self.view.quote = text or self.view.quote
        before = {key_of(one) for one in self.findings}
        self.findings = self.running.findings()
        if any(key_of(one) not in before for one in self.findings):
            self.tone("heard")
        elif len(said.heard.words) >= MISUNDERSTOOD_WORDS and self.signal.trouble:
            self.tone("not understood")

    def _drafted(self, drafted: Drafted) -> None:
        if not self._obey.paused and not _stray(drafted.heard):
            self.view.quote = " ".join(word.text for word in drafted.heard.words) + " …"

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
        if gone and new:
            self.view.corrected = f"corrected: {words_of(gone[-1])} is {words_of(new[-1])}"
        elif gone:
            self.view.corrected = f"corrected: not {words_of(gone[-1])}"
        elif new:
            self.view.corrected = f"also heard: {words_of(new[-1])}"

    # for those who obey

    def mark(self, stretch: Stretch) -> None:
        self.stretches.append(stretch)
        self.running.stretches.append(stretch)

    def happened(self, event: Event) -> None:
        self.events.append(event)
        self._note(event)

    def answer(self, text: str, aloud: bool = True) -> None:
        self.view.answer = text
        if aloud:
            self.say(text)

    def tell(self, notice: str) -> None:
        self.view.notices.append(notice)
        del self.view.notices[:-3]

    # the view

    def look(self) -> None:
        found, view = self.findings, self.view
        self._lines = checklist(self.vocabulary, found)
        if found:
            last = self.last or found[-1]
            view.part, view.said, view.state = with_side(last.part, last.side), said_of(last), last.state
            self._entered(last.zone)
        else:
            view.part = view.said = view.state = ""
        view.found = self.running.count
        self.open = open_parts(self.vocabulary, self._lines)
        view.open_in_all = len(self.open)
        view.lines = len(self._lines)
        view.open_here = [name for _, name in open_parts(self.vocabulary, self._lines, view.zone)[:4]]
        self._ask_for_measures()

    def _entered(self, zone: str) -> None:
        before, self._zone_told = self._zone_told, zone
        if zone == before:
            return
        self.view.zone = zone
        if before and self._wishes.zones_aloud:
            left = open_parts(self.vocabulary, self._lines, before)
            if left:
                self.answer(f"Still open. {told(left)}")

    def _ask_for_measures(self) -> None:
        for question in worn(self.vocabulary, self.findings):
            asked = in_three_words(question)
            if asked and question.id not in self._asked:
                self._asked.add(question.id)
                self.answer(asked)

    def _levels(self, recorded_s: float) -> None:
        view, signal = self.view, self.signal
        view.level_db, view.noise_db = signal.level_db, signal.noise_db
        view.over_noise_db, view.trouble = signal.over_noise_db, signal.trouble or ""
        view.speaking, view.paused = self._quickly.speaking, self._obey.paused
        view.recorded_s = recorded_s
        view.ready = self._quickly.is_ready
        view.behind_s = recorded_s - self._quickly.taken_s
        view.heard_s, view.settling_s = self._carefully.heard_s, self._carefully.behind_s(recorded_s)


def _stray(heard: Hearing) -> bool:
    """Whether an ear wrote the word that it writes for a cough or a tone."""
    return [word.text.lower().strip(".,!?") for word in heard.words] in ([], ["you"])


def _nobody(_: str) -> None:
    """Nobody is there to hear it."""
