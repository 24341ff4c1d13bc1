"""A list of a hearing as a key: what is made of it alone is worked out once."""

from typing import Generic, TypeVar

T = TypeVar("T")


class Once(Generic[T]):
    """A list by its identity, so that what is made of it can be kept; words and sound never change after hearing."""

    def __init__(self, items: list[T]) -> None:
        self.items = items

    def __hash__(self) -> int:
        return id(self.items)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Once) and self.items is other.items
