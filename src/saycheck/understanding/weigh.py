"""Weighs a statement: is it a finding, and of which state? A small trained part beside the rules.

The rules (``judge``, ``talk``) read the words they know; the model has learned from labelled narrations
which words around a part go with which state, also where no table has them ("it'll see the summer out").
Its features hold what the rules decided, so it leans on them and overturns them only on evidence. Trained
by ``bench/train_statements.py``; without weights the rules decide alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from saycheck.models.walk import State
from saycheck.understanding import throughout
from saycheck.understanding.arrays import agreed
from saycheck.understanding.attach.corrections import PUT_RIGHT
from saycheck.understanding.judge import TROUBLE, judge
from saycheck.understanding.linear import trained
from saycheck.understanding.statements import Claim, Statement, Subject, region_end, says_fault
from saycheck.understanding.talk import context_of
from saycheck.understanding.text import Reading, plain_words

STATES: tuple[State, ...] = ("good", "watch", "writeup", "hidden", "later")
CUES = (
    "deny", "hidden", "later", "keep-an-eye", "needs-work", "teach", "generic", "hypothesis", "story",
    "other-machine", "same", "here", "chat", "quote", "slight", "strong", "correct", "take-back", "except",
    "not-story", "not-hypothesis",
)  # fmt: skip
NEXT = ("keep-an-eye", "needs-work", "hidden", "later", "same")
LAST = ("teach", "story", "hypothesis", "other-machine")
AHEAD = 12
# How many sentences on the same part is looked for again.
SOON = 2
NAME_STEPS = (0.3, 0.6, 0.8, 0.9, 0.97)
# What another state keeps of its share where the rules know one of these; best F1 on the tuning narrations.
LEANS: dict[str, dict[str, float]] = {
    "watch": {"good": 0.5, "writeup": 0.5},
    "writeup": {"good": 0.5, "watch": 0.5},
}
# The same where the fault is told by a phrase of the tables or by words that no narration had.
TELLING = 0.3
# What good keeps where the word is a fault of this kind of part alone: "horn, nothing", "the pins are dry". By words
# alone neither can be told from the many parts of which it is good.
OF_THIS_PART = 0.06
# Features of single words: any of them tells that a word was met, others of it may have weighed too little to be kept.
OF_WORDS = ("w", "s", "cw")
# Under these a condition was learned, where any narration had it.
DEGREES = (None, "slight", "strong")
# What watch keeps where the rules know a leak or a perished cover to write up: a film of oil on a rod is a leak that
# has begun, and a hose that is weather-checked will fail while it still holds pressure (common practice, no source).
FAILING, FAILS = frozenset(["leak", "perished"]), 0.25
# What each word, as the encoder reads it where it stands, counts beside the words of the statement; best F1 on
# narrations of writers left out.
WORDS_COUNT = 0.35
# What the whole statement, as the encoder reads it, counts beside these.
WHOLE_COUNTS = 0.45
# Trouble that is said plainly is not taken for talk by what stands around it alone; it is plain where by its own words
# talk is less likely than PLAIN_BELOW, and then has MOST_TALK of it: F1, writers left out, as without.
PLAIN_BELOW, MOST_TALK = 0.1, 0.4
# What talk keeps where a part is measured and no word of talk stands in the sentence: nobody measures another machine.
MEASURED_HERE = 0.5
# What any other state, and talk, keeps where a measurement was held against a limit told with it.
HELD = {"good": 0.12, "watch": 0.12, "writeup": 0.12, "talk": 0.2}
# What trouble keeps where a part is measured and no more is said of it: of such bare readings two in three are good. A
# write-up then needs better grounds than the number; best on the tuning narrations, writers left out.
BARE = {"writeup": 0.5, "watch": 0.7}
# Words about the number, at most, for a reading to be bare ("on the gauge I make it").
BARE_WORDS = 6
NOT_MEASURED = frozenset(["time", None])


@dataclass(frozen=True)
class Weight:
    """What a statement is, with the probability of each state and of talk."""

    shares: dict[str, float]

    @property
    def best(self) -> str:
        """The likeliest of all, talk among them."""
        return max(self.shares, key=lambda k: self.shares[k])

    @property
    def state(self) -> State:
        """The likeliest state, talk left aside."""
        return max(STATES, key=lambda k: self.shares.get(k, 0.0))


def named_by(subject: Subject) -> str:
    """How sure the words name a part here, in steps; "-" where the part was named earlier."""
    if subject.carried or subject.start < 0:
        return "-"
    return next((str(step) for step in NAME_STEPS if subject.sure < step), "1")


def features(reading: Reading, statement: Statement, others: Sequence[Statement]) -> list[str]:
    """Names of the binary features of a statement."""
    start, end = reading.sentences[statement.sentence]
    stop = region_end(reading, statement, others)
    words = plain_words(reading)
    verdict = judge(statement)
    talk = context_of(reading, statement)
    part = statement.subject.part
    inside = range(statement.start, stop)
    own = [words[i] for i in inside if not (statement.subject.start <= i < statement.subject.end)]
    out = [
        f"rule={verdict.state}",
        f"cond={verdict.condition}/{verdict.state}/{verdict.denied}",
        f"talk={talk}",
        f"rule={verdict.state} talk={talk}",
    ]
    out += [f"w={w}" for w in own] + [f"ww={a} {b}" for a, b in pairwise(own)]
    before = words[max(start, statement.start - AHEAD) : statement.start]
    out += [f"pre={w}" for w in before] + [f"pre2={a} {b}" for a, b in pairwise(before)]
    whole = [
        words[i] for i in range(start, end) if not (statement.subject.start <= i < statement.subject.end)
    ]
    out += [f"s={w}" for w in whole] + [f"ss={a} {b}" for a, b in pairwise(whole)]
    out += [f"first={words[start]}", f"first2={' '.join(words[start : start + 2])}", f"ends={words[end - 1]}"]
    out += [f"det={words[statement.start - 1] if statement.start > start else '#'}"]
    out += [f"mark={m}" for m in statement.marks] + [f"claims={min(len(statement.claims), 3)}"]
    out += [
        f"like={part.part.like if part.part else '-'}",
        f"carried={statement.subject.carried}",
        f"known={part.part is not None}",
    ]
    out += [f"qty={q.quantity}" for q, _ in statement.quantities] or ["qty=none"]
    out += [
        f"side={statement.subject.told_side}",
        f"at={min(statement.start - start, 6)}",
        f"count={statement.count is not None}",
    ]
    out += [f"name={named_by(statement.subject)}"]
    out += [f"long={min((end - start) // 6, 5)}", f"size={min(len(own), 6)}"]
    for claim in statement.claims:
        out += [
            f"c={claim.said.condition.name}/{claim.denied}/{claim.degree}",
            f"cw={words[claim.mention.start]}",
        ]
    cues = reading.by_sentence(CUES)
    for cue in cues[statement.sentence]:
        where = "before" if cue.end <= statement.start else "in" if cue.start < stop else "after"
        out.append(f"{cue.kind}:{where}")
    if statement.sentence + 1 < len(reading.sentences):
        out += [f"next:{cue.kind}" for cue in cues[statement.sentence + 1] if cue.kind in NEXT]
    if statement.sentence:
        out += [f"last:{cue.kind}" for cue in cues[statement.sentence - 1] if cue.kind in LAST]
    return out + behind(words, statement, others)


def behind(words: Sequence[str], statement: Statement, others: Sequence[Statement]) -> list[str]:
    """Features of what follows: whoever puts himself right says so, and soon says of that part what is so."""
    follow = [w for w in words[statement.end : statement.end + 8] if w[0].isalnum()][:4]
    first, second = " ".join(follow[:1]), " ".join(follow[:2])
    out = [f"n1={first}", f"n2={second}", f"n3={' '.join(follow[:3])}"] + [f"n={w}" for w in follow]
    name = statement.subject.part.name
    later = [s for s in others if s.start > statement.start and s.sentence - statement.sentence <= SOON]
    again = next((s for s in later if s.subject.part.name == name), None)
    if again is None:
        return out
    own, its = judge(statement), judge(again)
    units = {q.unit for q, _ in statement.quantities} & {q.unit for q, _ in again.quantities}
    side = (
        "same" if again.subject.side == statement.subject.side else "other" if again.subject.side else "none"
    )
    told = "same" if (own.state, own.denied) == (its.state, its.denied) else "other"
    out += [f"again={side}/{told}/{bool(units)}", f"again={again.sentence - statement.sentence}"]
    return [*out, f"again n1={first}", f"again n2={second}", f"again={told} n1={first}"]


def weigh(reading: Reading, statement: Statement, others: Sequence[Statement]) -> Weight:
    """The weight of one statement among all of its walk."""
    model = trained("statements")
    if model is None:
        talk = context_of(reading, statement)
        return Weight({"talk": 1.0} if talk else {judge(statement).state: 1.0})
    shares = model.shares(features(reading, statement, others))
    plain = is_plain(reading, statement, shares["talk"])
    told = throughout.told(reading, statement)
    stated = throughout.stated(reading, statement, others)
    if told and stated:
        shares = agreed((shares, 1 - WORDS_COUNT - WHOLE_COUNTS), (told, WORDS_COUNT), (stated, WHOLE_COUNTS))
    elif context_of(reading, statement) is None:
        # Nobody tells a story in so few words.
        plain = True
    weight = leaning(reading, statement, shares)
    return not_only_talk(weight) if plain or PUT_RIGHT in statement.marks else weight


def not_only_talk(weight: Weight) -> Weight:
    """The same with talk no likelier than leaves a finding, which a person then looks at."""
    talk = weight.shares["talk"]
    if talk <= MOST_TALK:
        return weight
    rest = (1 - MOST_TALK) / (1 - talk)
    return Weight({k: MOST_TALK if k == "talk" else share * rest for k, share in weight.shares.items()})


def is_plain(reading: Reading, statement: Statement, talk: float) -> bool:
    """Whether trouble is said plainly, and its own words are not ``talk`` by so much."""
    return talk < PLAIN_BELOW and says_trouble(reading, statement)


def says_trouble(reading: Reading, statement: Statement) -> bool:
    """Whether trouble is said with no word of talk about it."""
    trouble = says_fault(statement) and judge(statement).state in TROUBLE
    return trouble and context_of(reading, statement) is None


def is_telling(reading: Reading, statement: Statement, ruled: str) -> bool:
    """Whether the words for the fault are more than experience knows: a phrase of the tables, or words never met."""
    model, words = trained("statements"), plain_words(reading)
    for claim in statement.claims:
        run = words[claim.mention.start : claim.mention.end]
        met = model is not None and any(model.knows(f"{of}={word}") for word in run for of in OF_WORDS)
        fault = claim.said.condition.form == "fault" and not claim.denied
        if fault and claim.said.condition.state == ruled and (len(run) > 1 or not met):
            return True
    return False


def is_for_tables(claim: Claim) -> bool:
    """Whether only the tables know what is said to be so: it is of this kind of part alone, or no narration had such a
    condition, as those that a shop adds.
    """
    model, condition = trained("statements"), claim.said.condition
    if claim.denied or model is None:
        return False
    learned = any(model.knows(f"c={condition.name}/False/{degree}") for degree in DEGREES)
    return bool(condition.checks) or not learned


def is_bare(reading: Reading, statement: Statement) -> bool:
    """Whether hardly more than a number is said of the part, nothing that judges it: "front tyre, thirty-six psi"."""
    if statement.claims or statement.marks - {"unworded"} or statement.held or not statement.quantities:
        return False
    told = [range(m.start, m.end) for _, m in statement.quantities]
    told.append(range(statement.subject.start, statement.subject.end))
    words = reading.all_words
    rest = [
        words[i]
        for i in range(statement.start, statement.end)
        if words[i][0].isalnum() and not any(i in place for place in told)
    ]
    return len(rest) <= BARE_WORDS


def leaning(reading: Reading, statement: Statement, shares: dict[str, float]) -> Weight:
    """The shares, leaning to the worse where the rules know a fault that is said and not denied."""
    ruled = judge(statement).state if says_fault(statement) else "good"
    leans = dict(LEANS.get(ruled, {}))
    if ruled in LEANS and is_telling(reading, statement, ruled):
        leans = dict.fromkeys(leans, TELLING)
    if ruled in LEANS and any(is_for_tables(claim) for claim in statement.claims):
        leans["good"] = OF_THIS_PART
    measured = any(q.quantity not in NOT_MEASURED for q, _ in statement.quantities)
    if measured and not context_of(reading, statement):
        leans["talk"] = MEASURED_HERE
    if measured and is_bare(reading, statement):
        leans |= BARE
    if ruled == "writeup" and any(
        c.said.condition.name in FAILING and not c.denied for c in statement.claims
    ):
        leans["watch"] = FAILS
    if statement.held:
        leans = HELD | {statement.held: 1.0}
    bent = {name: share * leans.get(name, 1.0) for name, share in shares.items()}
    whole = sum(bent.values())
    return Weight({name: share / whole for name, share in bent.items()})
