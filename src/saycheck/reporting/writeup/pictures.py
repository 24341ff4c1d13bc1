"""Which photographs can be shown: told by their first bytes, never by their names."""

_BEGINNINGS = {
    b"\xff\xd8\xff": "image/jpeg",
    b"\x89PNG\r\n\x1a\n": "image/png",
    b"GIF87a": "image/gif",
    b"GIF89a": "image/gif",
}


def mime(content: bytes) -> str:
    """The media type of a photograph that both paper and page can show; empty for any other file."""
    for beginning, name in _BEGINNINGS.items():
        if content.startswith(beginning):
            return name
    return "image/webp" if content[:4] == b"RIFF" and content[8:12] == b"WEBP" else ""
