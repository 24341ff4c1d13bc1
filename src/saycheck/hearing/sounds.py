"""How words sound, in the phones of the CMU pronouncing dictionary (ARPAbet without stress).

A word is looked up in the vocabulary's own ``sounds.toml``, then in the dictionary that pocketsphinx
carries (134,000 entries), then taken apart: short forms ("bolt's"), endings ("kinked"), beginnings
("overfilled"), compounds ("mudguard"). What is left is read letter by letter.
"""

import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

from saycheck.hearing.letters import spelled_out

Phones = tuple[str, ...]

_SHORT_FORMS = {
    "'ll": ("AH", "L"), "'ve": ("AH", "V"), "'re": ("ER",), "'d": ("D",), "'m": ("M",),
    "n't": ("AH", "N", "T"),
}  # fmt: skip
_BEGINNINGS = {
    "un": ("AH", "N"), "re": ("R", "IY"), "over": ("OW", "V", "ER"), "under": ("AH", "N", "D", "ER"),
    "de": ("D", "IY"), "mis": ("M", "IH", "S"), "pre": ("P", "R", "IY"), "sub": ("S", "AH", "B"),
    "out": ("AW", "T"), "off": ("AO", "F"), "inter": ("IH", "N", "T", "ER"), "non": ("N", "AA", "N"),
}  # fmt: skip
_HISSING = frozenset(["S", "Z", "SH", "CH", "ZH", "JH"])
_VOICELESS = frozenset(["P", "T", "K", "F", "TH"])


def model_folder() -> Path:
    """The folder ``en-us`` of sound model, dictionary and language model that pocketsphinx carries."""
    import pocketsphinx

    return Path(pocketsphinx.__file__).parent / "model" / "en-us"


def phones(word: str) -> list[str]:
    """The sounds of one word, the commonest way to say it; empty where it has no letters."""
    found = pronunciations(word)
    return list(found[0]) if found else []


def phones_of(text: str) -> list[str]:
    """The sounds of several words on end."""
    return [phone for word in text.lower().replace("-", " ").split() for phone in phones(word)]


@cache
def pronunciations(word: str) -> tuple[Phones, ...]:
    """All ways to say one word: the vocabulary's own where it has any, else the dictionary's."""
    plain = re.sub(r"[^a-z']", "", word.lower().replace("’", "'")).strip("'")
    if not plain:
        return ()
    return _of_trade().get(plain) or _dictionary().get(plain) or (_taken_apart(plain),)


def in_dictionary(word: str) -> bool:
    """Whether the word is known as it stands, not worked out."""
    return word in _of_trade() or word in _dictionary()


@cache
def _of_trade() -> dict[str, tuple[Phones, ...]]:
    from saycheck.vocabulary.load import shared_tables
    from saycheck.vocabulary.schema import Pronunciations

    found: dict[str, tuple[Phones, ...]] = {}
    for table in shared_tables("sounds.toml", Pronunciations):
        for entry in table.pronunciation:
            found[entry.word] = (*found.get(entry.word, ()), tuple(entry.phones.split()))
    return found


@cache
def _dictionary() -> dict[str, tuple[Phones, ...]]:
    found: dict[str, tuple[Phones, ...]] = {}
    for line in (model_folder() / "cmudict-en-us.dict").read_text(encoding="utf-8").splitlines():
        word, _, sounds = line.partition(" ")
        word = word.partition("(")[0]
        found[word] = (*found.get(word, ()), tuple(sounds.split()))
    return found


def _taken_apart(word: str) -> Phones:
    for way in (_short_form, _ending, _beginning, _compound):
        if found := way(word):
            return found
    return tuple(spelled_out(word))


def _known(word: str) -> Phones | None:
    """The sounds of a word that need no letter to be guessed at."""
    if len(word) < 2:
        return None
    known = _of_trade().get(word) or _dictionary().get(word)
    return known[0] if known else None


def _short_form(word: str) -> Phones | None:
    if word.endswith("'s"):
        return _with_s(pronunciations(word[:-2])[0]) if len(word) > 2 else None
    for ending, sounds in _SHORT_FORMS.items():
        if word.endswith(ending) and len(word) > len(ending):
            return (*pronunciations(word.removesuffix(ending))[0], *sounds)
    return None


def _with_s(stem: Phones) -> Phones:
    if stem[-1] in _HISSING:
        return (*stem, "IH", "Z")
    return (*stem, "S" if stem[-1] in _VOICELESS else "Z")


def _with_ed(stem: Phones) -> Phones:
    if stem[-1] in ("T", "D"):
        return (*stem, "IH", "D")
    return (*stem, "T" if stem[-1] in _VOICELESS | {"S", "SH", "CH"} else "D")


_ENDINGS: dict[str, Callable[[Phones], Phones]] = {
    "s": _with_s,
    "ed": _with_ed,
    "ing": lambda stem: (*stem, "IH", "NG"),
    "er": lambda stem: (*stem, "ER"),
    "y": lambda stem: (*stem, "IY"),
    "ly": lambda stem: (*stem, "L", "IY"),
    "able": lambda stem: (*stem, "AH", "B", "AH", "L"),
    "less": lambda stem: (*stem, "L", "AH", "S"),
    "age": lambda stem: (*stem, "IH", "JH"),
}


def _ending(word: str) -> Phones | None:
    for ending, spoken in _ENDINGS.items():
        if word.endswith(ending) and len(word) > len(ending) + 2 and not word.endswith("ss"):
            stems = list(_stems(word.removesuffix(ending), ending))
            for way in (_known, _beginning, _compound):
                for stem in stems:
                    if found := way(stem):
                        return spoken(found)
    return None


def _stems(rest: str, ending: str) -> Iterator[str]:
    """What a word may have been before its ending: kink-ed, mount(e)-ed, gap(p)-ed, batter(y)-ies."""
    if ending == "s":
        if rest.endswith("ie"):
            yield rest[:-2] + "y"
        if rest.endswith(("she", "che", "xe", "sse", "ze")):
            yield rest[:-1]
        yield rest
        return
    yield rest
    if ending in ("ed", "ing", "er", "y", "able", "age"):
        yield rest + "e"
        if len(rest) > 2 and rest[-1] == rest[-2]:
            yield rest[:-1]
    if rest.endswith("i"):
        yield rest[:-1] + "y"


def _compound(word: str) -> Phones | None:
    """Two known words on end, parted where the shorter of them is longest."""
    best: tuple[int, Phones] | None = None
    for at in range(3, len(word) - 2):
        first, second = _known(word[:at]), _known(word[at:])
        if first and second and (best is None or min(at, len(word) - at) > best[0]):
            best = (min(at, len(word) - at), (*first, *second))
    return best[1] if best else None


def _beginning(word: str) -> Phones | None:
    for beginning, sounds in _BEGINNINGS.items():
        rest = word.removeprefix(beginning)
        if rest != word and len(rest) > 2 and (found := _known(rest) or _compound(rest) or _ending(rest)):
            return (*sounds, *found)
    return None
