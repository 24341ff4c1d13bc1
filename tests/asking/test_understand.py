"""The same words mean other things after other questions: pairs of question and answer, as read back."""

from collections.abc import Callable

import pytest

from saycheck.asking.keep import made_of
from saycheck.asking.matter import Matter
from saycheck.asking.readback import read_back
from saycheck.asking.understand import understand

FRONT = (
    "bucket pins, bucket linkage, tilt cylinder, left and right loader arm, loader arm pins and loader hoses"
)
"""All that was not spoken of at the front."""

# question, what is answered (as a recogniser writes it, too), what is read back
ROWS = [
    ("measure-front", "it is about eighteen millimetres thick", "Cutting edge: watch, worn, 18 mm ± 1.8."),
    ("measure-front", "three quarters of an inch", "Cutting edge: watch, worn, 0.75 in ± 0.125."),
    ("measure-front", "twenty to twenty two mil", "Cutting edge: watch, worn, 21 mm ± 1."),
    ("measure-front", "didn't measure it", "Not measured; nothing else is changed."),
    ("measure-front", "couldn't get at it", "Not measured, hidden; nothing else is changed."),
    ("measure-front", "no", "Not measured; nothing else is changed."),
    ("measure-unit", "millimetres", "Bellcrank: watch, play, 3 mm ± 0.5."),
    ("measure-unit", "thou", "Bellcrank: watch, play, 3 thou ± 0.5."),
    ("measure-unit", "metric", "Bellcrank: watch, play, 3 mm ± 0.5."),
    ("measure-unit", "not thou millimetres", "Bellcrank: watch, play, 3 mm ± 0.5."),
    ("measure-unit", "the second one", "Bellcrank: watch, play, 3 thou ± 0.5."),
    ("measure-leak", "it's only damp", "Wet or discoloured, but no drops form; nothing else is changed."),
    ("measure-leak", "they hang", "Drops form but do not fall; nothing else is changed."),
    ("measure-leak", "drops that fall", "Drops form and fall; nothing else is changed."),
    ("measure-leak", "it's dripping", "Drops form and fall; nothing else is changed."),
    ("measure-leak", "class two", "Drops form but do not fall; nothing else is changed."),
    ("measure-leak", "three", "Drops form and fall; nothing else is changed."),
    ("measure-leak", "couldn't see", "Class of the leak not told; nothing else is changed."),
    ("skipped-front", "no", "Not looked at; nothing else is changed."),
    ("skipped-front", "later", f"Later: {FRONT}."),
    ("skipped-front", "leave that to petra", f"Later: {FRONT}."),
    ("skipped-front", "couldn't see it", f"Hidden: {FRONT}."),
    ("skipped-front", "couldn't see them too much mud", f"Hidden: {FRONT}."),
    (
        "skipped-front",
        "all good except the tilt cylinder is weeping",
        "Watch, leak: tilt cylinder.\nGood: bucket pins, bucket linkage, left and right loader "
        "arm, loader arm pins and loader hoses.",
    ),
    (
        "skipped-front",
        "tilt cylinder's leaking rest is fine",
        "Write up, leak: tilt cylinder.\nGood: bucket pins, bucket linkage, left and right "
        "loader arm, loader arm pins and loader hoses.",
    ),
    (
        "skipped-front",
        "left loader arm is cracked, the rest is fine",
        "Write up, crack: left loader arm.\nGood: bucket pins, bucket linkage, tilt cylinder, "
        "right loader arm, loader arm pins and loader hoses.",
    ),
    (
        "skipped-front",
        "everything is good but the loader hoses are chafed",
        "Watch, chafed: loader hoses.\nGood: bucket pins, bucket linkage, tilt cylinder, left "
        "and right loader arm and loader arm pins.",
    ),
    ("skipped-front", "yes all fine", f"Good: {FRONT}."),
    ("skipped-front", "yeah they're all good", f"Good: {FRONT}."),
    ("skipped-front", "looked at them all and they're fine", f"Good: {FRONT}."),
    (
        "skipped-front",
        "yes good but couldn't see the tilt cylinder",
        "Hidden: tilt cylinder.\nGood: bucket pins, bucket linkage, left and right loader arm, "
        "loader arm pins and loader hoses.",
    ),
    (
        "skipped-rear",
        "tow hitch is worn and the radiator grille is blocked",
        "Watch, worn: tow hitch.\nWrite up, blocked: radiator grille.",
    ),
    ("skipped-rear", "counterweight bolts tight", "Good, tight: counterweight bolt."),
    ("skipped-cab", "horn works seat belt is frayed", "Good, works: horn.\nWatch, chafed: seat belt."),
    ("conflict", "the second", "Write up: leak holds.\nTaken off: left lift cylinder: good, dry."),
    ("conflict", "it's dry", "Good: dry holds.\nTaken off: left lift cylinder: write up, leak."),
    ("conflict", "both", "Both hold; nothing else is changed."),
    (
        "conflict",
        "the left one is leaking",
        "Write up: leak holds.\nTaken off: left lift cylinder: good, dry.",
    ),
    ("conflict", "it was leaking", "Write up: leak holds.\nTaken off: left lift cylinder: good, dry."),
    ("conflict", "weeping", "Write up: leak holds.\nTaken off: left lift cylinder: good, dry."),
    ("conflict", "it's fine", "Good: dry holds.\nTaken off: left lift cylinder: write up, leak."),
    ("hidden-left", "yes fine", "Articulation joint: good."),
    ("hidden-left", "washed it off no cracks", "Articulation joint: good, no crack."),
    ("hidden-left", "still can't see it", "Still hidden; nothing else is changed."),
    ("hidden-left", "no", "Still hidden; nothing else is changed."),
    ("hidden-left", "it's cracked", "Articulation joint: write up, crack."),
    ("hidden-left", "leave that to petra", "Articulation joint: later."),
    ("hidden-left", "later", "Articulation joint: later."),
    ("hidden-left", "greased it and it's good", "Articulation joint: good, greased."),
    ("later-eng", "yes twelve point six volts", "Batteries: good, measured, 12.6 V ± 0.05."),
    ("later-eng", "not yet", "Still later; nothing else is changed."),
    ("later-eng", "tomorrow", "Still later; nothing else is changed."),
    ("later-eng", "couldn't get at it", "Batteries: hidden."),
    ("later-eng", "terminals are loose", "Batteries: write up, loose."),
    ("hours", "eight four one two", "The hour meter reads 8,412 h."),
    ("hours", "eight thousand four hundred and twelve", "The hour meter reads 8,412 h."),
    ("hours", "eighty four twelve hours", "The hour meter reads 8,412 h."),
    ("hours", "it's not working", "Write up, inoperative: hour meter."),
    ("hours", "can't read it", "Watch, illegible: hour meter."),
    ("unit", "this is number seven", "The unit is “number seven”."),
    ("unit", "Loader Seven", "The unit is “Loader Seven”."),
    ("hidden-left", "no cracks", "Articulation joint: good, no crack."),
    ("skipped-rear", "no cracks in the counterweight", "Good, no crack: counterweight."),
    ("skipped-rear", "no leaks", "Good, no leak: counterweight, radiator grille and tow hitch."),
    ("again", "fixed", "Good: tow hitch."),
    ("again", "it's fine now", "Good: tow hitch."),
    ("again", "still the same", "Watch, worn: tow hitch."),
    ("again", "still worn", "Watch, worn: tow hitch."),
    ("again", "not looked at", "Not looked at; nothing else is changed."),
    ("again", "couldn't see it", "Hidden: tow hitch."),
    ("again", "worse, it's cracked", "Write up, crack: tow hitch."),
    ("unclear", "just talk", "Only talk; nothing is noted from these words."),
    ("unclear", "the left rear tyre is cut", "Write up, cut: left rear tyre."),
    ("unclear", "nothing", "Only talk; nothing is noted from these words."),
    ("unit", "its number seven", "The unit is “number seven”."),
    ("unit", "we call it Big Marta", "The unit is “Big Marta”."),
    ("measure-front", "um about eighteen mil", "Cutting edge: watch, worn, 18 mm ± 1.8."),
    ("measure-front", "eighteen and a half millimetres", "Cutting edge: watch, worn, 18.5 mm ± 0.25."),
    (
        "skipped-cab",
        "yeah all good but the horn doesn't work",
        "Write up, inoperative: horn.\nGood: cab door, windscreen, cab glass, windscreen wiper, left and "
        "right mirrors, seat, seat belt, steering, service brake, parking brake, control levers, "
        "direction switch, reverse alarm, instrument panel, warning lamps, hour meter, heater, "
        "floor mat, roll-over structure, manual and safety lever.",
    ),
    (
        "skipped-lights",
        "right headlight works brake lights are out",
        "Good, works: right headlight.\nWrite up, inoperative: left and right brake light.",
    ),
    ("skipped-rear", "all fine", "Good: counterweight, radiator grille and tow hitch."),
    ("skipped-rear", "I'll do it after lunch", "Later: counterweight, radiator grille and tow hitch."),
    (
        "skipped-underneath",
        "too muddy couldn't get under",
        "Hidden: ground under the machine, frame, belly pan, front axle, rear axle, oscillation "
        "pivot, propshaft, transmission and brake lines.",
    ),
    ("hours", "twelve thousand and six", "The hour meter reads 12,006 h."),
    ("later-eng", "yes they're good", "Batteries: good."),
    ("later-eng", "twelve point four volts", "Batteries: good, measured, 12.4 V ± 0.05."),
    ("side", "left", "Left headlight: write up, crack."),
    ("side", "right", "Right headlight: write up, crack."),
    ("side", "it's the left one", "Left headlight: write up, crack."),
    ("side", "both of them", "Headlight, both sides: write up, crack."),
    ("side", "the right hand one", "Right headlight: write up, crack."),
]


