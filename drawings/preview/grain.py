"""What does wood look like close up? One seamless picture of grain, drawn from numbers, that a colour then tints.

The rows of the picture run across the grain, the columns along it. It is as light as can be: early wood is white, so
that a material's own colour shows, and late wood is a darker and redder shade of it.
"""

import struct
import zlib
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: What one picture covers, mm: along the grain and across it. Softwood in view shows a ring every 5 to 10 mm.
ALONG, ACROSS = 1100.0, 400.0

PIXELS = 512
RINGS = 44
SHADES = 48
LATE_WOOD = np.array([0.68, 0.52, 0.37])


@dataclass(frozen=True, eq=False)
class Grain:
    """png: the picture; mean: its average as linear light, red, green and blue, each 0 to 1."""

    png: bytes
    mean: Floats


@lru_cache(maxsize=1)
def wood_grain() -> Grain:
    """The grain picture: a 48-shade PNG, 512 pixels square, that repeats without a seam both ways."""
    shade = np.rint(_darkness() * (SHADES - 1)).astype(np.uint8)
    palette = _palette()
    return Grain(_png(shade, palette), linear(palette[shade] / 255.0).mean(axis=(0, 1)))


def linear(srgb: Floats) -> Floats:
    """Linear light of sRGB values, each 0 to 1 (IEC 61966-2-1)."""
    return np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)


def _darkness() -> Floats:
    """0 for early wood to 1 for late wood; (rows, columns)."""
    random = np.random.default_rng(1887)
    across = np.arange(PIXELS)[:, None] / PIXELS
    wander = 2.5 * _noise(random, along=1.1, across=1.6) + 0.12 * _noise(random, along=5, across=14)
    ring = (RINGS * across + wander) % 1.0
    late = _smooth(ring, 0.10, 0.80) ** 1.5 * (1 - _smooth(ring, 0.84, 1.0))
    strength = np.clip(0.31 + 0.12 * _noise(random, along=1.3, across=10), 0.1, 1)
    fibre = _noise(random, along=7, across=170)
    tone = _noise(random, along=1.2, across=3)
    return np.clip(0.16 + strength * late + 0.070 * fibre + 0.060 * tone, 0, 1)


def _noise(random: np.random.Generator, along: float, across: float) -> Floats:
    """Seamless noise of mean 0 and deviation 1; `along` and `across` are about how many waves it has each way."""
    rows = np.fft.fftfreq(PIXELS, 1 / PIXELS)[:, None]
    columns = np.fft.rfftfreq(PIXELS, 1 / PIXELS)[None, :]
    weight = np.exp(-((columns / along) ** 2) - (rows / across) ** 2)
    spectrum = np.fft.rfft2(random.standard_normal((PIXELS, PIXELS))) * weight
    spectrum[0, 0] = 0
    noise = np.fft.irfft2(spectrum, s=(PIXELS, PIXELS))
    return np.asarray(noise / noise.std())


def _smooth(value: Floats, low: float, high: float) -> Floats:
    t = np.clip((value - low) / (high - low), 0, 1)
    return np.asarray(t * t * (3 - 2 * t))


def _palette() -> NDArray[np.uint8]:
    share = np.linspace(0, 1, SHADES)[:, None]
    return np.rint(255 * (1 - share * (1 - LATE_WOOD))).astype(np.uint8)


def _png(shade: NDArray[np.uint8], palette: NDArray[np.uint8]) -> bytes:
    """A palette PNG (ISO/IEC 15948)."""
    height, width = shade.shape
    rows = np.hstack([np.zeros((height, 1), np.uint8), shade]).tobytes()
    header = struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        [
            _chunk(b"IHDR", header),
            _chunk(b"PLTE", palette.tobytes()),
            _chunk(b"IDAT", zlib.compress(rows, 9)),
            _chunk(b"IEND", b""),
        ]
    )


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
