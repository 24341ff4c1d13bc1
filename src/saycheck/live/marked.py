"""Commands, notes, pauses and our own voice marked in a transcript, so that none of it becomes a finding.

The ears may have heard the words of a command as anything; the command's own words take their place. Times
tell which words those are.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saycheck.live.commands import LEFT_TO_UNDERSTANDING, Command
from saycheck.live.own import ours
from saycheck.models.walk import Disposition, Span, Transcript, Word
from saycheck.unclear import without


@dataclass(frozen=True)
class Stretch:
    """Seconds of the recording with what became of the words in them.

    Where saycheck ``said`` something then, only the words of that are meant.
    """

    start_s: float
    end_s: float
    disposition: Disposition
    why: str
    said: str = ""


@dataclass(frozen=True)
class Marked:
    """A transcript whose spans are what understanding must not read; ``after`` are laid over its spans."""

    transcript: Transcript
    after: list[Span]


def marked(
    transcript: Transcript,
    commands: Sequence[Command],
    lead: Sequence[str],
    stretches: Sequence[Stretch] = (),
) -> Marked:
    """The transcript with the commands in their own words, and the spans that go with it.

    Spans and readings that were there stay, moved to where their words are now; what lies inside a command
    goes.
    """
    spoken = [one for one in commands if one.name != "note"]
    items, places = _rebuilt(transcript.words, spoken)
    text = " ".join(word.text for word in items)
    held: list[Span] = []
    after: list[Span] = []
    for command in spoken:
        span = _span(items, command.start_s, command.end_s, "command", command.name)
        if span is None:
            continue
        if command.name in LEFT_TO_UNDERSTANDING:
            held.append(_first(span, items, len(lead)))
        else:
            held.append(span)
        if command.name != "same again":
            after.append(span)
    others = [Stretch(c.start_s, c.end_s, "command", "note") for c in commands if c.name == "note"]
    for stretch in [*others, *stretches]:
        span = _span(items, stretch.start_s, stretch.end_s, stretch.disposition, stretch.why, stretch.said)
        if span is not None:
            held.append(span)
    held = _without_overlap([*held, *_moved_spans(transcript.spans, places)])
    readings = [
        reading.model_copy(update={"char_start": now[0], "char_end": now[1]})
        for reading in transcript.readings
        if (now := places.moved(reading.char_start, reading.char_end)) is not None
    ]
    return Marked(Transcript(text=text, words=items, spans=held, readings=readings), after)


def within(start_s: float | None, end_s: float | None, first_s: float, last_s: float) -> bool:
    """Whether the middle of a word lies between two times."""
    return start_s is not None and end_s is not None and first_s <= (start_s + end_s) / 2 < last_s


def _rebuilt(words: Sequence[Word], commands: Sequence[Command]) -> tuple[list[Word], "_Places"]:
    """The words with those of commands replaced, and where the others are now."""
    waiting = sorted(commands, key=lambda one: one.start_s)
    items: list[Word] = []
    places = _Places(words)

    def say(command: Command) -> None:
        each = (command.end_s - command.start_s) / len(command.words)
        for place, word in enumerate(command.words):
            start_s = command.start_s + place * each
            _put(items, _written(word, place, command), round(start_s, 3), round(start_s + each, 3), None)

    for number, word in enumerate(words):
        if any(within(word.start_s, word.end_s, one.start_s, one.end_s) for one in commands):
            continue
        while waiting and word.start_s is not None and word.start_s >= waiting[0].start_s:
            say(waiting.pop(0))
        _put(items, word.text, word.start_s, word.end_s, word.confidence)
        places.now[number] = items[-1].char_start
    for command in waiting:
        say(command)
    return items, places


def _put(
    items: list[Word], text: str, start_s: float | None, end_s: float | None, confidence: float | None
) -> None:
    at = items[-1].char_end + 1 if items else 0
    items.append(
        Word(
            text=text,
            char_start=at,
            char_end=at + len(text),
            start_s=start_s,
            end_s=end_s,
            confidence=confidence,
        )
    )


class _Places:
    """Where the words of a transcript are in the new one; ``now`` goes by the number of the word."""

    def __init__(self, words: Sequence[Word]) -> None:
        self._words = words
        self._starts = [word.char_start for word in words]
        self.now: dict[int, int] = {}

    def moved(self, start: int, end: int) -> tuple[int, int] | None:
        """A range of characters in the new transcript; None where nothing of it, or not all, is left."""
        first = max(bisect_right(self._starts, start) - 1, 0)
        last = max(bisect_left(self._starts, end) - 1, first)
        if not self._words or any(number not in self.now for number in range(first, last + 1)):
            return None
        head, tail = self._words[first], self._words[last]
        new_start = self.now[first] + min(start - head.char_start, len(head.text))
        new_end = self.now[last] + min(end - tail.char_start, len(tail.text))
        return new_start, max(new_start, new_end)

    def runs(self, start: int, end: int) -> Iterator[tuple[int, int]]:
        """What is left of a range of characters: whole words that still stand side by side."""
        run: tuple[int, int] | None = None
        for number, word in enumerate(self._words):
            if word.char_end <= start or word.char_start >= end:
                continue
            at = self.now.get(number)
            if at is None:
                continue
            if run is not None and at == run[1] + 1:
                run = run[0], at + len(word.text)
                continue
            if run is not None:
                yield run
            run = at, at + len(word.text)
        if run is not None:
            yield run


def _written(word: str, place: int, command: Command) -> str:
    """A word of a command as it stands in the transcript: "Recorder, take that back."."""
    if place == 0:
        word = word.capitalize()
    if place == len(command.words) - 1:
        word += "."
    return word


def _span(
    words: Sequence[Word], start_s: float, end_s: float, disposition: Disposition, why: str, said: str = ""
) -> Span | None:
    inside = [word for word in words if within(word.start_s, word.end_s, start_s, end_s)]
    if said:
        inside = inside[: ours([word.text for word in inside], said)]
    if not inside:
        return None
    return Span(
        char_start=inside[0].char_start, char_end=inside[-1].char_end, disposition=disposition, why=why
    )


def _first(span: Span, words: Sequence[Word], count: int) -> Span:
    """The same span, its first words only."""
    inside = [word for word in words if span.char_start <= word.char_start < span.char_end]
    return span.model_copy(update={"char_end": inside[min(count, len(inside)) - 1].char_end})


def _moved_spans(spans: Sequence[Span], places: _Places) -> list[Span]:
    """Each span where its words are now, in pieces where a command has come into its middle."""
    return [
        span.model_copy(update={"char_start": start, "char_end": end})
        for span in spans
        for start, end in places.runs(span.char_start, span.char_end)
    ]


def _without_overlap(spans: Sequence[Span]) -> list[Span]:
    """Spans in order; where two overlap the one named first stays, and of the other what lies outside of it."""
    kept: list[Span] = []
    for span in spans:
        pieces = [span]
        for other in kept:
            pieces = [left for piece in pieces for left in without(piece, other)]
        kept += pieces
    return sorted(kept, key=lambda one: one.char_start)
