"""Big letters for a terminal: three rows high, to be read at two metres.

Each letter is five dots high; a row of the terminal shows two dots, one above the other. On a laptop's
terminal of 24 rows such a letter is about 20 mm high; for two metres 10 to 13 mm are needed (1/200 to 1/150
of the distance, as ISO 9241-3 has it for screens, from memory).
"""

ROWS = 3

_DOTS = {
    "A": ".#. #.# ### #.# #.#", "B": "##. #.# ##. #.# ##.", "C": ".## #.. #.. #.. .##",
    "D": "##. #.# #.# #.# ##.", "E": "### #.. ##. #.. ###", "F": "### #.. ##. #.. #..",
    "G": ".## #.. #.# #.# .##", "H": "#.# #.# ### #.# #.#", "I": "### .#. .#. .#. ###",
    "J": "..# ..# ..# #.# .#.", "K": "#.# #.# ##. #.# #.#", "L": "#.. #.. #.. #.. ###",
    "M": "#...# ##.## #.#.# #...# #...#", "N": "#..# ##.# #.## #..# #..#", "O": ".#. #.# #.# #.# .#.",
    "P": "##. #.# ##. #.. #..", "Q": ".#. #.# #.# ##. .##", "R": "##. #.# ##. #.# #.#",
    "S": ".## #.. .#. ..# ##.", "T": "### .#. .#. .#. .#.", "U": "#.# #.# #.# #.# ###",
    "V": "#.# #.# #.# #.# .#.", "W": "#...# #...# #.#.# ##.## #...#", "X": "#.# #.# .#. #.# #.#",
    "Y": "#.# #.# .#. .#. .#.", "Z": "### ..# .#. #.. ###",
    "0": "### #.# #.# #.# ###", "1": ".#. ##. .#. .#. ###", "2": "##. ..# .#. #.. ###",
    "3": "### ..# .## ..# ###", "4": "#.# #.# ### ..# ..#", "5": "### #.. ##. ..# ##.",
    "6": ".## #.. ### #.# ###", "7": "### ..# .#. .#. .#.", "8": "### #.# ### #.# ###",
    "9": "### #.# ### ..# ##.", "-": "... ... ### ... ...", ".": ". . . . #", ",": ".. .. .. .# #.",
    ":": ". # . # .", "?": "##. ..# .#. ... .#.", "/": "..# ..# .#. #.. #..", "'": "# # . . .",
    "±": ".#. ### .#. ... ###", "+": "... .#. ### .#. ...", "(": ".# #. #. #. .#", ")": "#. .# .# .# #.",
    "%": "#.# ..# .#. #.. #.#", " ": ".. .. .. .. ..",
}  # fmt: skip

_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def big(text: str, width: int, times: int = 1) -> list[str]:
    """The text in big letters as ``ROWS`` lines, cut at a whole letter where ``width`` columns are too few.

    ``times`` as large they take as many times the lines.
    """
    rows = [""] * ROWS * times
    for letter in text.upper():
        dots = ["".join(dot * times for dot in row) for row in _DOTS.get(letter, _DOTS["?"]).split()]
        if len(rows[0]) + len(dots[0]) > width:
            break
        dots.append("." * len(dots[0]))  # the lower half of the last row
        dots = [row for row in dots for _ in range(times)]
        for row in range(len(rows)):
            above, below = dots[2 * row], dots[2 * row + 1]
            cells = (_HALVES[a == "#", b == "#"] for a, b in zip(above, below, strict=True))
            rows[row] += "".join(cells) + " " * times
    return rows


def fitting(text: str, width: int) -> str:
    """As many whole words of a text, from its end, as fit into ``width`` columns of big letters."""
    words = text.split()
    while len(words) > 1 and _columns(" ".join(words)) > width:
        del words[0]
    return " ".join(words)


def wrapped(text: str, width: int) -> list[str]:
    """A text in rows of whole words that fit into ``width`` columns of big letters."""
    rows: list[str] = []
    for word in text.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and _columns(longer) <= width:
            rows[-1] = longer
        else:
            rows.append(word)
    return rows


def _columns(text: str) -> int:
    return sum(len(_DOTS.get(letter, _DOTS["?"]).split()[0]) + 1 for letter in text.upper())
