"""Pictures for tests, made on the spot."""

import io
import random

from PIL import Image


def picture(kind="PNG", size=(60, 40), *, seed=1, mode="RGB", **more):
    """A picture of coloured squares; another seed, another picture."""
    chosen = random.Random(seed)
    small = Image.new("RGB", (6, 4))
    small.putdata([tuple(chosen.randrange(256) for _ in range(3)) for _ in range(24)])
    out = io.BytesIO()
    small.resize(size, Image.Resampling.BILINEAR).convert("L" if mode == "I;16" else "RGB").convert(mode).save(
        out, kind, **more
    )
    return out.getvalue()
