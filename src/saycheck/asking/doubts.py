"""Answers about what was in doubt: which of two holds, which side, what an unclear passage was, which unit."""

import re
from collections.abc import Sequence

from saycheck.asking.matter import UNKNOWN, Answer, Matter
from saycheck.asking.replies import begins, behind_yes, is_reply, words_of
from saycheck.asking.told import Told, told
from saycheck.models.walk import Finding, Side
from saycheck.models.wishes import Patch
from saycheck.reporting.wording import STATE_WORDS, said_of
from saycheck.review.patching import find_part


def conflict(matter: Matter, words: str) -> Answer:
    """An answer to "...: "dry", then "leaking". Which holds?": the finding that it agrees with stays."""
    about = matter.findings
    if len(about) < 2:
        return UNKNOWN
    if is_reply(words, "both"):
        return matter.settled("both hold")
    picked = _picked(matter, about, words)
    if picked is None:
        return UNKNOWN
    word = f"{STATE_WORDS[picked.state]}: {said_of(picked)}"
    others = [one.id for one in about if one is not picked]
    return matter.edit("drop", findings=others, reason=f"{word} holds: {words}"[:500])


def _picked(matter: Matter, about: Sequence[Finding], words: str) -> Finding | None:
    if is_reply(words, "first"):
        return about[0]
    if is_reply(words, "second"):
        return about[-1]
    said = told(words, matter.vocabulary, about[0].part)
    for agrees in (_same_word, _same_state, _same_sense):
        fitting = [one for one in about if any(agrees(each, one) for each in said)]
        if len(fitting) == 1:
            return fitting[0]
    quoted = [one for one in about if set(words_of(words)) & set(words_of(_quote(matter, one))) - _SMALL]
    return quoted[0] if len(quoted) == 1 else None


_SMALL = frozenset("the a it it's is was that this one and holds i said".split())


def _quote(matter: Matter, finding: Finding) -> str:
    text = matter.standing.heard.transcript.text
    return " ".join(text[one.char_start : one.char_end] for one in finding.evidence)


def _same_word(said: Told, one: Finding) -> bool:
    return (said.condition, said.denied) == (one.condition, one.denied)


def _same_state(said: Told, one: Finding) -> bool:
    return said.state == one.state


def _same_sense(said: Told, one: Finding) -> bool:
    return (said.state == "good") == (one.state == "good") and said.state in ("good", "watch", "writeup")


SIDE = re.compile(r"\b(left|right|both)\b")


def side_of(words: str) -> Side | None:
    """The one side that an answer names; "right" alone is a side here, not a yes."""
    for name in ("left", "right", "both"):
        if is_reply(words, name):
            return name
    found = set(SIDE.findall(" ".join(words_of(words)).replace("that's right", "")))
    if "both" in found or found == {"left", "right"}:
        return "both"
    return found.pop() if len(found) == 1 else None


def which_side(matter: Matter, words: str) -> Answer:
    """An answer to "Left or right?"."""
    side = side_of(words)
    if side is None or not matter.findings:
        return UNKNOWN
    finding = matter.findings[0]
    return matter.edit("change", findings=[finding.id], patches=[Patch(side=side)], reason=words[:500])


def which_part(matter: Matter, words: str) -> Answer:
    """An answer to the question that a part carries because another sounds like it."""
    about = matter.findings
    if not about:
        return UNKNOWN
    if is_reply(words, "yes"):
        return matter.settled(f"{about[0].part} was meant: {words}")
    named = " ".join(word for word in words_of(words) if word not in ("the", "it's", "its", "a"))
    part = find_part(matter.vocabulary, named)
    if part is None:
        return UNKNOWN
    if part.name == about[0].part:
        return matter.settled(f"{part.name} was meant: {words}")
    ids = [one.id for one in about]
    return matter.edit("change", findings=ids, patches=[Patch(part=part.name)], reason=words[:500])


def passage(matter: Matter, words: str) -> Answer:
    """An answer to "Not understood: ... What was it?": talk, or what it says of a part."""
    place = matter.question.evidence[0]
    if is_reply(words, "talk", "no"):
        return matter.edit("settle", reason=words[:500], start=place.char_start, end=place.char_end)
    said = told(behind_yes(words), matter.vocabulary, zone=matter.question.about.zone)
    if not said:
        return UNKNOWN
    return matter.edit(
        "add",
        patches=[one.patch() for one in said],
        reason=words[:500],
        start=place.char_start,
        end=place.char_end,
    )


LEAD_IN = re.compile(
    r"^(?:(?:well|so|um|uh|yes|ah)[, ]+)*(?:(?:this|that|it)(?:'?s| is| was)? |we call (?:it|her|him) "
    r"|(?:it )?goes by |the name is |name's |call it |unit is |the unit is )+",
    re.IGNORECASE,
)


def unit_name(matter: Matter, words: str) -> Answer:
    """An answer to "Which unit is this?": its name as it was given, without what leads in to it."""
    if is_reply(words, "no", "later"):
        return matter.settled(f"not named: {words}")
    name = LEAD_IN.sub("", words.strip()).strip(" .,!?")
    if not any(letter.isalnum() for letter in name) or len(name) > 80 or is_reply(words, "yes"):
        return UNKNOWN
    return matter.edit("machine", unit=name, reason=words[:500])


def recording(matter: Matter, words: str) -> Answer:
    """An answer to "Most of the recording cannot be trusted. Record again?"."""
    said, _ = begins(words)
    if not said and not is_reply(words, "later"):
        return UNKNOWN
    return matter.settled(f"{'to be recorded again' if said == 'yes' else 'goes on as it is'}: {words}")
