"""A long answer whose reader has left: nothing more is written to a connection that is gone."""

from __future__ import annotations

import asyncio
import socket
import struct
from typing import TYPE_CHECKING, Any

import pytest
import uvicorn

from wetside.web.pieces import with_turns

if TYPE_CHECKING:
    from collections.abc import Callable

PIECES = 40
GONE_AT_ONCE = struct.pack("ii", 1, 0)
"""For SO_LINGER: what is not read is thrown away, and the other end told."""


async def left_after_the_first_piece(wrap: Callable[[Any], Any]) -> int:
    """How many of a long answer's pieces the application was asked to send before it heard that its reader had left."""
    listening = socket.create_server(("127.0.0.1", 0))
    reader = socket.create_connection(listening.getsockname())
    reader.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, GONE_AT_ONCE)
    sent = 0
    answered = asyncio.Event()

    async def long_answer(_scope: Any, receive: Any, send: Any) -> None:
        nonlocal sent
        left = asyncio.create_task(gone(receive))
        await send({"type": "http.response.start", "status": 200, "headers": []})
        for _ in range(PIECES):
            if left.done():
                break
            await send({"type": "http.response.body", "body": b"x" * 4096, "more_body": True})
            sent += 1
            reader.close()
        left.cancel()
        answered.set()

    async def gone(receive: Any) -> None:
        while (await receive())["type"] != "http.disconnect":
            pass

    server = uvicorn.Server(uvicorn.Config(wrap(long_answer), log_level="critical", lifespan="off"))
    serving = asyncio.create_task(server.serve(sockets=[listening]))
    reader.sendall(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
    await asyncio.wait_for(answered.wait(), 10)
    server.should_exit = True
    await serving
    return sent


@pytest.mark.parametrize("wrapped", [True, False])
def test_who_has_left_is_noticed(wrapped: bool, caplog: pytest.LogCaptureFixture) -> None:
    """With turns no line in the terminal and an end after a few pieces; without them the fault that they mend."""
    sent = asyncio.run(left_after_the_first_piece(with_turns if wrapped else lambda application: application))
    lines = [line for line in caplog.messages if "socket.send() raised exception" in line]
    if wrapped:
        assert lines == []
        assert sent < 10
    else:
        assert len(lines) > PIECES / 2
        assert sent == PIECES


def test_an_answer_comes_whole_and_its_mistakes_too() -> None:
    """Every message goes on as it is; an error of the application is not hidden."""
    told: list[Any] = []

    async def application(_scope: Any, receive: Any, send: Any) -> None:
        told.append(await receive())
        await send({"type": "http.response.body", "body": b"a", "more_body": True})
        await send({"type": "http.response.body", "body": b"b"})
        raise RuntimeError("of the application")

    async def receive() -> dict[str, Any]:
        return {"type": "http.request"}

    async def send(message: Any) -> None:
        told.append(message["body"])

    with pytest.raises(RuntimeError, match="of the application"):
        asyncio.run(with_turns(application)({}, receive, send))
    assert told == [{"type": "http.request"}, b"a", b"b"]
