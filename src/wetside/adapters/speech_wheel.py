"""A process of its own that speaks one sentence into a WAV by the wheel's library: ``OUT LANGUAGE WORDS_A_MINUTE``.

The library is GPL-3 and is never loaded beside the rest of the program.
"""

from __future__ import annotations

import ctypes
import sys
import wave

SYNCHRONOUS, UTF8, RATE = 2, 1, 1
"""Of the library's header ``speak_lib.h``: an output mode, a flag of the text, a parameter."""


def main(out: str, language: str, words_a_minute: str) -> int:
    """Read a sentence from standard input and write it as sound."""
    import espeakng_loader  # type: ignore[import-untyped]  # the wheel has no types

    library = ctypes.CDLL(espeakng_loader.get_library_path())
    rate_hz = library.espeak_Initialize(SYNCHRONOUS, 0, str(espeakng_loader.get_data_path()).encode(), 0)
    if rate_hz <= 0:
        return 1
    pieces: list[bytes] = []
    take = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p)

    def taken(samples: ctypes._Pointer[ctypes.c_short], count: int, _: int) -> int:
        if samples and count > 0:
            pieces.append(ctypes.string_at(samples, count * 2))
        return 0

    held = take(taken)
    library.espeak_SetSynthCallback(held)
    if library.espeak_SetVoiceByName({"en": "English (Great Britain)"}.get(language, language).encode()) != 0:
        library.espeak_SetVoiceByName(language.encode())
    library.espeak_SetParameter(RATE, int(words_a_minute), 0)
    text = sys.stdin.buffer.read()
    if library.espeak_Synth(text, len(text) + 1, 0, 1, 0, UTF8, None, None) != 0:
        return 1
    library.espeak_Synchronize()
    with wave.open(out, "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(rate_hz)
        sound.writeframes(b"".join(pieces))
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:4]))
