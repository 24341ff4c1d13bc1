"""What the terminal shows of a walk."""

from collections.abc import Callable
from io import StringIO

import pytest
from rich.console import Console

from saycheck.models.walk import Walk
from saycheck.reporting.terminal import show

TEXT = "Left mirror is cracked. Bucket worn 17 mm. I can't see the pins. Mumble."


def finding(state: str, part: str, start: int, end: int, **other: object) -> dict[str, object]:
    """A finding at a place of TEXT, heard ten characters a second."""
    return {
        "id": f"f{start:03}", "zone": "front", "part": part, "side": "none", "check": "cracked", "state": state,
        "condition": state if state in ("hidden", "later") else "crack", "heard_as": TEXT[start:end],
        "confidence": 0.9,
        "evidence": [{"char_start": start, "char_end": end, "start_s": start / 10, "end_s": end / 10}],
    } | other  # fmt: skip


@pytest.fixture
def walk(make_walk: Callable[..., Walk]) -> Walk:
    """A walk with one of everything."""
    return make_walk(
        TEXT,
        source={"name": "yard.m4a", "sha256": "0" * 64, "duration_s": 724},
        transcript={
            "text": TEXT,
            "words": [
                {"text": "Mumble.", "char_start": 65, "char_end": 72, "start_s": 131.0, "end_s": 131.5}
            ],
            "spans": [
                {"char_start": 0, "char_end": 65, "disposition": "finding"},
                {"char_start": 65, "char_end": 72, "disposition": "unclear", "why": "wind"},
            ],
        },
        findings=[
            finding("writeup", "mirror", 0, 23, side="left", caution="Mind the glass."),
            finding("writeup", "window", 0, 23, caution="Mind the glass."),
            finding("watch", "bucket", 24, 42, condition="worn", needs_review=True, review_reasons=["noisy"]),
            finding("hidden", "bucket pins", 43, 64),
        ],
        checklist=[
            {"zone": "front", "part": "mirror", "side": "left", "state": "writeup"},
            {"zone": "front", "part": "mirror", "side": "right", "state": "unsaid"},
            {"zone": "front", "part": "steps", "side": "left", "state": "unsaid"},
            {"zone": "front", "part": "steps", "side": "right", "state": "unsaid"},
            {"zone": "cab", "part": "seat", "side": "none", "state": "good"},
        ],
        questions=[{"id": "q1", "about": {"zone": "front"}, "kind": "skipped", "text": "Steps. Looked at?"}],
        sound=[
            {"start_s": 0, "end_s": 130, "kind": "speech", "snr_db": 20},
            {"start_s": 130, "end_s": 171, "kind": "speech", "snr_db": 0, "trouble": "wind"},
        ],
        made_by={"version": "0.1.0", "ears": ["builtin", "trade"], "vocabulary": "0123456789ab"},
    )


def shown(walk: Walk, width: int = 80) -> str:
    """The view as it goes through a pipe."""
    text = StringIO()
    show(walk, Console(file=text, width=width))
    return text.getvalue()


def test_the_whole_view(walk: Walk) -> None:
    """Everything in the order in which it is needed; a caution once, no mark for a state but its word."""
    expected = """\
Number Seven, wheel loader, 4,812 h
walk of 12 min 4 s from yard.m4a, heard by builtin and trade
41 s of 2 min 51 s of speech could not be trusted: wind
of 1 word: finding 88%, unclear 12%

to decide (2) ──────────────────────────────────────────────────────────────────
 write up  left mirror: crack                                        front  0:00
           “Left mirror is cracked.”
           Take care: Mind the glass.
 write up  window: crack                                             front  0:00
           “Left mirror is cracked.”

to watch (1) ───────────────────────────────────────────────────────────────────
    watch  bucket: worn                                              front  0:02
           “Bucket worn 17 mm.”
           look again: noisy

hidden or put off (1) ──────────────────────────────────────────────────────────
   hidden  bucket pins                                               front  0:04
           “I can't see the pins.”

questions, in walking order (1) ────────────────────────────────────────────────
        1  Steps. Looked at?

checklist (2 of 5 lines spoken of) ─────────────────────────────────────────────
           front
 write up  left mirror
   unsaid  right mirror, steps both sides
           cab
     good  seat

not understood (1) ─────────────────────────────────────────────────────────────
     2:11  “Mumble.” (wind)
"""
    assert expected == "".join(line.rstrip() + "\n" for line in shown(walk).splitlines())


@pytest.mark.parametrize("width", [40, 60, 80, 100, 200])
def test_it_fits_the_terminal(walk: Walk, width: int) -> None:
    """No line is wider than the terminal, nor than reads well."""
    assert all(len(line) <= min(width, 100) for line in shown(walk, width).splitlines())


def test_colour_only_supports(walk: Walk) -> None:
    """With colour the words are the same as without."""
    text = StringIO()
    show(walk, Console(file=text, width=80, force_terminal=True, color_system="truecolor"))
    from rich.text import Text

    plain = [line.rstrip() for line in Text.from_ansi(text.getvalue()).plain.splitlines()]
    assert [line.rstrip() for line in shown(walk).splitlines()] == plain


def test_nothing_found_is_not_called_fine(make_walk: Callable[..., Walk]) -> None:
    """A walk without a write-up says that none was heard, not that the machine is good."""
    text = shown(make_walk())
    assert "Nothing to write up was heard." in text
    assert "good" not in text.replace("Bucket is good.", "")
