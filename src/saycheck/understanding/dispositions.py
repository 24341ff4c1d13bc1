"""What became of every character of a transcript: finding, talk, taken back, or unclear.

Nothing that names a defect vanishes: what no rule could place, and what may be a finding but was taken
for talk without certainty, is ``unclear`` and shown to the reviewer.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from saycheck.models.walk import Disposition, Finding, Side, Span
from saycheck.understanding import throughout
from saycheck.understanding.statements import Statement, region_end
from saycheck.understanding.text import Mention, Reading, runs
from saycheck.understanding.weigh import Weight, says_trouble

ORDER: dict[Disposition, int] = {"talk": 0, "unclear": 1, "taken-back": 2, "command": 3, "finding": 4}
# A statement of trouble is talk for certain only above this probability, and where less than this share of it is watch
# or write-up. At 0.92 and 0.04 some 260 passages fewer would be unclear in 206 narrations of writers left out, and 16
# troubles more lost, 109 for 93.
SURE_TALK = 0.96
LEAST_TROUBLE = 0.03
# So many words of a clause must each be trouble by so much for the clause to be asked about where nothing came of it.
TROUBLE_FROM, FEWEST_TROUBLED = 0.5, 3
OF_WHICH_PART = "a defect, but of which part?"


@dataclass(frozen=True)
class Piece:
    """A stretch of characters with what became of it."""

    start: int
    end: int
    disposition: Disposition
    why: str
    finding_id: str | None = None
    part: str | None = None
    side: Side = "none"


def of_findings(findings: Iterable[Finding]) -> list[Piece]:
    """The words that findings come from."""
    return [
        Piece(e.char_start, e.char_end, "finding", f"{f.part}: {f.state}", f.id)
        for f in findings
        for e in f.evidence
    ]


def of_doubted(
    reading: Reading, doubted: Iterable[Statement], statements: Sequence[Statement]
) -> list[Piece]:
    """Statements of which a finding would sooner be wrong than right: a person is asked what was meant."""
    return [unclear(reading, statement, statements, "what of it?") for statement in doubted]


def unclear(reading: Reading, statement: Statement, statements: Sequence[Statement], why: str) -> Piece:
    """The words of a statement as an unclear passage about its part."""
    named = statement.subject.part
    return Piece(
        *said_in(reading, statement, statements),
        "unclear",
        f"{named.name}: {why}",
        part=named.part.name if named.part else None,
        side=statement.subject.side or "none",  # type: ignore[arg-type]
    )


def said_in(reading: Reading, statement: Statement, statements: Sequence[Statement]) -> tuple[int, int]:
    """The characters of a statement with the words that can belong to it."""
    return reading.span(statement.start, max(statement.end, region_end(reading, statement, statements)))


def of_talk(
    reading: Reading, talk: Sequence[tuple[Statement, Weight]], statements: Sequence[Statement]
) -> list[Piece]:
    """Statements that were taken for talk: unclear where they may be trouble after all."""
    pieces = []
    for statement, weight in talk:
        trouble = weight.shares.get("watch", 0) + weight.shares.get("writeup", 0)
        doubtful = weight.shares["talk"] < SURE_TALK and trouble > LEAST_TROUBLE
        # Trouble said plainly is never talk in silence.
        if doubtful or says_trouble(reading, statement):
            pieces.append(unclear(reading, statement, statements, "finding or talk?"))
        else:
            place = said_in(reading, statement, statements)
            pieces.append(Piece(*place, "talk", "not said of this machine as it is now"))
    return pieces


def of_orphans(reading: Reading, orphans: Iterable[Mention]) -> list[Piece]:
    """Defects said of no part that could be told: the whole sentence is unclear."""
    pieces = []
    for orphan in orphans:
        if orphan.kind != "condition" or orphan.value.condition.form != "fault":
            continue
        start, end = next(
            (s for s in reading.sentences if s[0] <= orphan.start < s[1]), (orphan.start, orphan.end)
        )
        pieces.append(Piece(*reading.span(start, end), "unclear", OF_WHICH_PART))
    return pieces


def of_read_trouble(reading: Reading, pieces: Iterable[Piece]) -> list[Piece]:
    """What the encoder reads as trouble and nothing has come of: a person is asked what it is of."""
    trouble = throughout.trouble(reading)
    if trouble is None:
        return []
    tokens, out = reading.tokens, list[Piece]()
    begins = {start for start, _ in reading.sentences}
    dealt_with = bytearray(len(reading.text))
    for piece in pieces:
        if piece.disposition != "talk":
            dealt_with[piece.start : piece.end] = b"1" * (piece.end - piece.start)
    free = [not token.is_mark and not any(dealt_with[token.start : token.end]) for token in tokens]
    for start, end in runs(free):
        # What goes on without a mark from what was dealt with is more of it: "two bolts missing | on the right corner".
        if start and not tokens[start - 1].is_mark and start not in begins:
            continue
        # What leads up to it without a mark is its beginning: "two of the six | bolts are missing".
        if end < len(tokens) and not tokens[end].is_mark and end not in begins:
            continue
        if sum(share >= TROUBLE_FROM for share in trouble[start:end]) >= FEWEST_TROUBLED:
            out.append(Piece(*reading.span(start, end), "unclear", OF_WHICH_PART))
    return out


def of_taken_back(
    reading: Reading, statements: Iterable[Statement], taken: Iterable[tuple[int, int]]
) -> list[Piece]:
    """What was taken back or put right, and the words that did it; ``taken`` are ranges of tokens."""
    pieces = [Piece(*reading.span(a, b), "taken-back", "put right at once") for a, b in taken]
    for statement in statements:
        if statement.taken_back:
            why = f"taken back: {statement.taken_back}"
            pieces.append(Piece(*reading.span(statement.start, statement.end), "taken-back", why))
    commands = [reading.span(m.start, m.end) for m in reading.of("take-back")]
    return pieces + [Piece(*span, "command", "takes words back") for span in commands]


def cover(text: str, pieces: Iterable[Piece]) -> list[Span]:
    """Spans over the whole text without gap or overlap; where pieces overlap the weightier one counts."""
    pieces = sorted(pieces, key=lambda p: ORDER[p.disposition])
    ends = {0, len(text), *(at for piece in pieces for at in (piece.start, piece.end))}
    cuts = sorted(at for at in ends if 0 <= at <= len(text))
    label: list[Piece | None] = [None] * (len(cuts) - 1)
    ids: list[set[str]] = [set() for _ in label]
    for piece in pieces:
        for i in range(bisect_left(cuts, piece.start), bisect_left(cuts, min(piece.end, len(text)))):
            label[i] = piece
            if piece.finding_id:
                ids[i].add(piece.finding_id)
    spans: list[Span] = []
    for _, alike in groupby(range(len(label)), key=lambda i: (key(label[i]), ids[i])):
        run = list(alike)
        first, last = run[0], run[-1]
        said = label[first]
        spans.append(
            Span(
                char_start=cuts[first],
                char_end=cuts[last + 1],
                disposition=said.disposition if said else "talk",
                finding_ids=sorted(ids[first]),
                why=said.why if said else "names no condition of a part",
                part=said.part if said else None,
                side=said.side if said else "none",
            )
        )
    return spans


def key(piece: Piece | None) -> tuple[str, str]:
    """What neighbouring characters must share to stand in one span."""
    if piece is None:
        return "talk", ""
    return piece.disposition, "" if piece.disposition == "finding" else piece.why