@pytest.mark.parametrize(("question", "words", "expected"), ROWS)
def test_an_answer_is_read_back(
    matter: Callable[[str], Matter], question: str, words: str, expected: str
) -> None:
    """The edit that an answer would make, in the words in which it is read back."""
    asked = matter(question)
    answer = understand(asked, words)
    assert answer.wish is not None, answer
    assert expected == read_back(made_of(answer.wish, asked, asked.standing), answer.note)


@pytest.mark.parametrize(
    ("question", "words", "kind", "ask"),
    [
        ("measure-front", "banana", "unknown", ""),
        ("measure-unit", "don't know", "open", ""),
        ("measure-leak", "banana", "unknown", ""),
        ("skipped-front", "loader arm is cracked", "more", "Loader arm: left, right or both?"),
        (
            "skipped-front",
            "leaking",
            "more",
            "Which part: bucket pins, bucket linkage, tilt cylinder, left and right loader arm, "
            "loader arm pins and loader hoses?",
        ),
        ("hidden-left", "yes", "more", "And how is it: good, or what is wrong?"),
        ("later-eng", "done", "more", "And how is it: good, or what is wrong?"),
        ("unit", "don't know", "open", ""),
        ("unclear", "banana", "unknown", ""),
        (
            "measure-front",
            "twenty mil on the left eighteen on the right",
            "more",
            "Those were several numbers. Which one, with its unit?",
        ),
        ("measure-front", "yes", "more", "How much, and in which unit?"),
        ("measure-front", "say that again", "again", ""),
        ("measure-front", "stop", "stop", ""),
        ("side", "the one over there", "unknown", ""),
        ("side", "not sure", "open", ""),
        ("skipped-rear", "weeping", "more", "Which part: counterweight, radiator grille and tow hitch?"),
        ("hours", "don't know", "open", ""),
    ],
)
def test_what_is_missing_is_asked(
    matter: Callable[[str], Matter], question: str, words: str, kind: str, ask: str
) -> None:
    """What is not understood stays unknown, what is half an answer is asked on, and skip, stop, again are heeded."""
    answer = understand(matter(question), words)
    assert (kind, ask) == (answer.kind, answer.ask)


