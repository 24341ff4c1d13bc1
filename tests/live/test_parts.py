"""The smaller parts of listening: utterances, tones, big letters, the screen, the player, another voice."""

import threading
import time
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from rich.console import Console

from saycheck.capture.voice import WINDOW, windows
from saycheck.hearing.ear import SAMPLE_RATE
from saycheck.live.handover import Voices
from saycheck.live.letters import ROWS, big, fitting, wrapped
from saycheck.live.player import Player
from saycheck.live.screen import page
from saycheck.live.signal import PLAIN, Signal
from saycheck.live.tones import NOTES_HZ, RATE, tone
from saycheck.live.utterances import LONGEST_S, PAUSE_S, Utterance, Utterances
from saycheck.live.view import View
from speak import VOICES, speak, with_noise


def cut(chances: list[float]) -> list[Utterance]:
    """The utterances of windows with these chances of speech, without their drafts."""
    return [one for one in drafted(chances) if one.ended]


def drafted(chances: list[float]) -> list[Utterance]:
    """The utterances and drafts of windows with these chances of speech, in their order."""
    cutter = Utterances()
    found = [cutter.add(np.full(WINDOW, place, np.float32), one) for place, one in enumerate(chances)]
    return [one for one in [*found, cutter.finish()] if one is not None]


SPOKEN, PAUSE = [0.9] * 30, [0.0] * 16


@pytest.mark.parametrize(
    ("chances", "count"),
    [
        (PAUSE, 0),
        (SPOKEN, 1),  # still speaking at the end
        (PAUSE + SPOKEN + PAUSE, 1),
        (PAUSE + SPOKEN + PAUSE + SPOKEN + PAUSE, 2),
        (SPOKEN + [0.0] * 8 + SPOKEN, 1),  # a quarter of a second is no pause
        (PAUSE + [0.9] * 2 + PAUSE, 0),  # a click
        (PAUSE + [0.3] * 30 + PAUSE, 0),  # never sure
    ],
)
def test_an_utterance_ends_at_a_pause(chances: list[float], count: int) -> None:
    """Speech between two pauses is one utterance; clicks and mumble are none."""
    assert count == len(cut(chances))


def test_where_an_utterance_lies() -> None:
    """Its sound starts a little before the speech, and its times are those of the recording."""
    (found,) = cut([0.0] * 100 + SPOKEN + PAUSE)
    assert (100 * WINDOW / SAMPLE_RATE, 130 * WINDOW / SAMPLE_RATE) == (found.began_s, found.ended_s)
    assert found.phrase.start_s == round(found.phrase.samples[0]) * WINDOW / SAMPLE_RATE
    assert 0.2 <= found.began_s - found.phrase.start_s <= 0.3


def test_a_breath_gives_a_draft_and_silence_makes_it_the_utterance() -> None:
    """After a breath all is given so far; where nothing follows it is the same sound, heard already."""
    breath = [0.0] * 8
    first, second, whole = drafted(SPOKEN + breath + SPOKEN + PAUSE)
    assert [False, False, True] == [first.ended, second.ended, whole.ended]
    assert len(first.phrase.samples) < len(second.phrase.samples)
    assert whole.phrase is second.phrase
    assert whole.began_s == first.began_s


def test_who_does_not_breathe_gives_drafts_too() -> None:
    """Two of them, 2.5 s apart; none of them is taken for the utterance."""
    *drafts, whole = drafted([0.9] * 180 + PAUSE)
    seconds = [len(one.phrase.samples) / SAMPLE_RATE for one in drafts if not one.ended]
    assert [2.5, 5.0] == [round(one, 1) for one in seconds[:2]]
    assert 3 == len(drafts)  # the third is that of the pause
    assert whole.phrase is drafts[-1].phrase


def test_a_long_utterance_ends_with_a_short_pause() -> None:
    """After six seconds a quarter of a second is enough; before, it is none."""
    short = [0.0] * 9
    assert 2 == len(cut([0.9] * 200 + short + SPOKEN))
    assert 1 == len(cut([0.9] * 100 + short + SPOKEN))


