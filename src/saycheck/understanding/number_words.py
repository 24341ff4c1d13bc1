"""The words that numbers are made of, with their values."""

ONES = {w: n for n, w in enumerate("zero one two three four five six seven eight nine".split())}
ONES |= {"oh": 0, "o": 0, "nought": 0, "naught": 0, "nil": 0}
TEENS = {
    w: n + 10
    for n, w in enumerate(
        "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
    )
}
TENS = {w: 10 * n for n, w in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)}
TENS["fourty"] = 40
SCALES = {"hundred": 10**2, "thousand": 10**3, "lakh": 10**5, "million": 10**6, "crore": 10**7}
SCALES |= {
    w: 10 ** (3 * n)
    for n, w in enumerate("billion trillion quadrillion quintillion sextillion septillion".split(), 3)
}
ORDINALS = {
    w: n
    for n, w in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth"
        " fifteenth sixteenth seventeenth eighteenth nineteenth".split(),
        1,
    )
}
ORDINALS |= {w[:-1] + "ieth": n for w, n in TENS.items() if w != "fourty"}
ORDINALS |= {"hundredth": 100, "thousandth": 1000, "millionth": 10**6, "billionth": 10**9}
PARTS = {
    "half": 2,
    "halves": 2,
    "third": 3,
    "thirds": 3,
    "quarter": 4,
    "quarters": 4,
    "fifth": 5,
    "fifths": 5,
}
PARTS |= {"sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16}
PARTS |= {"sixteenths": 16, "twelfth": 12, "twelfths": 12, "hundredth": 100, "hundredths": 100}
PARTS |= {"thousandth": 1000, "thousandths": 1000, "sixtyfourths": 64}
# Fractions of an inch whose lower number is two words: "eleven thirty-seconds".
SPOKEN_BELOW: dict[tuple[str, ...], int] = {
    (tens, ones): below
    for below, tens, names in ((32, "thirty", ("second", "seconds")), (64, "sixty", ("fourth", "fourths")))
    for ones in names
}
SPOKEN_BELOW |= {("32", "nds"): 32, ("32", "nd"): 32, ("64", "ths"): 64, ("16", "ths"): 16, ("8", "ths"): 8}
POINTS = frozenset(["point", "decimal"])
GLYPHS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}
MINUS = frozenset(["minus", "negative", "-"])
SMALL = ONES | TEENS | TENS
BEGINS = frozenset(
    [*SMALL, *SCALES, *PARTS, *GLYPHS, *POINTS, *MINUS, "a", "an", "dozen", "couple", "double", "triple"]
)
"""The words, beside figures, that a number begins with."""
# Longer runs of digits are no number anyone says of a machine.
MOST_DIGITS = 15
