"""Read a word letter by letter, by rules: the last resort for words that no dictionary knows.

Rules were written by us from common English spelling and tried on the CMU dictionary. The longest rule
that fits wins; ``#`` before or after a rule is the edge of the word, ``V`` a vowel letter, ``C`` a
consonant letter next to it.
"""

import re
from functools import cache

_RULES = """
#kn N | #gn N | #pn N | #wr R | #ps S | #x Z | #wh W | #who HH UW | #rh R | #eu Y UW | tch CH | ch CH
sch S K | sh SH | ph F | th TH | gh | ght T | ck K | qu K W | que# K | ng# NG | ngs# NG Z | nk NG K
dge JH | dg JH | tion SH AH N | sion ZH AH N | ssion SH AH N | cian SH AH N | cious SH AH S
tious SH AH S | ture CH ER | sure ZH ER | cial SH AH L | tial SH AH L | ci S IH | ce S | cy S IY | sce S
sci S IH | cc K | c K | cqu K W | gi JH IH | ge JH | ges# JH IH Z | gy JH IY | gue# G | gu G | gg G | g G
bb B | dd D | ff F | ll L | mm M | nn N | pp P | rr R | ss S | tt T | zz Z | kk K | vv V | mb# M | mn# M
bt# T | lm AH M | lk# L K | b B | d D | f F | h HH | j JH | k K | l L | m M | n N | p P | r R | s S
t T | v V | w W | x K S | z Z | VsV Z | s# S | es# Z | ies# IY Z | bs# B Z | ds# D Z | gs# G Z | ls# L Z
ms# M Z | ns# N Z | rs# R Z | ers# ER Z | vs# V Z | ed# D | ted# T IH D | ded# D IH D | ked# K T
ped# P T | shed# SH T | ched# CH T | ssed# S T | #y Y | y# IY | y IH | ly# L IY | my# M IY | fy# F AY
#Cy# AY | ey# IY | ay EY | oy OY | uy AY | ai EY | air EH R | au AO | augh AO | aw AO | all AO L
alk AO K | al# AH L | ar AA R | are# EH R | ary# EH R IY | ange EY N JH | a# AH | aste EY S T | ate# EY T
able# AH B AH L | age# IH JH | ace# EY S | ade# EY D | ake# EY K | ale# EY L | ame# EY M | ane# EY N
ape# EY P | ase# EY S | ave# EY V | ays# EY Z | a AE | aCV EY | ae IY | ee IY | eer IH R | ea IY
ear IH R | ead EH D | eau OW | ei EY | eigh EY | eir EH R | er ER | ere# IH R | err EH R | eu UW | ew UW
e# | el# AH L | en# AH N | ence# AH N S | ent# AH N T | e EH | eCV IY | et# AH T | ess# AH S
ement AH M AH N T | ie IY | ier# IY ER | ies# IY Z | igh AY | ight AY T | ign AY N | ind# AY N D | ir ER
ire AY ER | ing# IH NG | ings# IH NG Z | i# IY | ide# AY D | ife# AY F | ike# AY K | ile# AY L | ime# AY M
ine# AY N | ipe# AY P | ise# AY Z | ite# AY T | ive# IH V | ize# AY Z | ic# IH K | ity# AH T IY | i IH
io IY OW | ia IY AH | ian# IY AH N | oa OW | oar AO R | oe OW | oi OY | oo UW | ook UH K | oor AO R
ou AW | ough AO | ould UH D | our AO R | ous# AH S | ow OW | own AW N | or AO R | ore AO R | ord AO R D
old OW L D | olt OW L T | oll OW L | ost OW S T | oth AO TH | obe# OW B | ode# OW D | oke# OW K
ole# OW L | ome# OW M | one# OW N | ope# OW P | ose# OW Z | ote# OW T | ove# AH V | on# AH N | o# OW
or# ER | ors# ER Z | o AA | oCV OW | ue UW | ui UW | ull UH L | ur ER | ure# Y UH R | ude# UW D
uke# UW K | ule# UW L | ume# UW M | une# UW N | use# UW Z | ute# UW T | uck AH K | ush UH SH | um# AH M
us# AH S | u# UW | u AH | uCV UW | le# AH L | les# AH L Z | Cle# AH L | re# ER | men# M AH N | man# M AH N
"""


@cache
def _table() -> list[tuple[re.Pattern[str], int, tuple[str, ...]]]:
    """Rules as patterns with how many letters they read, longest and most particular first."""
    rules = []
    for rule in (r for line in _RULES.splitlines() for r in line.split("|") if r.strip()):
        shape, *sounds = rule.split()
        letters = re.sub("[#VC]", "", shape)
        before = shape[: shape.index(letters)]
        after = shape[shape.index(letters) + len(letters) :]
        pattern = letters
        if before:
            pattern = (
                "(?<="
                + {"#": "^", "V": "[aeiouy]", "C": "[^aeiouy]", "#C": "^[^aeiouy]"}[before]
                + ")"
                + pattern
            )
            pattern = pattern.replace("(?<=^)", "^")
            pattern = pattern.replace("(?<=^[^aeiouy])", "(?<![a-z]{2})(?<=[^aeiouy])")
        if after:
            pattern += (
                "(?="
                + {"#": "$", "V": "[aeiouy]", "C": "[^aeiouy]", "CV": "[^aeiouywxr][aeiouy]"}[after]
                + ")"
            )
        rules.append(
            (re.compile(pattern), len(letters), tuple(sounds), len(letters) + len(before + after) / 4)
        )
    rules.sort(key=lambda rule: -rule[3])
    return [(pattern, length, sounds) for pattern, length, sounds, _ in rules]


def spelled_out(word: str) -> list[str]:
    """The sounds of a word by its letters alone."""
    word = re.sub("[^a-z]", "", word.lower())
    if not re.search("[aeiouy]", word):
        return [sound for letter in word for sound in _LETTERS[letter]]
    out: list[str] = []
    at = 0
    while at < len(word):
        for pattern, length, sounds in _table():
            if pattern.match(word, at):
                out += sounds
                at += length
                break
        else:
            at += 1
    return [sound for n, sound in enumerate(out) if n == 0 or sound != out[n - 1]]


_LETTERS = {
    letter: tuple(sounds.split())
    for letter, sounds in zip(
        "abcdefghijklmnopqrstuvwxyz",
        "EY|B IY|S IY|D IY|IY|EH F|JH IY|EY CH|AY|JH EY|K EY|EH L|EH M|EH N|OW|P IY|K Y UW|AA R|EH S|T IY"
        "|Y UW|V IY|D AH B AH L Y UW|EH K S|W AY|Z IY".split("|"),
        strict=True,
    )
}