def test_nobody_who_never_pauses_waits_long() -> None:
    """Endless speech is cut, not far back, and nothing of it is lost or heard twice."""
    found = cut([0.9] * 1_500)
    assert max(len(one.phrase.samples) for one in found) <= LONGEST_S * SAMPLE_RATE + WINDOW
    windows = [int(window) for one in found for window in one.phrase.samples[::WINDOW]]
    assert list(range(1_500)) == windows
    assert min(len(one.phrase.samples) for one in found[:-1]) >= (LONGEST_S - 1) * SAMPLE_RATE
    assert PAUSE_S < 0.5  # what an utterance costs in waiting


@pytest.mark.parametrize("name", NOTES_HZ)
def test_tones_are_short_soft_and_of_the_pitch_they_say(name: str) -> None:
    """Held against a Fourier transform: the strongest line of each note is the note."""
    sound = tone(name)
    assert len(sound) / RATE < 0.4
    assert np.abs(sound).max() < 0.2
    assert abs(float(sound[0])) < 0.01
    at = 0
    for hertz, seconds in NOTES_HZ[name]:
        note = sound[at : at + round(seconds * RATE)]
        at += len(note)
        lines = np.abs(np.fft.rfft(note * np.hanning(len(note)), RATE))
        assert abs(int(np.argmax(lines)) - hertz) <= 2


def test_the_tones_are_told_apart_by_their_direction() -> None:
    """One note, falling, rising."""
    steps = {name: [b[0] - a[0] for a, b in pairwise(notes)] for name, notes in NOTES_HZ.items()}
    assert [] == steps["heard"]
    assert all(step < 0 for step in steps["not understood"])
    assert all(step > 0 for step in steps["saved"])


@pytest.mark.parametrize("width", [20, 40, 80, 100])
@pytest.mark.parametrize("text", ["left front tyre", "O-ring, 3.5 mm?", "über groß", ""])
def test_big_letters_never_run_over(text: str, width: int) -> None:
    """Three rows, none longer than the terminal."""
    rows = big(text, width)
    assert ROWS == len(rows)
    assert all(len(row) <= width + 1 for row in rows)


def test_big_letters_are_the_letters() -> None:
    """Read by eye once, held since."""
    assert ["▄▀▄ █ █ ", "█ █ █▀▄ ", " ▀  ▀ ▀ "] == big("ok", 80)


def test_letters_twice_as_large() -> None:
    """Each dot is four: what stands in a large terminal can be read from as far away."""
    once, twice = big("ok", 80), big("ok", 80, 2)
    assert 2 * ROWS == len(twice)
    assert 2 * len(once[0]) == len(twice[0])
    assert 4 * _dots(once) == _dots(twice)


def _dots(rows: list[str]) -> int:
    return sum({"█": 2, "▀": 1, "▄": 1}.get(cell, 0) for row in rows for cell in row)


def test_what_does_not_fit_keeps_its_last_words() -> None:
    """The last words of a part say what it is."""
    assert "lift cylinder" == fitting("left hydraulic lift cylinder", 60)


def lines(view: View, width: int = 80, height: int = 24) -> list[str]:
    """What the screen shows."""
    console = Console(width=width, height=height, record=True, file=open("/dev/null", "w"))  # noqa: PTH123, SIM115
    console.print(page(view, console))
    return console.export_text().splitlines()


