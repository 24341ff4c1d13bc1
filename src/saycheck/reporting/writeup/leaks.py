"""The class of a leak from the words said of it, and what that means; where they do not tell, what to look for."""

from saycheck.models.walk import Finding
from saycheck.reporting.writeup.document import Reading
from saycheck.sums.leaks import MEANING, leak_in_words

LABEL = "leak"
NOT_TOLD = "class not told; look whether it is only wet (I), drops hang (II) or drops fall (III)"


def leaked(finding: Finding, text: str) -> list[Reading]:
    """One line on a leak, none on anything else; ``text`` is the transcript. Air that leaks has no class."""
    name = f"{finding.part} {finding.line or ''}"
    if finding.condition != "leak" or finding.denied or "air" in name.split():
        return []
    words = " … ".join(text[one.char_start : one.char_end] for one in finding.evidence)
    found = leak_in_words(words, fluid="fuel" if "fuel" in name.split() else "")
    if found is None:
        return [Reading(label=LABEL, value=NOT_TOLD)]
    said = f"class {found.leak_class}, as said: {MEANING[found.leak_class]}"
    return [Reading(label=LABEL, value=said, verdict=found.to_do, source=found.source)]
