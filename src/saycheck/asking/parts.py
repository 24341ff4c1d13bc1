"""Answers about parts: those of a zone that were skipped, one that was hidden or put off, one bad before."""

import re
from collections.abc import Iterable, Sequence
from functools import partial

from saycheck.asking.matter import UNKNOWN, Answer, Matter, more
from saycheck.asking.replies import behind_yes, is_reply
from saycheck.asking.told import Told, told
from saycheck.coverage.wording import called, listed, one_each, sentence
from saycheck.models.walk import ChecklistLine, Finding, Side
from saycheck.models.wishes import Patch

CUT = re.compile(
    r"[,.;!?]+|\b(?:but(?: for| not)?|except(?: for)?|apart from|bar|other than)\b"
    r"|\b(?:and )?(?=(?:the )?(?:rest|others|remaining)\b|every ?thing\b|all (?:the )?(?:rest|others?)\b)"
)
"""Where an answer about several parts falls into pieces."""

EXCEPT = re.compile(r"\b(?:but for|but not|except(?: for)?|apart from|bar|other than)\b")
REST = re.compile(
    r"^\W*(?:and )?(?:the )?(?:rest|others|remaining|every ?thing(?: else)?|all|they'?(?:re|ve)? all)\b"
)


def skipped(matter: Matter, words: str) -> Answer:
    """An answer to "... not mentioned. Looked at?": of all its parts, or of some of them by name.

    "Yes" alone says that they were looked at, not what was seen: that is asked for.
    """
    lines = matter.lines
    names = one_each((line.part, line.side) for line in lines)
    if is_reply(words, "no"):
        return matter.settled(f"not looked at: {words}")
    if is_reply(words, "yes"):
        return more("And all of it good?", lambda now: "all good" if is_reply(now, "yes") else now)
    if is_reply(words, "later", "hidden"):
        state = "later" if is_reply(words, "later") else "hidden"
        return _add(matter, [_patch(line, state) for line in lines], words)
    rest = behind_yes(words)
    general, named = _split(matter, rest)
    patches: list[Patch] = []
    for one in named:
        sides = _sides(one, lines)
        if sides is None:
            return more(f"{sentence(one.part)}: left, right or both?", partial(_on_side, one.part, words))
        patches += [one.patch(side) for side in sides]
    if general and not named and general.state in ("watch", "writeup") and len({x.part for x in lines}) > 1:
        return more(f"Which part: {listed(names)}?", lambda now: f"{now} {rest}")
    if general:
        done = {(patch.part, side) for patch in patches for side in _each(patch.side)}
        left = [line for line in lines if not {(line.part, side) for side in _each(line.side)} & done]
        patches += [_like(general, line) for line in left if general.side in (None, line.side)]
    if not patches:
        return UNKNOWN
    said = {(patch.part, side) for patch in patches for side in _each(patch.side)}
    whole = all(said & {(line.part, side) for side in _each(line.side)} for line in lines)
    return _add(matter, patches, words) if whole else _some(matter, patches, words)


def _some(matter: Matter, patches: Sequence[Patch], words: str) -> Answer:
    """Some of a zone's parts; the question stays open for the others."""
    return matter.edit("add", patches=list(patches), reason=words[:500], question=None)


def _on_side(part: str, words: str, side: str) -> str:
    """The words with the side that was missing in front of the part."""
    return (
        words.lower().replace(part, f"{side} {part}") if part in words.lower() else f"{side} {part} {words}"
    )


def _split(matter: Matter, words: str) -> tuple[Told | None, list[Told]]:
    """What is said of all or of the rest, and what is said of parts by name."""
    lines, zone = matter.lines, matter.question.about.zone
    only = {line.part for line in lines}
    part = lines[0].part if lines else ""
    general: Told | None = None
    pieces: list[str] = []
    for piece in (each.strip() for each in CUT.split(words) if each and each.strip()):
        found = told(piece, matter.vocabulary, part, zone) if REST.match(piece) else []
        if found and not any(one.named for one in found):
            general = found[0]
        else:
            pieces.append(piece)
    named = told(". ".join(pieces), matter.vocabulary, part, zone) if pieces else []
    loose = [one for one in named if not one.named]
    if len(only) == 1:
        return general, named if loose else [one for one in named if one.named]
    if loose and general is None:
        general = loose[0]
    return general, [one for one in named if one.named]


def _sides(one: Told, lines: Sequence[ChecklistLine]) -> list[Side] | None:
    """The sides that are meant of a part; None where a fault may be on either."""
    here: list[Side] = [line.side for line in lines if line.part == one.part]
    if one.side is not None:
        return [one.side]
    if one.state in ("watch", "writeup") and len(set(here)) > 1 and not one.plural:
        return None
    return list(dict.fromkeys(here)) or ["none"]