def test_the_screen_says_what_matters() -> None:
    """Zone and last finding are big; level, signal and what is open stand below; all fits 80 by 24."""
    shown = lines(
        View(
            unit="loader seven", zone="left side", part="left front tyre", said="cut", state="writeup",
            quote="Left front tyre is cut", level_db=-20.0, noise_db=-50.0, over_noise_db=24.0,
            open_here=["steps", "handrail"], open_in_all=107, device="lapel", recorded_s=65.0, ready=True,
        )
    )  # fmt: skip
    assert len(shown) <= 23
    assert all(len(line) <= 80 for line in shown)
    assert [row.rstrip() for row in big("left side", 80)] == [line.rstrip() for line in shown[1:4]]
    text = "\n".join(shown)
    for words in (
        "loader seven 1:05 listening lapel", "heard: “Left front tyre is cut”",
        "you are 24 dB over the noise", "107 open in all; also here: handrail",
    ):  # fmt: skip
        assert words in text
    for words in ("left front tyre", "cut", "open: steps"):  # what must be read at two metres
        assert next(row.rstrip() for row in big(words, 80)) in [line.rstrip() for line in shown]
    assert 2 == sum(line.count("█" * 20) > 0 for line in shown)  # so is the level


FULL = View(
    unit="loader seven", zone="engine compartment", part="left and right front tyre sidewall", said="cut, 18 mm ± 0.5",
    state="writeup", quote="a " * 60, corrected="corrected: " + "x" * 90, level_db=-20.0, noise_db=-50.0,
    over_noise_db=24.0, open_here=["left and right loader arm", "steps"], open_in_all=107, ready=True,
    trouble="I hear the engine more than you: microphone closer, or engine off", recorded_s=7_000.0,
    answer="Front: bucket pins, bucket linkage, tilt cylinder, left and right loader arm. 100 more.",
    notices=["another voice: noted as a handover", "the microphone was gone", "the disk was full"],
)  # fmt: skip


