"""Large answers piece by piece, so that nobody else waits for them and who has left is noticed."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable, MutableMapping

    Message = MutableMapping[str, Any]
    Receive = Callable[[], Awaitable[Message]]
    Send = Callable[[Message], Awaitable[None]]
    Application = Callable[..., Awaitable[None]]


def with_turns(application: Application) -> Application:
    """Give the event loop a turn after each piece of an answer.

    The framework hands a long answer, such as the sound of a loading order, to the server in one go. Where its reader
    leaves after the first piece, the server learns of it only when the loop has its turn: all the rest was written to a
    connection that is gone, with a line in the terminal for each piece. Cues of a run waited as long.

    Parameters
    ----------
    application : callable
        What answers, as ASGI has it.
    """

    async def answered(scope: MutableMapping[str, Any], receive: Receive, send: Send) -> None:
        async def send_a_piece(message: Message) -> None:
            await send(message)
            if message.get("more_body"):
                await asyncio.sleep(0)

        await application(scope, receive, send_a_piece)

    return answered