def _each(side: Side | None) -> tuple[Side, ...]:
    return ("left", "right") if side == "both" else (side or "none",)


def _like(general: Told, line: ChecklistLine) -> Patch:
    return Patch(
        zone=line.zone, part=line.part, side=line.side, state=general.state,
        condition=general.condition, denied=general.denied,
    )  # fmt: skip


def _patch(line: ChecklistLine, state: str) -> Patch:
    return Patch.model_validate(
        {"zone": line.zone, "part": line.part, "side": line.side, "state": state, "condition": state}
    )


def _add(matter: Matter, patches: Iterable[Patch], words: str) -> Answer:
    return matter.edit("add", patches=list(patches)[:200], reason=words[:500])


def not_seen(matter: Matter, words: str) -> Answer:
    """An answer to "... could not be seen. Uncover and look again?" or "... put off. Done now?"."""
    kind = matter.question.kind
    about = [one for one in matter.findings if one.state in ("hidden", "later")]
    if not about:
        return UNKNOWN
    if is_reply(words, "no") or (kind == "hidden" and is_reply(words, "hidden")):
        return matter.settled(f"still {kind}: {words}")
    if kind == "later" and is_reply(words, "later"):
        return matter.settled(f"still later: {words}")
    if is_reply(words, "yes"):
        return more("And how is it: good, or what is wrong?", lambda now: "good" if _fine(now) else now)
    if is_reply(words, "later", "hidden"):
        state = "later" if is_reply(words, "later") else "hidden"
        return _change(matter, about, [Patch.model_validate({"state": state, "condition": state})], words)
    said = _of_part(matter, words, about[0].part)
    if not said:
        return UNKNOWN
    first = said[0]
    if first.state == kind:
        return matter.settled(f"still {kind}: {words}")
    sided = [one for one in said if one.side is not None]
    if about[0].side == "both" and len({one.side for one in sided}) == 2 and len(about) == 1:
        return matter.edit(
            "split", findings=[about[0].id], patches=[_seen(one) for one in sided], reason=words[:500]
        )
    return _change(matter, about, [_seen(first)], words)


def _fine(words: str) -> bool:
    return is_reply(words, "yes")


def _of_part(matter: Matter, words: str, part: str) -> list[Told]:
    return told(behind_yes(words), matter.vocabulary, part)


def _seen(one: Told) -> Patch:
    return Patch(
        side=one.side, state=one.state, condition=one.condition, denied=one.denied, measured=list(one.numbers)
    )


def _change(matter: Matter, about: Sequence[Finding], patches: list[Patch], words: str) -> Answer:
    return matter.edit("change", findings=[one.id for one in about], patches=patches, reason=words[:500])


STILL = re.compile(r"\b(?:still|same|unchanged|no change|no different|no better|as it was|as before)\b")


MENDED = re.compile(
    r"^\W*(?:yes |it'?s |it's been |they'?re |been |was )*"
    r"(?:fixed|mended|repaired|replaced|renewed|sorted|done|changed)(?: it| them| now| yesterday)*\W*$"
)
"""All that was said is that it was put right; "fixed" by itself would be taken for "tight"."""


def again(matter: Matter, words: str) -> Answer:
    """An answer to "... worn on 3 March, not mentioned today. How is it now?"."""
    about = matter.question.about
    if is_reply(words, "no"):
        return matter.settled(f"not looked at: {words}")
    if is_reply(words, "yes"):
        return more("How is it: good, or what is wrong?", lambda now: now)
    part = about.part or ""
    if is_reply(words, "later", "hidden"):
        state = "later" if is_reply(words, "later") else "hidden"
        told_now = [Told(part, about.zone, None, "later" if state == "later" else "hidden", state)]
    elif MENDED.search(words.lower()) and not re.search(r"\b(?:not|isn't|hasn't|wasn't)\b", words.lower()):
        told_now = [Told(part, about.zone, None, "good", "good")]
    else:
        told_now = _of_part(matter, words, part)
        if not told_now and STILL.search(words.lower()):
            told_now = told(before_of(matter), matter.vocabulary, part)
    if not told_now:
        return UNKNOWN
    patches = [one.patch(about.side if one.side is None else None) for one in told_now]
    return _add(matter, [p.model_copy(update={"zone": about.zone}) for p in patches], words)


def before_of(matter: Matter) -> str:
    """What the question says the part was before: the words between its name and the day."""
    about = matter.question.about
    head = f"{called(about.part or '', about.side)}: "
    return matter.question.text[len(head) :].split(" on ", 1)[0]
