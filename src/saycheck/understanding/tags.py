"""The kind of mention that each word stands in: what the trained parts see of what the tables know."""

from saycheck.understanding.text import Reading

TAGS = (
    "part", "condition", "quantity", "deny", "hidden", "later", "keep-an-eye", "needs-work", "teach", "story",
    "hypothesis", "same", "correct", "take-back", "except", "here", "chat", "slight", "strong",
)  # fmt: skip


def tags(reading: Reading) -> list[str]:
    """For each token what it begins (B), is inside (I) or nothing, for the strongest kind of mention."""
    out = ["-"] * len(reading.tokens)
    for kind in reversed(TAGS):
        for mention in reading.of(kind):
            for i in range(mention.start, mention.end):
                out[i] = ("B-" if i == mention.start else "I-") + kind
    return out
