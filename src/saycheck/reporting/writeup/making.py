"""How a write-up came about: who heard and reviewed, how clear the sound was, and what proves it is this walk."""

from collections.abc import Iterator

from saycheck.models.walk import Walk
from saycheck.reporting.wording import length, listed, plain
from saycheck.reporting.writeup.document import Fact
from saycheck.reporting.writeup.given import Given


def making(given: Given) -> list[Fact]:
    """Source, ears, noise, review and versions, as name and value."""
    return [Fact(name=name, value=value) for name, value in _facts(given) if value]


def digests(given: Given) -> list[Fact]:
    """SHA-256 of the recording (or text) and of ``walk.json``, in hex."""
    walk = given.standing.walk
    sound = "sound" if walk.source.duration_s else "text"
    facts = [Fact(name=sound, value=walk.source.sha256), Fact(name="walk", value=given.walk_sha256)]
    return [fact for fact in facts if fact.value]


def review(given: Given) -> str:
    """Who reviewed how much of what needed a look."""
    standing = given.standing
    if not standing.by:
        return "nobody has reviewed this walk"
    share = int(standing.reviewed_share * 100)
    return f"by {listed([plain(who) for who in standing.by])}; {share} % of what needed a look has had it"


def _facts(given: Given) -> Iterator[tuple[str, str]]:
    walk = given.standing.walk
    yield "source", _source(walk)
    yield (
        "heard by",
        f"{listed([plain(ear) for ear in walk.made_by.ears])} ear{'s' * (len(walk.made_by.ears) > 1)}"
        if walk.made_by.ears
        else "",
    )
    yield "learned", f"the shop's own narrations, digest {walk.learned}" if walk.learned else ""
    yield "noise", _noise(walk)
    yield "words", _words(walk)
    yield "review", review(given)
    yield "edits", f"{len(given.standing.edits)}" if given.standing.edits else ""
    yield "photographs", _photographs(given)
    yield "walk", walk.id
    yield (
        "versions",
        (
            f"walk made by saycheck {walk.made_by.version} with vocabulary {walk.made_by.vocabulary}; "
            f"write-up by saycheck {given.version} with vocabulary {given.vocabulary.version}"
        ),
    )
    yield "written up", given.made.strftime("%Y-%m-%d %H:%M")


def _photographs(given: Given) -> str:
    """How many were attached, and whether any of them cannot be shown."""
    attached = {name for names in given.standing.photos.values() for name in names}
    lost = len(attached - set(given.pictures))
    return f"{len(attached)}" + (f", of which {lost} cannot be shown" if lost else "") if attached else ""


def _source(walk: Walk) -> str:
    name = plain(walk.source.name)
    return (
        f"{name}, {length(walk.source.duration_s)} of sound" if walk.source.duration_s else f"{name}, a text"
    )


def _noise(walk: Walk) -> str:
    speech = [one for one in walk.sound if one.kind == "speech"]
    if not speech:
        return ""
    bad = [one for one in speech if one.trouble]
    levels = sorted(one.snr_db for one in speech if one.snr_db is not None)
    middle = (
        f"speech {levels[len(levels) // 2]:.0f} dB above the noise (median of its passages)" if levels else ""
    )
    if not bad:
        return "; ".join(filter(None, [middle, "all speech was clear enough to trust"]))
    lost = sum(one.end_s - one.start_s for one in bad)
    whole = sum(one.end_s - one.start_s for one in speech)
    why = listed(list(dict.fromkeys(plain(one.trouble or "") for one in bad)))
    trouble = f"{length(lost)} of {length(whole)} of speech could not be trusted: {why}"
    return "; ".join(filter(None, [middle, trouble]))


def _words(walk: Walk) -> str:
    count = len(walk.transcript.words)
    shares: dict[str, int] = {}
    text = walk.transcript.text
    for span in walk.transcript.spans:
        solid = sum(not letter.isspace() for letter in text[span.char_start : span.char_end])
        shares[span.disposition] = shares.get(span.disposition, 0) + solid
    whole = sum(shares.values())
    said = [
        f"{name.replace('-', ' ')} {round(100 * solid / whole)} %" for name, solid in shares.items() if solid
    ]
    return f"{count:,}, of which {', '.join(said)}" if said else f"{count:,}"