@pytest.mark.parametrize(
    ("question", "first", "then", "expected"),
    [
        ("hidden-left", "yes", "yes", "Articulation joint: good."),
        ("hidden-left", "yes", "it's cracked", "Articulation joint: write up, crack."),
        ("skipped-rear", "yes", "yes", "Good: counterweight, radiator grille and tow hitch."),
        ("skipped-rear", "yes", "tow hitch is worn", "Watch, worn: tow hitch."),
        ("skipped-rear", "weeping", "radiator grille", "Watch, leak: radiator grille."),
        ("skipped-front", "loader arm is cracked", "left", "Write up, crack: left loader arm."),
        ("skipped-front", "loader arm is cracked", "both", "Write up, crack: left and right loader arm."),
        (
            "measure-front",
            "twenty mil left and eighteen right",
            "nineteen mil",
            "Cutting edge: watch, worn, 19 mm ± 0.5.",
        ),
        ("measure-front", "yes", "twelve millimetres", "Cutting edge: watch, worn, 12 mm ± 0.5."),
        ("later-eng", "done", "terminals are loose", "Batteries: write up, loose."),
    ],
)
def test_half_an_answer_is_completed(
    matter: Callable[[str], Matter], question: str, first: str, then: str, expected: str
) -> None:
    """What was asked on and answered makes one answer of the two."""
    asked = matter(question)
    half = understand(asked, first)
    assert "more" == half.kind
    assert half.turn is not None
    whole = understand(asked, half.turn(then))
    assert whole.wish is not None, whole
    assert expected == read_back(made_of(whole.wish, asked, asked.standing), whole.note)


@pytest.mark.parametrize(("question", "words", "_"), ROWS)
def test_an_answer_is_for_its_own_question(
    matter: Callable[[str], Matter], question: str, words: str, _: str
) -> None:
    """Every answer that changes something names its question, but where part of a zone is still to be answered."""
    asked = matter(question)
    answer = understand(asked, words)
    assert answer.wish is not None
    whole = answer.wish.question == asked.question.id
    assert whole or (asked.question.kind == "skipped" and answer.wish.question is None)
