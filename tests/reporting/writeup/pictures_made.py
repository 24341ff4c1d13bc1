"""Pictures made for the tests."""

import io

import av
import numpy as np


def jpeg(width: int = 64, height: int = 48) -> bytes:
    """A grey JPEG with a slope in it."""
    slope = np.linspace(0, 255, width * height).reshape(height, width).astype(np.uint8)
    frame = av.VideoFrame.from_ndarray(np.stack([slope] * 3, axis=-1), format="rgb24")
    out = io.BytesIO()
    with av.open(out, "w", format="image2pipe") as file:
        stream = file.add_stream("mjpeg")
        stream.width, stream.height, stream.pix_fmt = width, height, "yuvj420p"
        for packet in (*stream.encode(frame), *stream.encode(None)):
            file.mux(packet)
    return out.getvalue()
