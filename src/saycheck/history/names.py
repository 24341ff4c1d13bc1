"""Names of units as they are compared and stored: whatever someone typed, without getting in anyone's way."""

import unicodedata


def unit_key(name: str) -> str:
    """What two writings of one unit's name have in common: "Loader  Seven" and "loader seven"."""
    return " ".join(unicodedata.normalize("NFKC", storable(name)).casefold().split())


def storable(text: str) -> str:
    """The text without what a database refuses: NUL and halves of surrogate pairs become U+FFFD."""
    return (
        text.replace("\0", "\ufffd").encode("utf-8", "replace").decode("utf-8") if not _plain(text) else text
    )


def _plain(text: str) -> bool:
    return text.isascii() and "\0" not in text
