"""How surely spoken commands are recognised, and how often talk is taken for one.

    python bench/commands.py [--lead WORD] [--voices a,b] [--talkers a,b] [--hours 2] [--unseen-hours 4]
                             [--most-behind N]

Every command is spoken by several synthetic voices, clean and with engine noise 10 dB below speech, cut
into utterances as when listening live, and heard by the ear for commands. Recognised is a command that is
the one that was said, round the same zone where it names one. Then walks without a command are spoken by
several voices (the labelled narrations and bench/material with their teaching and stories, and first of all
sentences that hold the lead word and the words of commands), clean and in noise, and each command that is
heard is a false start. The same again with walks and voices that no threshold was ever chosen on: the
narrations set aside, by voices of which none is among the others. Last comes human speech, where it is
here: the prompts of Debian's asterisk-core-sounds-en-wav, many of which are orders ("record your message"),
and the readings of pocketsphinx-testdata. Status 1 where an aim is missed: 0.95 clean, 0.85 at 10 dB, 0.2
false starts an hour.
"""

import argparse
import json
import sys
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path

import numpy as np

from saycheck.capture.files import blocks
from saycheck.capture.voice import WINDOW, windows
from saycheck.errors import SaycheckError
from saycheck.hearing.command_ear import MOST_BEHIND, CommandEar, Saying
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.live.commands import LEAD, Command, command_of, lead_words, sayings
from saycheck.live.commands import Saying as Known
from saycheck.live.utterances import Utterance, Utterances
from saycheck.vocabulary.load import load
from speak import Samples, speak, with_noise

AIMS = {"clean": 0.95, "10 dB": 0.85}
MOST_FALSE = 0.2

VOICES = "slt-hts-fast,kal16,rms-fast,espeak-gb,slt,rms"
"""Some that the threshold was chosen on (slt, rms) and some that it was not."""

TALKERS = "slt-hts,heart,kal16,joe,rms-fast,espeak-gb,awb,ked"
"""Voices that talk; two of them (heart, joe) are trained ones, nearer to people."""

STRANGERS = "heart-fast,joe-fast,espeak-us,espeak-scotland,kal,espeak-lancaster,espeak-caribbean"
"""Voices that no threshold was chosen on, for the walks that none was chosen on."""

PROMPTS = Path("/usr/share/asterisk/sounds")
READINGS = Path("/usr/share/pocketsphinx/test/data/librivox")

ORDERS = (
    "take that back", "scratch that", "change zone rear", "change zone to left side", "now the cab",
    "next zone", "same again on this side", "note this one goes to the workshop", "photo here", "pause", "go on",
    "what have I missed", "what did I miss", "read that back", "done", "all done", "more",
)  # fmt: skip

ROOT = Path(__file__).resolve().parents[1]
TEMPTING = ROOT / "tests" / "live" / "tempting.txt"
"""Talk with the lead word and the words of commands in it."""


def utterances(sound: Samples) -> Iterator[Utterance]:
    """The utterances of a recording, as when listening live."""
    cutter = Utterances()
    for window, chance in windows([sound]):
        if len(window) == WINDOW and (found := cutter.add(window, chance)) and found.ended:
            yield found
    if last := cutter.finish():
        yield last


def ear(lead: str, most_behind: float = MOST_BEHIND, kind: str = "wheel-loader") -> CommandEar:
    """The ear for commands round a machine of this kind."""
    known = [Saying(one.words, one.goes_on) for one in sayings(load(kind))]
    return CommandEar(lead_words(lead), known, most_behind)


def heard(ear: CommandEar, sound: Samples) -> list[str]:
    """All commands heard in a recording."""
    hearings = [ear.hear(one.phrase) for one in utterances(sound)]
    return [" ".join(word.text for word in hearing.words) for hearing in hearings if hearing.words]


def recognised(ear: CommandEar, lead: str, order: str, sound: Samples) -> bool:
    """Whether the order, and nothing else, is heard, in whichever of its sayings."""
    known, words = sayings(load("wheel-loader")), lead_words(lead)
    said = [" ".join([*words, order.lower()])]
    meant, got = (
        [(one.name, one.zone) if one else None for one in (_command(text, words, known) for text in texts)]
        for texts in (said, heard(ear, sound))
    )
    return meant == got


def _command(text: str, lead: Sequence[str], known: Sequence[Known]) -> Command | None:
    return command_of(text.split(), lead, known, 0.0, 1.0)


