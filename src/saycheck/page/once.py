"""The words of a walk as a key: what is made of them alone is worked out once."""

from saycheck.models.walk import Word


class Once:
    """A list by its identity, so that what is made of it can be kept; words never change after hearing."""

    def __init__(self, words: list[Word]) -> None:
        self.words = words

    def __hash__(self) -> int:
        return id(self.words)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Once) and self.words is other.words
