"""The words of a reviewed walk that can be believed, as a text to learn from.

Left out is what was not made out: unclear passages, words that the ears were not sure of, and the words of
findings that a person took off. Where a person put a part, a side, a condition or a number right, what they put
there stands in place of the words that had been heard.
"""

from saycheck.models.review import Standing
from saycheck.models.walk import Finding, Word

SURE = 0.6
"""Confidence below which a heard word is left out; such words are wrong nearly as often as right."""
PAUSE_S = 0.6
"""Silence between two words after which a new breath begins, seconds."""


def trusted(standing: Standing) -> str | None:
    """The text, one breath a line; None where nobody has edited the walk or a finding still needs a look.

    Unclear passages may still be open, since nothing is learned from them.
    """
    if not standing.by or standing.open_findings:
        return None
    instead = _instead(standing)
    lines: list[str] = []
    held: list[str] = []
    until_s: float | None = None
    within: tuple[int, int] | None = None

    def breathe() -> None:
        if held:
            lines.append(" ".join(held))
            held.clear()

    for word in standing.walk.transcript.words:
        place = next((span for span in instead if _touches(word, span)), None)
        if place is not None or (word.confidence is not None and word.confidence < SURE):
            breathe()
            if place is not None and place != within and instead[place]:
                lines.append(instead[place])
        else:
            if until_s is not None and word.start_s is not None and word.start_s - until_s > PAUSE_S:
                breathe()
            held.append(word.text)
        within, until_s = place, word.end_s
    breathe()
    return "\n".join(lines)


def _instead(standing: Standing) -> dict[tuple[int, int], str]:
    """Places of the transcript that are not to be believed, with what stands there instead; empty for nothing."""
    # Settling a passage as talk says that it is no finding, not that its words were made out.
    spans = [span for span in standing.heard.transcript.spans if span.disposition == "unclear"]
    places = dict.fromkeys(((span.char_start, span.char_end) for span in spans), "")
    heard = {finding.id: finding for finding in standing.heard.findings}
    for finding in standing.dropped:
        places |= dict.fromkeys(_places(finding), "")
    for finding in standing.walk.findings:
        was, now = heard.get(finding.id), _words(finding)
        if was is not None and _words(was) != now:
            told = [now, *[""] * len(finding.evidence)]
            places |= dict(zip(_places(finding), told, strict=False))
    return places


def _places(finding: Finding) -> list[tuple[int, int]]:
    return [(one.char_start, one.char_end) for one in finding.evidence]


def _words(finding: Finding) -> str:
    """The finding in as few words as a walker would say it in."""
    side = "" if finding.side == "none" else finding.side
    denied = "no" if finding.denied else ""
    sizes = [one.text for one in finding.measurements]
    return " ".join(word for word in [side, finding.part, denied, finding.condition, *sizes] if word)


def _touches(word: Word, place: tuple[int, int]) -> bool:
    return word.char_start < place[1] and place[0] < word.char_end
