"""Texts that try to be more than text."""

from collections.abc import Callable

from saycheck.models.walk import Walk

HOSTILE = [
    '#panic("said")',
    "*bold* _slanted_ `raw` $x^2$ = heading",
    '<label> @reference #import "/etc/passwd"',
    "</script><script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "{{ 7*7 }} {% raw %} ${7*7}",
    "=cmd|' /C calc'!A0",
    "-- ' OR 1=1; DROP TABLE walks",
    "\\u{0} \\n // comment /* open",
    "a\x00b\x07c\x1b[31mred\u2028line\u202eturned",
    'quote " comma , end\r\nnew row',
    "👩‍🔧🛠️ emoji",
    "中文",
    "עברית العربية",
    "e\u0301\u0301\u0301\u0301 stacked",
    "W" * 400,
    "%PDF-1.7 endobj",
]


def hostile_walk(make_walk: Callable[..., Walk], words: str) -> Walk:
    """A walk in which every text that a person can say or enter is ``words``."""
    at = {"char_start": 0, "char_end": len(words), "start_s": 0, "end_s": 1}
    finding = {
        "zone": words, "part": words, "side": "left", "check": words, "condition": words, "heard_as": words,
        "confidence": 0.5, "needs_review": True, "review_reasons": [words], "evidence": [at], "caution": words,
        "measurements": [{"value": 1, "unit": words, "text": words, "value_si": 1, "unit_si": words}],
    }  # fmt: skip
    states = ("writeup", "watch", "hidden", "later")
    return make_walk(
        words,
        id=f"2025-03-09-{words}",
        machine={"kind": "wheel-loader", "unit": words, "hours": 1},
        source={"name": words, "sha256": "0" * 64, "duration_s": 5},
        transcript={
            "text": words,
            "words": [],
            "spans": [{"char_start": 0, "char_end": len(words), "disposition": "unclear", "why": words}],
        },
        findings=[finding | {"id": state, "state": state} for state in states],
        checklist=[
            {"zone": words, "part": words, "side": "left", "state": state} for state in (*states, "unsaid")
        ],
        questions=[{"id": "q1", "about": {"zone": words}, "kind": "skipped", "text": words}],
        made_by={"version": words, "ears": [words], "vocabulary": words},
    )
