"""Sound made of clips and silence, read in any part without ever being written: a player asks for pieces of it."""

from __future__ import annotations

import struct
import wave
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

HEAD = 44
"""Length of the head of a WAV of plain samples. [bytes]"""
WIDTH = 2
"""One channel of 16 bits. [bytes]"""
PIECE = 65_536
"""Read and given at once. [bytes]"""
MOST_BYTES = 60_000_000
"""Over twenty minutes at the voices' rates. Our choice. [bytes]"""


class _Part(NamedTuple):
    """A clip's samples, or silence where there is no path; how many bytes, and where they begin in the file."""

    path: Path | None
    size: int
    from_byte: int = 0


class JoinedSound:
    """WAV of clips, one after the other, with silence between them.

    Parameters
    ----------
    pieces : sequence of (Path or float)
        WAVs of one channel and 16 bits at one rate, and silences. [s]

    Raises
    ------
    RefusedError
        If a clip cannot be joined to the others, there is none, or all of it is too long.
    """

    def __init__(self, pieces: Sequence[Path | float]) -> None:
        rates = {_rate_hz(piece) for piece in pieces if not isinstance(piece, float)}
        if len(rates) != 1 or None in rates:
            raise RefusedError("adapters.sound.not_joined")
        self.rate_hz = rates.pop() or 1
        self._parts = [self._part(piece) for piece in pieces]
        self.size = HEAD + sum(part.size for part in self._parts)
        """Length of the whole file. [bytes]"""
        if self.size > MOST_BYTES:
            raise RefusedError("adapters.sound.too_long", most_s=MOST_BYTES / WIDTH / self.rate_hz)

    @property
    def begins_s(self) -> tuple[float, ...]:
        """When each piece begins. [s]"""
        found, at = [], 0
        for part in self._parts:
            found.append(at / WIDTH / self.rate_hz)
            at += part.size
        return tuple(found)

    @property
    def lasts_s(self) -> float:
        """Length. [s]"""
        return (self.size - HEAD) / WIDTH / self.rate_hz

    def read(self, begin: int = 0, end: int | None = None) -> Iterator[bytes]:
        """Bytes of the file from ``begin`` on, before ``end``, in pieces."""
        end = self.size if end is None else min(end, self.size)
        yield self._head()[begin:end]
        at = HEAD
        for part in self._parts:
            first, last = max(begin - at, 0), min(end - at, part.size)
            yield from _read(part, first, last)
            at += part.size

    def _part(self, piece: Path | float) -> _Part:
        if isinstance(piece, float):
            return _Part(None, round(piece * self.rate_hz) * WIDTH)
        with piece.open("rb") as file, wave.open(file) as sound:
            frames = sound.getnframes()
            sound.setpos(0)
            sound.readframes(0)  # the reader stands where the samples begin
            return _Part(piece, frames * WIDTH, file.tell())

    def _head(self) -> bytes:
        samples = self.size - HEAD
        return struct.pack(
            "<4sI4s4sIHHIIHH4sI",
            b"RIFF",
            HEAD - 8 + samples,
            b"WAVE",
            b"fmt ",
            16,
            1,
            1,
            self.rate_hz,
            self.rate_hz * WIDTH,
            WIDTH,
            8 * WIDTH,
            b"data",
            samples,
        )


def _rate_hz(path: Path) -> int | None:
    try:
        with wave.open(str(path), "rb") as sound:
            if sound.getnchannels() == 1 and sound.getsampwidth() == WIDTH and sound.getcomptype() == "NONE":
                return sound.getframerate()
    except (OSError, EOFError, wave.Error):
        pass
    return None


def _read(part: _Part, first: int, last: int) -> Iterator[bytes]:
    """Bytes of a part; a clip that was thrown away meanwhile is silent: the length that was told stays true."""
    if first < last and part.path is not None:
        try:
            with part.path.open("rb") as file:
                file.seek(part.from_byte + first)
                while first < last and (read := file.read(min(PIECE, last - first))):
                    yield read
                    first += len(read)
        except OSError:
            pass
    while first < last:
        step = min(PIECE, last - first)
        yield bytes(step)
        first += step
