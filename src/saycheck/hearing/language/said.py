"""Numbers as they are said on a walk: whole, digit by digit, decimals, fractions, ranges, with units.

Each function takes the dice and gives words. Which forms are common, and how common, is common practice,
no source; the forms themselves are those that ``understanding.numbers`` reads.
"""

import random
from collections.abc import Callable

Said = Callable[[random.Random], str]

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen"
).split()
TENS = "_ _ twenty thirty forty fifty sixty seventy eighty ninety".split()
NTH = "first second third fourth fifth sixth seventh eighth ninth tenth".split()
FRACTIONS = (
    "half", "a half", "a quarter", "a third", "two thirds", "three quarters", "an eighth", "three eighths",
    "five eighths", "seven eighths", "a sixteenth", "three sixteenths", "five sixteenths", "seven sixteenths",
    "nine sixteenths", "eleven sixteenths", "thirteen sixteenths", "fifteen sixteenths", "a tenth", "half",
    "a thirty second", "three thirty seconds", "five thirty seconds", "quarter", "three quarter",
)  # fmt: skip


def whole(number: int, rng: random.Random) -> str:
    """A whole number below a million as a cardinal, with or without "and", hundreds now and then short."""
    if 100 < number < 1000 and number % 100 and rng.random() < 0.25:  # "two forty", "two oh five"
        rest = number % 100
        return f"{ONES[number // 100]} {'oh ' if rest < 10 else ''}{_full(rest, rng)}"
    if 100 <= number < 200 and rng.random() < 0.5:
        return f"a {_full(number, rng).removeprefix('one ')}"
    return _full(number, rng)


