"""Parts of one name told apart by what is said of them: "belt clicks in" is the seat belt (``clues.toml``)."""

from dataclasses import replace

from saycheck.understanding.attach.walk import Walk
from saycheck.understanding.parts import PartName
from saycheck.understanding.text import Mention

# How far behind a part its clue may stand, in words; never behind the next part.
REACH = 9


def by_what_is_said(walk: Walk, name: PartName, event: Mention) -> PartName:
    """The name of the part that is meant; the name as it is where nothing tells otherwise."""
    clue = next((c for c in walk.rules.clues if " ".join(name.words) in c.named), None)
    if clue is None:
        return name
    ends = [m.start for m in walk.now.events if m.kind == "part" and m.start >= event.end]
    behind = walk.words[event.end : min([event.end + REACH, walk.now.end, *ends])]
    spoken_of = walk.focus.part.name if walk.focus else ""
    told = set(clue.said) & set(behind) or any(spoken_of.startswith(word) for word in clue.beside)
    if told or walk.where.zone in clue.stands:
        meant = tuple(clue.meant.split())
        return replace(name, words=meant, head=meant)
    return name
