"""On which line of a TOML file something stands, so that an error can point there.

``tomllib`` gives lines for syntax errors only. This reads the headers and keys of a file that is known
to be valid TOML; it does not parse values.
"""

import re

Where = tuple[str | int, ...]

_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"""^\s*(?:"([^"]+)"|'([^']+)'|([A-Za-z0-9_-]+))\s*=(.*)$""")
_STRING = re.compile(r'"(?:\\.|[^"\\])*"|' + r"'[^']*'")


def lines_of(text: str) -> dict[Where, int]:
    """Map the path of each table and key to its line, counted from 1.

    A path alternates names and places as pydantic gives them: ``("zone", 0, "part", 2, "name")``.
    """
    found: dict[Where, int] = {}
    counts: dict[Where, int] = {}
    table: Where = ()
    depth = 0
    quotes = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if quotes:
            quotes = "" if line.count(quotes) % 2 else quotes
            continue
        if depth > 0:
            depth += _opened(line)
            continue
        if header := _HEADER.match(line):
            table = _table(header[2], header[1] == "[[", counts)
            found[table] = number
        elif key := _KEY.match(line):
            found[(*table, key[1] or key[2] or key[3])] = number
            value = key[4]
            quotes = next((q for q in ('"""', "'''") if value.count(q) % 2), "")
            depth = 0 if quotes else _opened(value)
    return found


def line_of(text: str, where: Where) -> int:
    """The line of the key or table at ``where``, or of the nearest table around it; 1 at worst."""
    found = lines_of(text)
    for length in range(len(where), 0, -1):
        if where[:length] in found:
            start = found[where[:length]]
            names = [step for step in where[length:] if isinstance(step, str)]
            return _inner(text, start, names[-1]) if names else start
    return 1


def _inner(text: str, start: int, name: str) -> int:
    """The first line from ``start`` on that sets ``name``, as inline tables do; else ``start``."""
    wanted = re.compile(rf"(?<![\w-]){re.escape(name)}\s*=")
    for number, line in enumerate(text.splitlines()[start - 1 :], start=start):
        if number > start and (_HEADER.match(line) or _KEY.match(line)):
            break
        if wanted.search(line):
            return number
    return start


def _table(dotted: str, many: bool, counts: dict[Where, int]) -> Where:
    """The path of a header: names with the place of the current element after each array of tables."""
    path: Where = ()
    names = [name.strip().strip("\"'") for name in dotted.split(".")]
    for place, name in enumerate(names):
        path = (*path, name)
        if many and place == len(names) - 1:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def _opened(line: str) -> int:
    """How many more brackets a line opens than it closes, strings and comments aside."""
    bare = _STRING.sub("", line).split("#", 1)[0]
    return sum(bare.count(mark) for mark in "[{") - sum(bare.count(mark) for mark in "]}")
