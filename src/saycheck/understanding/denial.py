"""Whether a condition is denied: "no cracks", "isn't leaking", "couldn't find a loose one".

A denial reaches forward to the conditions behind it in the same clause: through a list ("no cracks,
leaks or bends"), not past "but", not past a part with a condition of its own. Following the idea of
negation scopes with terminators (NegEx, Chapman et al. 2001), with terminators of our own.
"""

from collections.abc import Sequence

from saycheck.understanding.text import Mention, Reading

ENDS_SCOPE = frozenset(
    "but though although however except bar because so just only yet still apart which where and's then ; : ."
    " ! ? … — – ...".split()
)
REACH = 7
LIST_WORDS = frozenset([",", "or", "and", "nor", "any", "no", "a", "of"])
LINKING = frozenset("is are was were 's has have been 're and now since".split())
VERBS = frozenset("is are was were 's has have had looks got does do reveals shows showed".split())
LIST_OPENERS = frozenset(["no", "without", "any", "nor", "neither", "denies", "denied", "not", "of"])
OR_LIST_REACH = 22
NONE = frozenset(["none", "nil", "nowhere"])
NONE_REACH = 6
# No denial behind a condition reaches further, in words with its own.
AFTER_REACH = NONE_REACH + 8
SEEING = frozenset(["see", "find", "feel", "hear", "seeing", "finding", "feeling", "hearing", "spot"])
ANY = frozenset(["any", "a", "an", "no", "anything", "even"])

# Behind one of these stands what is not there ("no hiss", "free of debris").
OPENS = frozenset(["no", "without", "any", "of"])
# What stands there names no trouble.
NO_TROUBLE = frozenset(
    "problem problems bother drama worry worries need idea complaint complaints longer more further matter sweat harm"
    " doubt way chance reason point use other others one time rush hurry question them it these those that this the go"
    " life power charge light".split()
)
# These end the words that name it.
ENDS_NAME = (ENDS_SCOPE | LINKING | VERBS) - {"further"} | frozenset(
    ", and or nor on in at to from by round around off out over under of for with about that i it he she they there"
    " here no not any as since when at all this these those anywhere either yet now none nothing".split()
)
LONGEST_NAME = 3
# How far behind what is said of a part, in words, it may be said what is not there.
ABSENT_REACH = 5
NOTHING = frozenset(["nothing", "none"])
MOVES = frozenset(
    "moves moved moving move shifts shifted shifting turns turned turning budges budged gives".split()
)
BEGINS_DENIAL = frozenset(["no", "not", "without", "isn't", "aren't", "hasn't", "haven't", "ain't"])
# Behind such a word these praise, and deny no trouble: "not bad", "nothing special", "nothing to do".
NOT_DENIED = frozenset(
    "bad wrong thing work working to special much fancy unusual new doing do done needed wanted but else shabby half"
    " too awful due issue issues concern concerns complaint fault faults".split()
)
COMES = frozenset("coming comin weeping dripping showing hanging getting".split())
TROUBLE, MOVEMENT = "trouble", "movement"
"""What is denied by "nothing" alone, and by "nothing moves"."""


def denied(reading: Reading, condition: Mention, events: list[Mention]) -> Mention | None:
    """The cue that denies ``condition``, or None."""
    words = reading.all_words
    for cue in reading.inside("deny-after", condition.end, condition.end + AFTER_REACH):
        gap = words[condition.end : cue.start]
        if denies_on(words, cue, events):
            continue
        if condition.end <= cue.start and len(gap) <= 2 and all(w in LINKING for w in gap):
            return cue
        others = [m for m in events if m.kind == "condition" and condition.end <= m.start < cue.start]
        far = words[cue.start] in NONE and 0 < len(gap) <= NONE_REACH and not others
        if condition.end <= cue.start and far and not any(w in ENDS_SCOPE for w in gap):
            return cue
    for cue in reversed(cues_before(reading, condition)):
        between = words[cue.end : condition.start]
        if any(w in ENDS_SCOPE for w in between):
            return None
        inner = [m for m in events if cue.end <= m.start and m.end <= condition.start]
        if clause_of_its_own(words, cue, inner, condition):
            return None
        if or_list(words, cue, condition):
            return cue
        if list_through(words, cue, condition, inner):
            return cue
        if len(between) > REACH or "," in between:
            return None
        if any(m.kind == "condition" for m in inner) and not all_in_list(between):
            return None
        return cue
    return None


def denies_on(words: list[str], cue: Mention, events: list[Mention]) -> bool:
    """Whether a denial behind a condition is one of what stands behind itself: "cracks and nothing missing", "cuts,
    none of them deep".
    """
    if any(m.kind == "condition" and m.start == cue.end for m in events):
        return True
    after = words[cue.end : cue.end + 3]
    return len(after) == 3 and after[0] == "of" and after[2].isalpha() and after[2] not in ENDS_SCOPE


