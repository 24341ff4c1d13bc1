"""Which conditions are denied: how far "no" reaches, and where its reach ends."""

from collections.abc import Callable

import pytest

from saycheck.understanding.denial import absent, denied
from saycheck.understanding.events import events
from saycheck.understanding.text import Reading

Read = Callable[..., Reading]
Denials = Callable[[str], dict[str, bool]]


@pytest.fixture(scope="module")
def denials(read: Read) -> Denials:
    """Reads a text: each condition as said, and whether it is denied."""

    def find(text: str) -> dict[str, bool]:
        reading = read(text)
        out = {}
        for start, end in reading.sentences:
            happens = events(reading, start, end)
            for mention in happens:
                if mention.kind == "condition":
                    cue = denied(reading, mention, happens)
                    out[reading.quote(mention.start, mention.end).lower()] = cue is not None
        return out

    return find


@pytest.mark.parametrize(
    ("text", "condition"),
    [
        ("No cracks in the bucket.", "cracks"),
        ("Bucket has no cracks.", "cracks"),
        ("The tilt cylinder isn't leaking.", "leaking"),
        ("The tilt cylinder is not leaking.", "leaking"),
        ("The tilt cylinder isn't leaking any more.", "leaking"),
        ("Not seeing any leaks on the tilt cylinder.", "leaks"),
        ("Can't see any leaks on the tilt cylinder.", "leaks"),
        ("Couldn't find a loose one.", "loose"),
        ("No sign of a leak at the gland.", "leak"),
        ("Glass is free of chips.", "chips"),
        ("Neither lift cylinder is leaking.", "leaking"),
        ("None of the bolts are loose.", "loose"),
        ("Nothing loose on the handrail.", "loose"),
        ("Handrail's not bent.", "bent"),
        ("Leaks none.", "leaks"),  # the denial follows
        ("Cracks in the bucket, none.", "cracks"),
        ("The bucket hasn't got a crack in it.", "crack"),
        ("No visible damage on the handrail.", "damage"),
        ("Without any cracks.", "cracks"),
        ("The rod is no longer weeping.", "weeping"),
        ("The stay doesn't creep.", "creep"),
    ],
)
def test_denied(denials: Denials, text: str, condition: str) -> None:
    """A defect named in order to say that it is not there."""
    assert denials(text)[condition]


@pytest.mark.parametrize(
    ("text", "condition"),
    [
        ("Bucket is cracked.", "cracked"),
        ("No idea how, but the bucket is cracked.", "cracked"),
        ("No doubt the bucket is cracked.", "cracked"),
        ("Not only the hose is chafed.", "chafed"),
        ("No, the hose is chafed.", "chafed"),  # an answer, not a denial
        ("No leaks. Hose is chafed.", "chafed"),  # a new sentence
    ],
)
def test_not_denied(denials: Denials, text: str, condition: str) -> None:
    """Words that look like a denial deny nothing, and no denial outlives its sentence."""
    assert not denials(text)[condition]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("No cracks, but the pin's got slop.", {"cracks": True, "slop": False}),
        ("No cracks though it's bent.", {"cracks": True, "bent": False}),
        ("No cracks but the pin is loose.", {"cracks": True, "loose": False}),  # no comma needed
        ("Not pretty but loose.", {"loose": False}),
        ("The rod isn't scored, just dirty.", {"scored": True, "dirty": False}),
        ("Not leaking, only damp.", {"leaking": True, "damp": False}),
        ("No leaks except a weep at the gland.", {"leaks": True, "weep": False}),
        ("No leaks; hose is chafed.", {"leaks": True, "chafed": False}),
        # a denial behind that goes on is one of what follows
        ("The belt has cracks and nothing missing.", {"cracks": False, "missing": True}),
        ("Rear tyre, cuts, none of them through.", {"cuts": False}),
        ("Cracks in the bucket, none of them.", {"cracks": True}),
    ],
)
def test_reach_ends(denials: Denials, text: str, expected: dict[str, bool]) -> None:
    """The reach of a denial ends where the clause turns."""
    assert expected == denials(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("No cracks or bends.", {"cracks": True, "bends": True}),
        ("No cracks, leaks or bends.", {"cracks": True, "leaks": True, "bends": True}),
        ("No cracks, no leaks.", {"cracks": True, "leaks": True}),
        ("No cracks, good.", {"cracks": True, "good": False}),
        ("Isn't cracked or bent.", {"cracked": True, "bent": True}),
        (
            "No cracks, bends, dents or leaks on it.",
            {"cracks": True, "bends": True, "dents": True, "leaks": True},
        ),
    ],
)
def test_lists(denials: Denials, text: str, expected: dict[str, bool]) -> None:
    """A denial reaches through a list."""
    assert expected == denials(text)


@pytest.mark.parametrize(
    ("text", "condition", "cue"),
    [
        ("Bucket has no cracks.", "cracks", "no"),
        ("The rod isn't scored.", "scored", "isn't"),
        ("Not seeing any leaks.", "leaks", "Not seeing any"),
    ],
)
def test_the_cue_is_kept(read: Read, text: str, condition: str, cue: str) -> None:
    """The words that deny are handed back, as evidence."""
    reading = read(text)
    happens = events(reading, *reading.sentences[0])
    mention = next(m for m in happens if reading.quote(m.start, m.end) == condition)
    found = denied(reading, mention, happens)
    assert found is not None
    assert cue == reading.quote(found.start, found.end)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Brake chamber, no hiss.", "hiss"),  # a word that no table knows
        ("The screen is free of fly rock.", "fly rock"),
        ("Top pin, nothing at all.", "trouble"),
        ("Studs, none moved.", "movement"),
        ("The tank, no problem.", None),
        ("The sprocket is worn, nothing much.", None),
        ("Sag is forty, no fifty.", None),  # a number put right
    ],
)
def test_absent(read: Read, text: str, expected: str | None) -> None:
    """What is named as not there, in words that no table has."""
    reading = read(text)
    told = absent(reading, *reading.sentences[0])
    assert expected == (told and told[0])
