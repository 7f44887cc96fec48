"""A server that stops when it is told to, whoever watches a run."""

from __future__ import annotations

from typing import TYPE_CHECKING

import uvicorn

from wetside.services.records.runs_tail import end_tails

if TYPE_CHECKING:
    import socket

WAITS_S = 2
"""How long answers that are under way hold a stopping server; then they are cut. Our choice. [s]"""


class StoppingServer(uvicorn.Server):
    """Ends the streams of watchers first: they would last for hours."""

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Let go of the watchers, then of everything else."""
        end_tails()
        await super().shutdown(sockets)