def clause_of_its_own(words: list[str], cue: Mention, inner: list[Mention], condition: Mention) -> bool:
    """Whether "and" begins another clause between the two: "does not work and the beacon is broken"."""
    return any(
        m.kind == "part"
        and "and" in words[max(cue.end, m.start - 2) : m.start]
        and any(w in VERBS for w in words[m.end : condition.start])
        for m in inner
    )


def cues_before(reading: Reading, condition: Mention) -> list[Mention]:
    """Denial cues before the condition, "can't see any" among them; longest of overlapping ones."""
    cues = [m for m in reading.of("deny") if m.end <= condition.start and condition.start - m.end <= 14]
    words = reading.all_words
    for hidden in reading.of("hidden"):
        if hidden.end > condition.start or words[hidden.end - 1] not in SEEING:
            continue
        if (
            words[hidden.end : hidden.end + 1]
            and words[hidden.end] in ANY
            and condition.start - hidden.end <= 5
        ):
            cues.append(hidden)
    return sorted(cues, key=lambda m: (m.start, m.end))


def list_through(words: list[str], cue: Mention, condition: Mention, inner: list[Mention]) -> bool:
    """Whether only a list of conditions stands between the cue and this one."""
    covered = {i for m in inner if m.kind in ("condition", "part") for i in range(m.start, m.end)}
    loose = [words[i] for i in range(cue.end, condition.start) if i not in covered]
    fine = [m for m in inner if m.kind == "condition" and m.value.condition.form == "fine"]
    parts_behind = [m for m in inner if m.kind == "part"]
    if condition.value.condition.form == "fine" and "," in loose:
        return False  # "no oil round it, good"
    if fine or (parts_behind and "," in loose and any(m.kind == "condition" for m in inner)):
        return False
    return (
        bool(inner)
        and all(w in LIST_WORDS for w in loose)
        and ("," in loose or "or" in loose or "and" in loose or "nor" in loose)
    )


def all_in_list(between: list[str]) -> bool:
    """Whether the words hold what joins a list without a comma."""
    return any(w in ("or", "nor", "and") for w in between)


def or_list(words: list[str], cue: Mention, condition: Mention) -> bool:
    """Whether cue and condition stand in one list closed by "or": "no cracks, bends, dents or leaks"."""
    if words[cue.end - 1] not in LIST_OPENERS or condition.start - cue.end > OR_LIST_REACH:
        return False
    between = words[cue.end : condition.start]
    behind = words[condition.end : condition.end + 8]
    stop = next((i for i, w in enumerate(behind) if w in ENDS_SCOPE or w in VERBS), len(behind))
    closed = "or" in between or "nor" in between or "or" in behind[:stop]
    return "," in between and closed and not any(w in VERBS or w in ENDS_SCOPE for w in between)


def absent(reading: Reading, start: int, end: int) -> tuple[str, int] | None:
    """What words between two tokens say is not there, where no table knows it, and the token where its name ends:
    "no hiss", "without drops", "nothing" of a pin that was shaken. None where they say nothing of the kind.
    """
    words = reading.all_words
    known = [m for m in reading.of("condition") if m.value.condition.alone]
    numbers = {m.start for kind in ("quantity", "told") for m in reading.of(kind)}
    for cue in reading.inside("deny", start, end):
        if cue.end in numbers or any(cue.overlaps(m) and len(m) >= len(cue) for m in known):
            continue
        last, at = words[cue.end - 1], cue.end
        if last in OPENS:
            while at < min(end, cue.end + LONGEST_NAME) and names(words[at]):
                at += 1
            if at > cue.end and words[at - 1] not in NO_TROUBLE and words[cue.end] not in NO_TROUBLE:
                return " ".join(words[cue.end : at]), at
        elif last in NOTHING and (at >= end or words[at] in ENDS_NAME):
            return TROUBLE, at
        elif last in NOTHING and words[at] in MOVES:
            return MOVEMENT, at + 1
        elif last in NOTHING and words[at] in COMES:
            return TROUBLE, at + 1
    return None


def names(word: str) -> bool:
    """Whether a word may belong to the name of what is denied."""
    return word.isalpha() and word not in ENDS_NAME


def absent_by_saying(words: Sequence[str]) -> str | None:
    """What a saying that is good by itself says is not there: "mark" of "not a mark on it", ``TROUBLE`` of "nothing in
    it"; None where it denies nothing.
    """
    if words[0] in NOTHING:
        return TROUBLE if len(words) > 1 and words[1] not in NOT_DENIED else None
    if words[0] not in BEGINS_DENIAL:
        return None
    at = 1 + (words[1:2] in (["a"], ["an"], ["one"], ["any"], ["single"]))
    if at >= len(words) or words[at] in NO_TROUBLE | NOT_DENIED or not names(words[at]):
        return None
    end = at
    while end < min(len(words), at + LONGEST_NAME) and names(words[end]):
        end += 1
    return " ".join(words[at:end])
