"""What a walk comes to in the end, weights and all: plain sentences that leave no doubt.

Each row is (part, side, state). Sentences where the weighing has a say are clear-cut on purpose.
"""

from collections.abc import Callable

import pytest

from saycheck.understanding.pipeline import Understood

Row = tuple[str, ...]
Rows = Callable[..., list[Row]]
Understand = Callable[..., Understood]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Horn works.", [("horn", "none", "good")]),
        ("Windscreen is cracked.", [("windscreen", "none", "writeup")]),
        ("Cracked windscreen.", [("windscreen", "none", "writeup")]),
        ("Seat is goosed.", [("seat", "none", "writeup")]),
        ("Left mirror is hanging off.", [("mirrors", "left", "writeup")]),
        ("Beacon's out.", [("beacon", "none", "writeup")]),
        ("Air filter is plugged.", [("air filter", "none", "writeup")]),
        ("Coolant's low.", [("coolant", "none", "writeup")]),
        ("Engine oil's a touch low.", [("engine oil", "none", "watch")]),
        ("Fan belt is a touch slack.", [("fan belt", "none", "watch")]),
        ("Left lift cylinder is weeping.", [("lift cylinder", "left", "watch")]),
        ("Gland on the left lift cylinder is weeping.", [("lift cylinder gland", "left", "watch")]),
        ("Fire extinguisher is missing.", [("fire extinguisher", "none", "writeup")]),
        ("Horn doesn't work.", [("horn", "none", "writeup")]),
        ("Horn doesn't work any more.", [("horn", "none", "writeup")]),
        ("The wipers do not work.", [("windscreen wiper", "none", "writeup")]),
        ("Fan belt needs work.", [("fan belt", "none", "writeup")]),
        ("Handrail's got a bolt loose.", [("handrail bolt", "none", "writeup")]),
        ("Seat belt retracts and latches fine.", [("seat belt", "none", "good")]),
        ("Nothing wrong with the seat.", [("seat", "none", "good")]),
        ("Nothing loose on the handrail.", [("handrail", "none", "good")]),
        ("The tilt cylinder isn't leaking any more.", [("tilt cylinder", "none", "good")]),
        ("Hydraulic tank, no leaks that I can see.", [("hydraulic tank", "none", "good")]),
        ("Couldn't see the belly pan for mud.", [("belly pan", "none", "hidden")]),
        ("Can't see the back of the left lift cylinder for mud.", [("lift cylinder", "left", "hidden")]),
        ("Radiator grille is packed with mud, can't see it.", [("radiator grille", "none", "hidden")]),
        ("I'll do the horn later.", [("horn", "none", "later")]),
        ("Fire extinguisher, I'll check the date later.", [("fire extinguisher", "none", "later")]),
        ("Keep an eye on the fan belt.", [("fan belt", "none", "watch")]),
    ],
)
def test_one_thing_said(found: Rows, text: str, expected: list[Row]) -> None:
    """One plain sentence, one finding, with the state that the trade means."""
    assert expected == found(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "No cracks in the bucket, but the hinge pin's got slop.",
            [("bucket", "none", "good"), ("bucket pins", "none", "watch")],
        ),
        (
            "Hoses, pins and retainers all good.",
            [
                ("loader hoses", "none", "good"),
                ("bucket pins", "none", "good"),
                ("bucket pins retainer", "none", "good"),
            ],
        ),
        (
            "Left headlight works, right one is out.",
            [("headlight", "left", "good"), ("headlight", "right", "writeup")],
        ),
        (
            "Left lift cylinder is weeping. Ditto on the right.",
            [("lift cylinder", "left", "watch"), ("lift cylinder", "right", "watch")],
        ),
        (
            "On the left side. Front tyre is good. Lift cylinder is dry. Other side. Front tyre is flat.",
            [
                ("front tyre", "left", "good"),
                ("lift cylinder", "left", "good"),
                ("front tyre", "right", "writeup"),
            ],
        ),
        (
            "Nearside front tyre is bald. Offside one is good.",
            [("front tyre", "left", "writeup"), ("front tyre", "right", "good")],
        ),
        ("Left mirror is cracked, sorry, the right one.", [("mirrors", "right", "writeup")]),
    ],
)
def test_several_things_said(found: Rows, text: str, expected: list[Row]) -> None:
    """Each thing said finds its part, side and state, in the order in which it was said."""
    assert expected == found(text)


def test_exception(understood: Understand) -> None:
    """ "All tight except two on the right": good, and two on the right that are not."""
    rest, two = understood("Front wheel nuts all tight except two on the right.").findings
    assert ("good", "writeup", "right", [(2, "count")]) == (
        rest.state,
        two.state,
        two.side,
        [(m.value, m.unit) for m in two.measurements],
    )


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("No cracks in the bucket, but the hinge pin's got slop.", [("crack", True), ("play", False)]),
        ("Bucket is cracked.", [("crack", False)]),
        ("Tilt cylinder isn't leaking.", [("leak", True)]),
        ("Horn works.", [("works", False)]),
        ("Radiator is fine. No fluff in it.", [("good", False), ("fluff", True)]),
    ],
)
def test_denied(understood: Understand, text: str, expected: list[tuple[str, bool]]) -> None:
    """A defect that was named in order to say that it is not there is kept as denied."""
    assert expected == [(f.condition, f.denied) for f in understood(text).findings]