@pytest.mark.parametrize("answer_is_new", [True, False])
@pytest.mark.parametrize(("width", "height"), [(80, 24), (100, 30), (200, 60), (60, 24)])
def test_everything_at_once_still_fits(width: int, height: int, answer_is_new: bool) -> None:
    """Nothing scrolls and nothing runs over, whatever there is to tell; the zone stays at the top."""
    parts = ["bucket pins", "bucket linkage", "tilt cylinder", "left and right loader arm"]
    shown = lines(replace(FULL, answer_is_new=answer_is_new, answer_parts=parts), width, height)
    assert len(shown) <= height - 1
    assert all(len(line) <= width for line in shown)
    text = "\n".join(line.rstrip() for line in shown)
    if width >= 80:
        times = 2 if width == 200 else 1
        trouble = wrapped("I hear the engine more than you", min(width // times, 100))
        for words in [*parts[:3], "loader arm, both"] if answer_is_new else trouble:
            assert big(words, width, times)[0].rstrip() in text


def test_what_is_being_heard_is_shown_before_it_is_sure() -> None:
    """Words of an utterance that goes on stand there as such."""
    assert "hearing: the bucket is …" in "\n".join(lines(View(quote="before", draft="the bucket is")))


@pytest.mark.parametrize(
    ("view", "words"),
    [
        (View(ready=False), "the ears are loading, sound is kept already"),
        (View(ready=True, paused=True), "PAUSED, sound is kept"),
        (View(ready=True, behind_s=9.0), "hearing is 9 s behind, nothing is lost"),
        (View(trouble="the disk is full: make room at once"), "the disk is full: make room at once"),
        (View(corrected="corrected: bucket: crack is bracket: crack"), "corrected: bucket: crack is bracket"),
        (View(notices=["the microphone was gone"]), "the microphone was gone"),
    ],
)
def test_trouble_is_on_the_screen_at_once(view: View, words: str) -> None:
    """Each in plain words."""
    assert words in "\n".join(lines(view))


def test_no_tone_while_someone_speaks(monkeypatch: pytest.MonkeyPatch) -> None:
    """A tone waits for a gap, and is left out where there is none for long."""
    speaking = threading.Event()
    speaking.set()
    played: list[bool] = []
    monkeypatch.setattr(Player, "_play", lambda self, sound: played.append(speaking.is_set()))
    player = Player(speaking.is_set, lambda begins, text: None, lambda text: None)
    player.tone("heard")
    time.sleep(0.3)
    assert [] == played
    speaking.clear()
    player.close()
    assert [False] == played


def test_no_tone_and_no_voice_where_nobody_wants_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """Off is off."""
    played: list[object] = []
    monkeypatch.setattr(Player, "_play", lambda self, sound: played.append(sound))
    player = Player(lambda: False, lambda begins, text: None, played.append, tones=False, aloud=False)
    player.tone("heard")
    player.say("nothing is open")
    player.close()
    assert [] == played


def test_what_cannot_be_said_is_given_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the computer has no voice the text goes to whoever shows it."""
    from saycheck.live import voice

    monkeypatch.setattr(voice, "spoken", lambda text: None)
    shown: list[str] = []
    player = Player(lambda: False, lambda begins, text: None, shown.append)
    player.say("Front: bucket.")
    player.close()
    assert ["Front: bucket."] == shown


@pytest.mark.sound
def test_the_voice_of_this_computer_can_be_understood() -> None:
    """pyttsx3 makes sound of a text; the built-in ear hears the words in it (a reference from outside)."""
    from saycheck.hearing.choose import open_ear
    from saycheck.hearing.ear import Phrase
    from saycheck.live import voice

    sound = voice.spoken("Left side: lift cylinder, seat belt. Thirty one more.")
    if sound is None:
        pytest.skip("this computer has no voice (Debian: espeak-ng)")
    words = " ".join(w.text for w in open_ear("plain", "wheel-loader").hear(Phrase(sound, 0.0)).words).lower()
    assert "cylinder" in words
    assert "more" in words


@pytest.mark.parametrize(("noise", "trouble"), [(0.0, None), (0.3, PLAIN["noise as loud as the speech"])])
def test_a_bad_signal_is_told_while_it_lasts(noise: float, trouble: str | None) -> None:
    """Speech-like bursts over quiet are fine; the same under noise is said to be drowned."""
    rng = np.random.default_rng(1)
    signal = Signal()
    for window in range(300):
        speaks = window % 30 < 20
        sound = rng.normal(0, 0.1 if speaks else 0.001, WINDOW) + rng.normal(0, noise, WINDOW)
        signal.add(sound.astype(np.float32), 0.9 if speaks else 0.0)
    assert trouble == signal.trouble
    assert signal.over_noise_db is not None
    assert (signal.over_noise_db > 20) == (trouble is None)


@pytest.mark.sound
@pytest.mark.parametrize("voice", ["slt-hts", "rms"])
def test_an_engine_louder_than_the_voice_is_told_at_once(voice: str) -> None:
    """Speech 2 dB below the noise: it is said within four seconds, and stays said while it goes on."""
    sound = with_noise(speak(" ".join(SAID), voice), -2.0, seed=1)
    signal, told = Signal(), []
    for window, chance in windows([sound]):
        if len(window) == WINDOW:
            signal.add(window, chance)
            told.append(signal.trouble == PLAIN["noise as loud as the speech"])
    first = told.index(True)
    assert first * WINDOW / SAMPLE_RATE <= 4.0
    assert all(told[first:])


SAID = (
    "Left front tyre is cut on the sidewall.", "The bucket is fine and the pins are tight.",
    "I can see oil on the lift cylinder.", "Hydraulic hoses are dry all the way along.",
    "The steps are bent and the handrail is loose.", "Coolant is down a little in the bottle.",
)  # fmt: skip


@pytest.mark.sound
@pytest.mark.parametrize(("first", "second"), [("rms", "slt"), ("slt", "kal16"), ("slt-hts", "rms")])
def test_another_voice_is_noticed_once(first: str, second: str) -> None:
    """A woman's and a man's synthetic voice take turns once; within either nothing is noticed."""
    assert {first, second} <= set(VOICES)
    voices = Voices()
    sounds = [speak(text, voice) for voice in (first, second) for text in SAID]
    changed = [voices.changed(sound, 10.0 * place) for place, sound in enumerate(sounds)]
    assert [None] * 6 == changed[:6]
    (since_s,) = [one for one in changed[6:] if one is not None]
    assert since_s in (60.0, 70.0)  # from the first utterance of the other voice on, or the second
