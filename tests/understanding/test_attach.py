"""Which condition, number and mark belongs to which part: what the rules make of a sentence.

Each row is (part, side, state, condition), "no" before a condition that is denied.
"""

from collections.abc import Callable

import pytest

from saycheck.understanding.statements import Statement
from saycheck.understanding.text import Reading

Row = tuple[str, ...]
Read = Callable[..., Reading]
Rows = Callable[..., list[Row]]
Statements = Callable[..., list[Statement]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Windscreen is cracked.", [("windscreen", "none", "writeup", "crack")]),
        # the words in another order
        ("Cracked windscreen.", [("windscreen", "none", "writeup", "crack")]),
        ("There's a crack in the windscreen.", [("windscreen", "none", "writeup", "crack")]),
        ("Got a crack, the windscreen.", [("windscreen", "none", "writeup", "crack")]),
        ("Weeping, the left lift cylinder.", [("lift cylinder", "left", "watch", "leak")]),
        ("Fan belt tight.", [("fan belt", "none", "good", "tight")]),
        ("Tight fan belt.", [("fan belt", "none", "good", "tight")]),
    ],
)
def test_one_part(ruled: Rows, text: str, expected: list[Row]) -> None:
    """One thing said of one part, in whatever order the words come."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Hoses, pins and retainers all good.",
            [
                ("loader hoses", "none", "good", "good"),
                ("bucket pins", "none", "good", "good"),
                ("bucket pins retainer", "none", "good", "good"),
            ],
        ),
        (
            "Bucket and cutting edge are good.",
            [("bucket", "none", "good", "good"), ("cutting edge", "none", "good", "good")],
        ),
        (
            "Bucket, cutting edge and tilt cylinder good.",
            [
                ("bucket", "none", "good", "good"),
                ("cutting edge", "none", "good", "good"),
                ("tilt cylinder", "none", "good", "good"),
            ],
        ),
        (
            "Horn, wipers and seat belt work.",
            [
                ("horn", "none", "good", "works"),
                ("wipers", "none", "good", "works"),
                ("seat belt", "none", "good", "works"),
            ],
        ),
    ],
)
def test_lists(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is said behind a list is said of every part in it."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Horn works, seat belt is torn.",
            [("horn", "none", "good", "works"), ("seat belt", "none", "writeup", "split")],
        ),
        (
            "Tilt cylinder rod is scored and the gland is weeping.",
            [
                ("tilt cylinder rod", "none", "watch", "scored"),
                ("tilt cylinder gland", "none", "watch", "leak"),
            ],
        ),
        (
            "Fan belt is tight, but it has a nick in it.",
            [("fan belt", "none", "good", "tight"), ("fan belt", "none", "watch", "chipped")],
        ),
        (
            "No cracks in the bucket, but the hinge pin's got slop.",
            [("bucket", "none", "good", "no crack"), ("bucket pins", "none", "watch", "play")],
        ),
        (
            "No cracks, but the pin's got slop.",
            [("bucket pins", "none", "good", "no crack"), ("bucket pins", "none", "watch", "play")],
        ),
        (
            "Bucket is bent and cracked.",
            [("bucket", "none", "writeup", "crack")],  # one finding, the worst word first
        ),
    ],
)
def test_several_in_one_breath(ruled: Rows, text: str, expected: list[Row]) -> None:
    """Each part keeps its own condition; good and bad of one part are two statements."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Gland on the left lift cylinder is weeping.", [("lift cylinder gland", "left", "watch", "leak")]),
        ("Left lift cylinder gland is weeping.", [("lift cylinder gland", "left", "watch", "leak")]),
        ("Left lift cylinder is weeping at the gland.", [("lift cylinder gland", "left", "watch", "leak")]),
        ("Leak at the tilt cylinder gland.", [("tilt cylinder gland", "none", "writeup", "leak")]),
        ("Loose bolt on the handrail.", [("handrail bolt", "none", "writeup", "loose")]),
    ],
)
def test_part_on_a_part(ruled: Rows, text: str, expected: list[Row]) -> None:
    """A part named with the one it sits on is one subject, from either end."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fan belt is tight. It has a nick in it.", ("fan belt", "none", "watch", "chipped")),
        (
            "Left lift cylinder is dry. Wet at the gland though.",
            ("lift cylinder gland", "left", "writeup", "leak"),
        ),
        ("Left lift cylinder is weeping. The other one is dry.", ("lift cylinder", "right", "good", "dry")),
        ("Left headlight works, right one is out.", ("headlight", "right", "writeup", "inoperative")),
        ("Left mirror is good. Right one is cracked.", ("mirrors", "right", "writeup", "crack")),
        ("Headlights both work.", ("headlight", "both", "good", "works")),
    ],
)
def test_pointing_back(ruled: Rows, text: str, expected: Row) -> None:
    """ "It", "the other one", "right one" and "both" mean the part last spoken of."""
    assert expected == ruled(text)[-1]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Left lift cylinder is weeping. Ditto on the right.",
            [("lift cylinder", "left", "watch", "leak"), ("lift cylinder", "right", "watch", "leak")],
        ),
        (
            "Left lift cylinder is weeping. Same on the right.",
            [("lift cylinder", "left", "watch", "leak"), ("lift cylinder", "right", "watch", "leak")],
        ),
        (
            "Left mirror is cracked. Right mirror ditto.",
            [("mirrors", "left", "writeup", "crack"), ("mirrors", "right", "writeup", "crack")],
        ),
        (
            "Left mirror has no cracks. Same on the other side.",
            [("mirrors", "left", "good", "no crack"), ("mirrors", "right", "good", "no crack")],
        ),
    ],
)
def test_same_again(ruled: Rows, text: str, expected: list[Row]) -> None:
    """ "Ditto" says the same of the other side or of the part named, denial included."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Handrails all tight except the right one.",
            [("handrail", "both", "good"), ("handrail", "right", "writeup")],
        ),
        (
            "Mirrors are good apart from the left one, that's cracked.",
            [("mirrors", "both", "good"), ("mirrors", "left", "writeup")],
        ),
    ],
)
def test_exceptions(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is excepted is not as the rest: a statement of its own."""
    assert expected == [row[:3] for row in ruled(text)]


def test_exception_counts(statements: Statements) -> None:
    """ "All tight except two on the right": two are not tight, on the right."""
    rest, two = statements("Front wheel nuts all tight except two on the right.")
    assert (None, {"exception"}, "right") == (rest.count, two.marks, two.subject.side)
    assert two.count is not None
    assert 2 == two.count[0]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fan belt is cracked, scratch that.", []),
        ("Fan belt is cracked. Scratch that.", []),
        ("Fan belt is cracked. Scratch that, it's fine.", [("fan belt", "none", "good", "good")]),
        (
            "Left steering cylinder is weeping, no wait, the right one.",
            [("steering cylinder", "right", "watch", "leak")],
        ),
        ("Left mirror is cracked, sorry, the right one.", [("mirrors", "right", "writeup", "crack")]),
        # only the last statement is taken back
        ("Horn works. Fan belt is cracked. Scratch that.", [("horn", "none", "good", "works")]),
    ],
)
def test_taken_back(ruled: Rows, text: str, expected: list[Row]) -> None:
    """What is taken back no longer counts, and a side put right moves the statement."""
    assert expected == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Can't see the articulation joint for mud.", ("articulation joint", "none", "hidden", "hidden")),
        ("Radiator grille is packed with mud.", ("radiator grille", "none", "hidden", "hidden")),
        ("I'll do the horn later.", ("horn", "none", "later", "later")),
        ("Horn later, when she's running.", ("horn", "none", "later", "later")),
        ("Keep an eye on the fan belt.", ("fan belt", "none", "watch", "watch")),
        ("Fan belt is slack, keep an eye on it.", ("fan belt", "none", "watch", "play")),
        ("Fan belt is slack. Write that up.", ("fan belt", "none", "writeup", "play")),
        ("Tilt cylinder weeping, will do for now.", ("tilt cylinder", "none", "watch", "leak")),
        ("No fire extinguisher.", ("fire extinguisher", "none", "writeup", "missing")),
        ("There's no fire extinguisher.", ("fire extinguisher", "none", "writeup", "missing")),
        ("Horn doesn't work.", ("horn", "none", "writeup", "inoperative")),
    ],
)
def test_marks(ruled: Rows, text: str, expected: Row) -> None:
    """Hidden, put off, watched, written up, absent: what the walker says of it, in one sentence or two."""
    assert [expected] == ruled(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Seat is worn.", "watch"),
        ("Seat is badly worn.", "writeup"),
        ("Seat is a touch worn.", "watch"),
        ("Fan belt is a touch slack.", "watch"),
        ("Seat is goosed.", "writeup"),
        ("Seat is shot.", "writeup"),
        ("Left mirror is hanging off.", "writeup"),
        ("Tilt cylinder is weeping.", "watch"),
        ("Tilt cylinder is leaking.", "writeup"),
        ("Tilt cylinder is leaking slightly.", "watch"),
    ],
)
def test_degree(ruled: Rows, text: str, expected: str) -> None:
    """From "a touch" to "hanging off": the state is what the trade means by the words."""
    assert [expected] == [state for _, _, state, _ in ruled(text)]


@pytest.mark.parametrize(
    ("text", "part", "value", "unit"),
    [
        ("Left front tyre, four eight p s i.", "front tyre", 48, "psi"),
        ("Forty eight psi in the left front tyre.", "front tyre", 48, "psi"),  # before the part
        ("Left front tyre is good. Forty eight psi.", "front tyre", 48, "psi"),  # in the next breath
        ("Cutting edge is worn, three sixteenths left.", "cutting edge", 3 / 16, "in"),
        ("Three sixteenths left on the cutting edge.", "cutting edge", 3 / 16, "in"),
        ("Eighteen millimetres on the cutting edge.", "cutting edge", 18, "mm"),
        ("Cutting edge is worn. Eighteen millimetres left.", "cutting edge", 18, "mm"),
        ("Bucket pin has between three and four mil of play.", "bucket pins", 3.5, "mm"),
        ("Between three and four mil of play in the bucket pin.", "bucket pins", 3.5, "mm"),
        ("Fan belt deflects half an inch.", "fan belt", 0.5, "in"),
        ("Coolant is good to minus thirty five.", "coolant", -35, "degC"),
        ("Left front tyre forty eight.", "front tyre", 48, "psi"),  # the part leaves no doubt
        (
            "Cutting edge is eighteen millimetres, make that sixteen millimetres.",
            "cutting edge",
            16,
            "mm",
        ),  # put right at once
        ("Left front tyre is at um forty uh eight psi.", "front tyre", 48, "psi"),
    ],
)
def test_numbers(statements: Statements, text: str, part: str, value: float, unit: str) -> None:
    """A number goes to its part, also when it comes before the part or in the next breath."""
    ((statement, quantity),) = [(s, q) for s in statements(text) for q, _ in s.quantities]
    assert pytest.approx(value) == quantity.value
    assert (part, unit) == (statement.subject.part.name, quantity.unit)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Left front forty eight, right front fifty two.",
            [("front tyre", "left", 48), ("front tyre", "right", 52)],
        ),
        (
            "Tyres: left front forty eight psi, right front fifty, left rear forty six.",
            [("front tyre", "left", 48), ("front tyre", "right", 50), ("rear tyre", "left", 46)],
        ),
        (
            "Batteries twelve point six and twelve point five.",
            [("batteries", "none", 12.6), ("batteries", "none", 12.5)],
        ),
    ],
)
def test_numbers_in_a_row(statements: Statements, text: str, expected: list[tuple[str, str, float]]) -> None:
    """Numbers said one after the other each find their own part and side."""
    found = [
        (s.subject.part.name, s.subject.side or "none", q.value)
        for s in statements(text)
        for q, _ in s.quantities
    ]
    assert expected == found


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Three teeth missing.", 3),
        ("One tooth is missing.", 1),
        ("One of the teeth is missing.", 1),
        ("Two wheel nuts missing on the right rear.", 2),
        ("Teeth are all there.", None),
        ("The left one of the mirrors is cracked.", None),  # points at one, counts nothing
        ("Number two tooth is loose.", None),
    ],
)
def test_counts(statements: Statements, text: str, expected: int | None) -> None:
    """How many of a part are meant; a number that points at one is no count."""
    made = statements(text)
    assert made
    assert {expected} == {s.count[0] if s.count else None for s in made}


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        ("So, the left mirror is cracked, I think.", "left mirror is cracked"),
        ("There's a leak at the tilt cylinder gland.", "leak at the tilt cylinder gland"),
        ("Windscreen has a stone chip in it.", "Windscreen has a stone chip"),
    ],
)
def test_words_of_a_statement(read: Read, statements: Statements, text: str, quoted: str) -> None:
    """A statement covers the words from the part to what is said of it."""
    (made,) = statements(text)
    assert quoted == read(text).quote(made.start, made.end)


@pytest.mark.parametrize(
    ("kind", "text", "expected"),
    [
        ("backhoe-loader", "Dipper cylinder is leaking.", [("dipper cylinder", "none", "writeup", "leak")]),
        ("crawler-excavator", "Left track is slack.", [("track", "left", "watch", "play")]),
        ("farm-tractor", "Nearside rear tyre has a cut.", [("rear tyre", "left", "writeup", "cut")]),
    ],
)
def test_other_machines(ruled: Rows, kind: str, text: str, expected: list[Row]) -> None:
    """The same grammar over another machine's parts."""
    assert expected == ruled(text, kind)