def _full(number: int, rng: random.Random) -> str:
    if number < 20:
        return ONES[number]
    if number < 100:
        return TENS[number // 10] + (f" {ONES[number % 10]}" if number % 10 else "")
    scale, name = (100, "hundred") if number < 1000 else (1000, "thousand")
    said, rest = f"{_full(number // scale, rng)} {name}", number % scale
    if not rest:
        return said
    joined = "and " if rest < 100 and rng.random() < 0.5 else ""
    return f"{said} {joined}{_full(rest, rng)}"


def digits(text: str, rng: random.Random) -> str:
    """Digits one by one, nought said in one of its ways throughout."""
    nought = rng.choice(("zero", "oh", "zero", "oh", "zero", "nought"))
    return " ".join(nought if digit == "0" else ONES[int(digit)] for digit in text)


def pairs(number: int, rng: random.Random) -> str:
    """A number of three to five figures in pairs: "forty one twelve", "sixty two oh four"."""
    text = str(number)
    text = text if len(text) % 2 == 0 else text[:1] + " " + text[1:] if len(text) == 3 else text
    if " " in text or len(text) == 5:
        first, rest = (text.split(" ")[0], text.split(" ")[1]) if " " in text else (text[0], text[1:])
    else:
        first, rest = text[:2], text[2:]
    said = [whole(int(first), rng)]
    for at in range(0, len(rest), 2):
        pair = int(rest[at : at + 2])
        said.append("hundred" if pair == 0 else ("oh " if pair < 10 else "") + whole(pair, rng))
    return " ".join(said)


def decimal(high: int, rng: random.Random) -> str:
    """A number with one or two decimals below ``high``."""
    places = digits(str(rng.randrange(10)) if rng.random() < 0.65 else f"{rng.randrange(100):02d}", rng)
    ahead = rng.randrange(high)
    if ahead == 0 and rng.random() < 0.5:
        return f"point {places}"
    said = digits(str(ahead), rng) if rng.random() < 0.3 else whole(ahead, rng)
    return f"{said} point {places}"


def count(rng: random.Random) -> str:
    """A small number of things."""
    return ONES[min(1 + int(rng.expovariate(0.35)), 16)]


def nth(rng: random.Random) -> str:
    """Which one of a row."""
    return rng.choice((*NTH[:5], *NTH, "last", "next", "end", "middle", "second last"))


def fraction(rng: random.Random) -> str:
    """A fraction, alone or after a whole number."""
    said = rng.choice(FRACTIONS)
    if rng.random() < 0.3:
        return (
            f"{ONES[1 + int(rng.expovariate(0.5)) % 9]} and {said if said.split()[0] != 'half' else 'a half'}"
        )
    return said


def number(low: int, high: int, rng: random.Random, step: int = 1) -> str:
    """A number of the range in one of the ways people say it."""
    value = rng.randrange(low // step, high // step + 1) * step
    dice = rng.random()
    if value > 9 and dice < 0.22:
        return digits(str(value), rng)
    if value > 100 and dice < 0.42:
        return pairs(value, rng) if value < 100_000 else whole(value, rng)
    if dice > 0.94:
        more = value + rng.choice((1, 1, 2, 5, 10)) * step
        return f"{whole(value, rng)} {rng.choice(('to', 'or', 'to', 'maybe'))} {whole(more, rng)}"
    return whole(value, rng)


def length(rng: random.Random) -> str:
    """A length in millimetres, inches, thousandths or centimetres."""
    dice = rng.random()
    if dice < 0.42:
        unit = rng.choice(("mil", "mil", "mil", "millimetres", "millimetres", "mm"))
        high = 30 if rng.random() < 0.7 else 400
        if rng.random() < 0.22:
            return f"{decimal(30, rng)} {unit}"
        if rng.random() < 0.06:
            half = rng.choice(("half", "half a", "a", "one and a half", "two and a half"))
            return f"{half} {'mil' if unit == 'mm' else unit.removesuffix('s')}"
        return f"{number(1, high, rng, 1 if high == 30 else 5)} {unit}"
    if dice < 0.78:
        said = fraction(rng)
        if rng.random() < 0.25:
            unit = rng.choice(("inch", "inches"))
            return f"{number(1, 40, rng)} {unit}" if rng.random() < 0.7 else f"{decimal(10, rng)} {unit}"
        if " and " in said:
            return f"{said} {rng.choice(('inches', 'inch'))}"
        return f"{said} {rng.choice(('inch', 'of an inch', 'of an inch', ''))}"
    if dice < 0.88:
        return f"{number(2, 90, rng)} {rng.choice(('thou', 'thou', 'thousandths'))}"
    return f"{number(1, 40, rng)} {rng.choice(_SELDOM)}"


_SELDOM = ("centimetres", "cm", "feet", "foot", "metres", "fingers", "turns", "threads")


def pressure(rng: random.Random) -> str:
    """A pressure in psi, bar, kilopascal or just pounds."""
    dice = rng.random()
    if dice < 0.6:
        return f"{number(10, 130, rng)} {rng.choice(('psi', 'psi', 'psi', 'pounds'))}"
    if dice < 0.72:
        return f"{number(600, 4000, rng, 50)} psi"
    if dice < 0.92:
        return f"{decimal(10, rng) if rng.random() < 0.6 else number(1, 250, rng)} bar"
    return f"{number(200, 900, rng, 10)} kpa"


def volts(rng: random.Random) -> str:
    """A voltage of a battery or an alternator."""
    ahead = rng.choice((11, 12, 12, 12, 13, 13, 14, 14, 23, 24, 24, 25, 27, 28))
    said = digits(str(ahead), rng) if rng.random() < 0.3 else whole(ahead, rng)
    if rng.random() < 0.85:
        said += " point " + digits(
            str(rng.randrange(10)) if rng.random() < 0.7 else f"{rng.randrange(100):02d}", rng
        )
    return f"{said} {rng.choice(('volts', 'volts', 'volts', 'volt', ''))}"


def temperature(rng: random.Random) -> str:
    """A temperature, above or below nought."""
    said = number(1, 100, rng)
    if rng.random() < 0.45:
        said = rng.choice(("minus", "minus", "negative")) + " " + number(5, 45, rng)
    return (
        f"{said} {rng.choice(('degrees', 'degrees', 'degrees celsius', 'degrees fahrenheit', 'below', ''))}"
    )


def percent(rng: random.Random) -> str:
    """A share of a hundred."""
    return f"{number(5, 100, rng, 5)} percent"


def hours(rng: random.Random) -> str:
    """A reading of the hour meter."""
    value = int(10 ** rng.uniform(2, 4.4))
    dice = rng.random()
    if dice < 0.3:
        said = digits(str(value), rng)
    elif dice < 0.5 and value > 999:
        said = pairs(value, rng)
    else:
        said = whole(value, rng)
    if rng.random() < 0.12:
        said += " point " + ONES[rng.randrange(10)]
    return f"{said} {rng.choice(('hours', 'hours', 'hours', ''))}"


def litres(rng: random.Random) -> str:
    """An amount of something poured."""
    said = rng.choice(("half a", "a", "one", "a quarter of a")) if rng.random() < 0.3 else number(2, 60, rng)
    plural = said[0] not in "ah" and said != "one"
    return f"{said} {rng.choice(('litre', 'litre', 'gallon', 'quart', 'pint'))}{'s' if plural else ''}"


def time(rng: random.Random) -> str:
    """A time of day or a while."""
    hour = ONES[rng.randrange(1, 13)]
    before = ("half past", "ten past", "quarter to", "quarter past", "twenty to", "just after", "about")
    after = ("o'clock", "thirty", "fifteen", "this morning", "hundred")
    while_ = ("hours", "minutes", "weeks", "days", "months")
    forms = (
        f"{rng.choice(before)} {hour}",
        f"{hour} {rng.choice(after)}",
        f"{count(rng)} {rng.choice(while_)}",
    )
    return rng.choice(forms)


def speed(rng: random.Random) -> str:
    """Turns of an engine."""
    return f"{number(600, 2400, rng, 50)} {rng.choice(('rpm', 'revs'))}"


BY_UNIT: dict[str, Said] = {
    **dict.fromkeys(("mm", "in", "cm", "thou"), length),
    **dict.fromkeys(("psi", "bar", "kPa"), pressure),
    **dict.fromkeys(("degC", "degF"), temperature),
    "V": volts,
    "percent": percent,
    "h": hours,
    "L": litres,
    "rpm": speed,
}
"""How a measure is said, by the unit that the vocabulary gives it."""
