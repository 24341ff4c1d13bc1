"""From phrases to a transcript: every ear hears every phrase, and what they heard is made one reading."""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass

from rapidfuzz.distance import LCSseq

from saycheck.hearing.ear import Phrase
from saycheck.hearing.joining import Fuse, Other
from saycheck.hearing.side_by_side import EarProcess, heard_by_all
from saycheck.hearing.spoken import spoken
from saycheck.models.hearing import HeardWord, Hearing, Passage
from saycheck.models.walk import Span, Transcript, Word


def hear(
    phrases: Iterable[Phrase],
    ears: Sequence[EarProcess],
    fuse: Fuse,
    passages: Callable[[], Sequence[Passage]],
    progress: Callable[[float], None],
) -> Transcript:
    """Hear all phrases with all ears.

    ``fuse`` makes one row of words of what the ears heard in a phrase. ``passages`` is called when all
    phrases are heard and tells what was measured along the recording. ``progress`` is told up to which
    second the recording is heard. The spans of the transcript are the passages that cannot be trusted;
    everything else is left to understanding.

    Raises:
        SaycheckError: reading the sound failed, or an ear did.
    """
    page = Page(fuse)
    with ExitStack() as running:
        for ear in ears:
            running.enter_context(ear)
        for phrase, hearings in heard_by_all(phrases, ears):
            page.add(hearings)
            progress(phrase.end_s)
    return page.transcript(passages())


MADE_OUT = 0.5
"""Mean confidence of a phrase's fused words below which nothing was made out. Of clean speech no phrase of more
than one word lay below 0.65 (252 phrases, eight voices), of speech in a shed 8 of 106 below 0.5; Polish gave 0.42 to
0.48, other languages more (which ``ALIKE`` mostly stops), blows of a hammer single words."""

MANY, ALIKE = 16, 0.15
"""Of so many words of a phrase this share at least is heard alike by all ears, or nothing was made out. Of speech in
20 and 5 dB of engine noise no such phrase had less than 0.19 (201 phrases, two voices); three to seven voices at once,
which the general ear hears as one phrase over and over, gave 0.00 to 0.12 (16 mixtures)."""

NOTHING_ALIKE = "the two ears could not make out the same words"


@dataclass(frozen=True)
class Fused:
    """What all ears together heard in a phrase; ``nonsense`` where nothing was made out."""

    words: list[HeardWord]
    others: list[Other]
    nonsense: bool


class Page:
    """The words of a transcript as they come in, phrase by phrase."""

    def __init__(self, fuse: Fuse) -> None:
        self._fuse = fuse
        self._words: list[HeardWord] = []
        self._others: list[Other] = []
        self._nonsense: list[bool] = []

    def add(self, hearings: Sequence[Hearing]) -> list[HeardWord]:
        """Add what the ears heard in the next phrase; return it as one row of words."""
        fused = self.fused(hearings)
        self.take(fused)
        return fused.words

    def fused(self, hearings: Sequence[Hearing]) -> Fused:
        """What the ears heard in a phrase as one row of words, not added yet."""
        words, others = self._fuse(hearings)
        return Fused(words, others, len(hearings) > 1 and not made_out(words, hearings))

    def take(self, fused: Fused) -> None:
        """Add what was heard in the next phrase."""
        before = len(self._words)
        self._words += fused.words
        self._nonsense += [fused.nonsense] * len(fused.words)
        self._others += [other.moved(before) for other in fused.others]

    def transcript(self, passages: Sequence[Passage]) -> Transcript:
        """All words but those on silence, with the unclear passages as spans."""
        words: list[Word] = []
        nonsense: list[bool] = []
        places: list[int] = []
        stray = [_stray(heard, passages) for heard in self._words]
        at = 0
        for place, heard in enumerate(self._words):
            places.append(at)
            if stray[place]:
                continue
            end = at + len(heard.text)
            words.append(
                Word(
                    text=heard.text,
                    char_start=at,
                    char_end=end,
                    start_s=round(heard.start_s, 3),
                    end_s=round(heard.end_s, 3),
                    confidence=round(heard.confidence, 3),
                )
            )
            nonsense.append(self._nonsense[place])
            at = end + 1
        text = " ".join(word.text for word in words)
        places.append(at)
        readings = [
            other.reading(places, len(text))
            for other in self._others
            if other.first == other.after or not all(stray[other.first : other.after])
        ]
        return Transcript(text=text, words=words, spans=unclear(words, passages, nonsense), readings=readings)


def made_out(words: Sequence[HeardWord], hearings: Sequence[Hearing]) -> bool:
    """Whether the ears are sure enough of the ``words`` they heard together, and heard enough of them alike."""
    if sum(word.confidence for word in words) < MADE_OUT * len(words):
        return False
    return len(words) < MANY or alike(hearings) >= ALIKE


def alike(hearings: Sequence[Hearing]) -> float:
    """Which share of the words of the first ear each of the others heard in the same order, at the least."""
    first, *others = [[piece for word in one.words for piece in spoken(word.text)] for one in hearings]
    return min((LCSseq.similarity(first, other) / max(len(first), 1) for other in others), default=1.0)


def unclear(words: Sequence[Word], passages: Sequence[Passage], nonsense: Sequence[bool] = ()) -> list[Span]:
    """One span for each run of words in a passage that cannot be trusted, or of which nothing was made out.

    ``nonsense`` says of each word whether it belongs to a phrase of the second kind.
    """
    spans: list[Span] = []
    before: tuple[Passage | None, str | None] = None, None
    for place, word in enumerate(words):
        passage = _at(word, passages)
        lost = NOTHING_ALIKE if nonsense and nonsense[place] else None
        why = (passage.trouble if passage else None) or lost
        if why and spans and (passage, why) == before:
            spans[-1] = spans[-1].model_copy(update={"char_end": word.char_end})
        elif why:
            spans.append(
                Span(char_start=word.char_start, char_end=word.char_end, disposition="unclear", why=why)
            )
        before = passage, why
    return spans


def _stray(word: HeardWord, passages: Sequence[Passage]) -> bool:
    """Whether an ear heard a word where nobody spoke."""
    passage = _at(word, passages)
    return passage is not None and passage.kind != "speech" and not passage.trouble


def _at(word: HeardWord | Word, passages: Sequence[Passage]) -> Passage | None:
    """The passage in which the middle of a word lies."""
    if word.start_s is None or word.end_s is None:
        return None
    middle = (word.start_s + word.end_s) / 2
    place = bisect_right(passages, middle, key=lambda one: one.start_s) - 1
    return passages[place] if place >= 0 and middle < passages[place].end_s else None