def unseen_talk() -> Iterator[str]:
    """Walks without a command on which nothing was ever chosen."""
    for path in sorted((ROOT / "tests" / "narrations" / "aside").glob("*.json")):
        yield json.loads(path.read_text(encoding="utf-8"))["text"]


def talk() -> Iterator[str]:
    """Walks without a command: the tempting one first."""
    yield TEMPTING.read_text(encoding="utf-8")
    for path in sorted((ROOT / "tests" / "narrations" / "tune").glob("*.json")):
        yield json.loads(path.read_text(encoding="utf-8"))["text"]
    for path in sorted((ROOT / "bench" / "material").glob("*.txt")):
        yield path.read_text(encoding="utf-8")


def human() -> Samples:
    """Human speech, a pause between one piece and the next; empty where the packages are missing."""
    pieces: list[Samples] = []
    for path in [*sorted(PROMPTS.rglob("*.wav")), *sorted(READINGS.glob("*.wav"))]:
        with suppress(SaycheckError):  # a few are other formats under that name
            pieces += [*blocks(path), np.zeros(round(0.7 * SAMPLE_RATE), np.float32)]
    return np.concatenate(pieces) if pieces else np.zeros(0, np.float32)


def main() -> int:
    """Run the command described at the top of this file."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--lead", default=LEAD)
    parser.add_argument("--voices", default=VOICES)
    parser.add_argument("--talkers", default=TALKERS)
    parser.add_argument("--strangers", default=STRANGERS)
    parser.add_argument("--hours", type=float, default=2.0, help="hours of talk, half of them in noise")
    parser.add_argument("--unseen-hours", type=float, default=4.0, help="the same of walks never chosen on")
    parser.add_argument("--most-behind", type=float, default=MOST_BEHIND)
    parser.add_argument("--wrong", action="store_true", help="list what was not recognised")
    asked = parser.parse_args()
    listening = ear(asked.lead, asked.most_behind)
    voices, talkers = asked.voices.split(","), asked.talkers.split(",")
    missed = False
    for level, aim in AIMS.items():
        right = whole = 0
        for voice in voices:
            for order in ORDERS:
                sound = speak(f"{asked.lead}, {order}.", voice)
                if level != "clean":
                    sound = with_noise(sound, 10.0, seed=len(order))
                good = recognised(listening, asked.lead, order, sound)
                right, whole = right + good, whole + 1
                if asked.wrong and not good:
                    print(f"  {level}, {voice}: {order}: {heard(listening, sound)}")
        print(f"commands recognised, {level}: {right / whole:.3f} ({right} of {whole})")
        missed |= right / whole < aim
    missed |= _false_starts(listening, talk(), talkers, asked.hours, "synthetic talk", asked.wrong)
    strangers = asked.strangers.split(",")
    unseen = "synthetic talk that nothing was chosen on"
    missed |= _false_starts(listening, unseen_talk(), strangers, asked.unseen_hours, unseen, asked.wrong)
    people = human()
    if not len(people):
        print("no human speech here (Debian: asterisk-core-sounds-en-wav, pocketsphinx-testdata)")
    for sound, level in (
        ((people, "clean"), (with_noise(people, 10.0, seed=1), "10 dB")) if len(people) else ()
    ):
        found = heard(listening, sound)
        if asked.wrong and found:
            print(f"  false: people: {found}")
        missed |= _too_many(len(found), len(sound) / SAMPLE_RATE, f"human speech, {level}")
    return int(missed)


def _false_starts(
    ear: CommandEar, texts: Iterator[str], talkers: Sequence[str], hours: float, of: str, tell: bool
) -> bool:
    seconds, starts = 0.0, 0
    for nth, text in enumerate(texts):
        if seconds >= hours * 3600:
            break
        clean = speak(text, talkers[nth % len(talkers)])
        for sound in (clean, with_noise(clean, 10.0, seed=nth)):
            found = heard(ear, sound)
            seconds, starts = seconds + len(sound) / SAMPLE_RATE, starts + len(found)
            if tell and found:
                print(f"  false: {talkers[nth % len(talkers)]}: {found}")
    return _too_many(starts, seconds, of)


def _too_many(starts: int, seconds: float, of: str) -> bool:
    hours = seconds / 3600
    print(f"false starts: {starts} in {hours:.2f} hours of {of}, {starts / hours:.2f} an hour", flush=True)
    return starts / hours > MOST_FALSE


if __name__ == "__main__":
    sys.exit(main())
