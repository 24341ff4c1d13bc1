"""Teaching, hypothesis, story, other machine, question: what is not about this machine as it is now."""

from collections.abc import Callable

import pytest

from saycheck.understanding.pipeline import prepared
from saycheck.understanding.talk import context_of

Contexts = Callable[[str], list[tuple[str, str | None]]]


@pytest.fixture(scope="module")
def contexts() -> Contexts:
    """Reads a text: each statement's part and the kind of talk it belongs to, by the rules."""

    def find(text: str) -> list[tuple[str, str | None]]:
        reading, statements = prepared(text, "wheel-loader")
        return [(s.subject.part.name, context_of(reading, s)) for s in statements]

    return find


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("You always want to look for cracks in the bucket.", "teach"),
        ("If the bucket is cracked you stop.", "hypothesis"),
        ("If that hose goes you lose the bucket.", "hypothesis"),
        ("Last year the bucket cracked.", "story"),
        ("The loader over there has a cracked windscreen.", "other-machine"),
        ("Is the bucket cracked?", "question"),
        ("Could be the bucket is cracked.", "hypothesis"),
        ("The bucket cracked last year.", "story"),  # the cue may stand behind
    ],
)
def test_talk(contexts: Contexts, text: str, kind: str) -> None:
    """A cue makes talk of the clause it stands in."""
    assert {kind} == {context for _, context in contexts(text)}


@pytest.mark.parametrize(
    "text",
    [
        "The bucket is cracked.",
        "I'd say the windscreen is cracked.",
        "Fan belt could do with tightening, it's loose.",
        "Windscreen is cracked worse than last year.",
        "The hose is wet, so somebody look at that.",
        "Wheel nuts are tight, all but number three, which is loose.",  # a nut, no machine
    ],
)
def test_no_talk(contexts: Contexts, text: str) -> None:
    """What is said of this machine now is a finding, also where it looks back."""
    found = contexts(text)
    assert found
    assert {None} == {context for _, context in found}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "You always look at the bucket, but the windscreen is cracked.",
            [("windscreen", None)],
        ),
        (
            "Always check the mirrors: the left mirror is cracked.",
            [("mirrors", None)],
        ),
    ],
)
def test_back_to_this_machine(contexts: Contexts, text: str, expected: list[tuple[str, str | None]]) -> None:
    """Words that turn the talk back to this machine end the talk in the same breath."""
    assert expected[-1] == contexts(text)[-1]


def test_talk_ends_with_its_sentence(contexts: Contexts) -> None:
    """The next sentence begins without the cue of the last."""
    assert ("bucket", None) == contexts("You always look at the seat belt first. Bucket is cracked.")[-1]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "right front tyre cords are showing last year we ran one like that and it burst",
            "right front tyre cords are showing",
        ),
        (
            "left front tyre is cut the other loader had one like it and that leaked",
            "left front tyre is cut",
        ),
    ],
)
def test_a_story_behind_a_finding_is_none_of_its_words(text: str, said: str) -> None:
    """Also where no mark stands between them, as a recogniser writes it."""
    reading, (first, *_) = prepared(text, "wheel-loader")
    assert said == reading.quote(first.start, first.end)
