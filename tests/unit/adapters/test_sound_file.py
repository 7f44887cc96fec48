"""Sound of clips and silence: the whole file is a WAV, and any part of it is the same as of the whole."""

from __future__ import annotations

import io
import wave
from typing import TYPE_CHECKING

import pytest

from wetside.adapters import sound_file
from wetside.adapters.sound_file import JoinedSound
from wetside.errors import RefusedError

if TYPE_CHECKING:
    from pathlib import Path

RATE = 8000


def clip(path: Path, value: int, count: int, *, rate: int = RATE, channels: int = 1) -> Path:
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(channels)
        sound.setsampwidth(2)
        sound.setframerate(rate)
        sound.writeframes(value.to_bytes(2, "little") * count)
    return path


@pytest.fixture
def joined(tmp_path: Path) -> JoinedSound:
    first, second = clip(tmp_path / "a.wav", 258, 400), clip(tmp_path / "b.wav", 772, 800)
    return JoinedSound([first, 0.5, second, 0.25, first])


def test_the_whole_is_a_wav_of_its_pieces(joined: JoinedSound) -> None:
    """Samples of each clip stand where they were told to begin, silence between them."""
    whole = b"".join(joined.read())
    assert len(whole) == joined.size
    with wave.open(io.BytesIO(whole)) as sound:
        assert sound.getframerate() == RATE
        assert sound.getnframes() == 400 + 4000 + 800 + 2000 + 400
        samples = sound.readframes(sound.getnframes())
    values = [int.from_bytes(samples[place : place + 2], "little") for place in range(0, len(samples), 2)]
    assert values == [258] * 400 + [0] * 4000 + [772] * 800 + [0] * 2000 + [258] * 400
    assert joined.begins_s == (0.0, 0.05, 0.55, 0.65, 0.9)
    assert joined.lasts_s == pytest.approx(0.95)


def test_any_part_is_that_part_of_the_whole(joined: JoinedSound, monkeypatch: pytest.MonkeyPatch) -> None:
    """Players ask for parts; also where the pieces that are read are small."""
    whole = b"".join(joined.read())
    monkeypatch.setattr(sound_file, "PIECE", 37)
    for begin in (0, 1, 43, 44, 45, 843, 845, 9000, joined.size - 1):
        for end in (begin + 1, begin + 100, joined.size):
            assert b"".join(joined.read(begin, end)) == whole[begin:end]


def test_a_clip_that_is_thrown_away_meanwhile_is_silent(joined: JoinedSound, tmp_path: Path) -> None:
    """The length that was told stays true."""
    (tmp_path / "b.wav").unlink()
    whole = b"".join(joined.read())
    assert len(whole) == joined.size
    assert b"\x04\x03" not in whole


def test_what_does_not_fit_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another rate, two channels, no clip at all, or too long."""
    one = clip(tmp_path / "a.wav", 1, 10)
    broken = tmp_path / "broken.wav"
    broken.write_bytes(b"no sound")
    others = (clip(tmp_path / "c.wav", 1, 10, rate=11025), clip(tmp_path / "d.wav", 1, 10, channels=2), broken)
    for pieces in (*([one, other] for other in others), [1.0], [one, tmp_path / "gone.wav"]):
        with pytest.raises(RefusedError) as found:
            JoinedSound(pieces)
        assert found.value.code == "adapters.sound.not_joined"
    monkeypatch.setattr(sound_file, "MOST_BYTES", 1000)
    with pytest.raises(RefusedError) as found:
        JoinedSound([one, 1.0])
    assert found.value.code == "adapters.sound.too_long"
