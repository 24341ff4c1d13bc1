"""The forms of English verbs and nouns that the condition table leaves to rule."""

from collections.abc import Iterator

from saycheck.understanding.phrases import plural

IRREGULAR_VERBS = {
    "break": ("breaks", "broke", "breaking"), "split": ("splits", "split", "splitting"),
    "tear": ("tears", "tore", "tearing"), "wear": ("wears", "wore", "wearing"),
    "bend": ("bends", "bent", "bending"), "leak": ("leaks", "leaked", "leaking"),
    "seep": ("seeps", "seeped", "seeping"), "weep": ("weeps", "wept", "weeping"),
    "sweat": ("sweats", "sweated", "sweating"), "grind": ("grinds", "ground", "grinding"),
    "lose": ("loses", "lost", "losing"),
}  # fmt: skip
DOUBLES = frozenset(["drip", "rip", "snap", "rub", "scrub", "chip", "drop", "sag", "slip", "strip"])


def verb_forms(verb: str) -> Iterator[str]:
    """All forms of a verb: base, third person, past, ``-ing``."""
    yield verb
    if verb in IRREGULAR_VERBS:
        yield from IRREGULAR_VERBS[verb]
        return
    yield plural(verb)
    stem = verb + verb[-1] if verb in DOUBLES else verb
    if verb.endswith("e"):
        yield from (verb + "d", verb[:-1] + "ing")
    elif verb.endswith("y"):
        yield from (verb[:-1] + "ied", verb + "ing")
    else:
        yield from (stem + "ed", stem + "ing")


def noun_forms(noun: str) -> Iterator[str]:
    """Singular and plural of a noun or noun phrase."""
    *front, head = noun.split()
    yield noun
    yield " ".join([*front, plural(head)])