@pytest.mark.parametrize(
    "text",
    [
        # teaching
        "You always want to look for cracks in the bucket.",
        "You want to check the fan belt every morning, because a slack belt will cook the engine.",
        "What you're looking for on the tyres is cuts and bulges.",
        "Never trust a dry gland.",
        "A weeping gland tells you the seal is on its way out.",
        "The manual says check the coolant cold.",
        # what may be
        "If that hose goes it takes the pump with it.",
        # another time
        "Last year we did the tilt cylinder.",
        "When I was a young lad we lost a wheel because nobody checked the nuts.",
        # another machine
        "The loader over there has a cracked windscreen.",
        # questions, and what belongs to the walk itself
        "Has anybody looked at the mirrors?",
        "Morning. Recorder's on, here we go.",
        "Right then, where were we?",
    ],
)
def test_talk_is_no_finding(understood: Understand, text: str) -> None:
    """Teaching, hypothesis, story, other machines, questions and greetings give no finding."""
    walk = understood(text)
    assert [] == walk.findings
    assert {"talk", "unclear"} >= {s.disposition for s in walk.spans}


@pytest.mark.parametrize(
    ("talk", "finding"),
    [
        ("You always want to look for cracks in the bucket. ", "Fan belt is cracked."),
        ("If that hose goes it takes the pump with it. ", "Horn works."),
        ("The loader over there has a cracked windscreen. ", "Left mirror is good."),
    ],
)
def test_finding_beside_talk(found: Rows, talk: str, finding: str) -> None:
    """A finding in the sentence after talk, or before it, is the finding it is alone."""
    assert found(finding) == found(talk + finding) == found(f"{finding} {talk}")


@pytest.mark.parametrize(
    ("text", "word", "disposition"),
    [
        ("Bucket is cracked.", "cracked", "finding"),
        ("You always want to look for cracks in the bucket.", "cracks", "talk"),
        ("Morning all. Bucket is cracked.", "Morning", "talk"),
        ("Fan belt is cracked. Scratch that.", "Fan belt", "taken-back"),
        ("Fan belt is cracked. Scratch that.", "Scratch that", "command"),
        ("Something is leaking.", "leaking", "unclear"),  # a defect, but of which part?
        ("Cutting edge is eighteen millimetres, make that sixteen millimetres.", "sixteen", "finding"),
    ],
)
def test_disposition(understood: Understand, text: str, word: str, disposition: str) -> None:
    """What became of a word: finding, talk, command, taken back, or unclear; a defect never vanishes."""
    at = text.index(word)
    (kind,) = {s.disposition for s in understood(text).spans if s.char_start <= at < s.char_end}
    assert disposition == kind


@pytest.mark.parametrize(
    ("text", "part", "value", "unit"),
    [
        ("Left front tyre is good, four eight p s i.", "front tyre", 48, "psi"),
        ("Cutting edge is worn, three sixteenths left.", "cutting edge", 3 / 16, "in"),
        ("Cutting edge is worn. Eighteen millimetres left.", "cutting edge", 18, "mm"),
        ("Batteries are good, twelve point six volts.", "batteries", 12.6, "V"),
        ("Coolant is good to minus thirty five.", "coolant", -35, "degC"),
        ("Fan belt is slack, about half an inch.", "fan belt", 0.5, "in"),
        ("Left front tyre is good, sixty psi. Scratch that, call it fifty psi.", "front tyre", 50, "psi"),
    ],
)
def test_measurement(understood: Understand, text: str, part: str, value: float, unit: str) -> None:
    """A number said of a part is measured on it, in the unit that was said or that such parts are given in."""
    ((finding, measured),) = [(f, m) for f in understood(text).findings for m in f.measurements]
    assert pytest.approx(value) == measured.value
    assert (part, unit) == (finding.part, measured.unit)


def test_range_is_kept_open(understood: Understand) -> None:
    """ "Between three and four" is three and a half, open by a half either way."""
    (finding,) = understood("Bucket pin has between three and four millimetres of play.").findings
    assert [(3.5, "mm", 0.5)] == [(m.value, m.unit, m.plus_minus) for m in finding.measurements]


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("Left front tyre has a cut.", "left side"),
        ("Right front tyre has a cut.", "right side"),
        ("Windscreen is cracked.", "cab"),
        ("Fan belt is slack.", "engine bay"),
    ],
)
def test_zone(understood: Understand, text: str, zone: str) -> None:
    """A finding stands in the zone where its part is looked at."""
    assert [zone] == [f.zone for f in understood(text).findings]


def test_part_of_no_list_is_kept(understood: Understand) -> None:
    """A defect on a part that the machine's list does not know is not thrown away."""
    walk = understood("Left front tyre is good. The spice rack is cracked.")
    at = walk.reading.text.index("cracked") if walk.reading else -1
    (span,) = [s for s in walk.spans if s.char_start <= at < s.char_end]
    assert span.disposition in ("finding", "unclear")


@pytest.mark.parametrize(
    ("marked", "bare"),
    [
        ("Horn works. Windscreen is cracked.", "horn works windscreen is cracked"),
        (
            "Bucket is good. Fan belt is slack. Seat belt is torn.",
            "bucket is good fan belt is slack seat belt is torn",
        ),
        ("Left mirror is good. Right mirror is cracked.", "left mirror is good right mirror is cracked"),
    ],
)
def test_as_a_recogniser_gives_it(found: Rows, marked: str, bare: str) -> None:
    """Without marks and capitals the same is understood."""
    assert found(marked) == found(bare)


@pytest.mark.parametrize(
    ("text", "trouble"),
    [("I'd be surprised if that belt lasts.", True), ("I'd be surprised if that hose is leaking.", False)],
)
def test_what_would_surprise_is_denied(understood: Understand, text: str, trouble: bool) -> None:
    """Whoever would be surprised if it lasts says that it will not; if it leaks, that it does not."""
    [found] = understood(text).findings
    assert trouble == (found.state in ("watch", "writeup"))
