"""Which part of a machine a person means who types its name."""

from saycheck.errors import VocabularyError
from saycheck.vocabulary.compiled import Part, Vocabulary
from saycheck.vocabulary.files import did_you_mean


def part_named(name: str, vocabulary: Vocabulary) -> Part:
    """The part by its name or any of its sayings; VocabularyError with the nearest where there is none."""
    wanted = " ".join(name.lower().split())
    for part in vocabulary.parts:
        if wanted == part.name.lower() or wanted in part.sayings:
            return part
    hint = did_you_mean(wanted, [part.name for part in vocabulary.parts]) or ";"
    raise VocabularyError(
        f"a {vocabulary.name} has no part '{name}'{hint} `saycheck vocab show {vocabulary.kind}` lists them"
    )
