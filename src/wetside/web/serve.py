"""The server: opens the archive, then answers on loopback only."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

HOST = "127.0.0.1"


def open_darkroom() -> None:
    """Set the framework up and open the archive.

    Raises
    ------
    WetsideError
        As :func:`wetside.services.records.archive.open_archive`.
    """
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wetside.web.settings")
    import django

    django.setup()
    from django.conf import settings

    from wetside.services.records.archive import open_archive

    open_archive(settings.DATA_FOLDER)


def serve(port: int, ready: Callable[[str], None]) -> None:
    """Answer on loopback until the program is ended.

    Parameters
    ----------
    port : int
        0 takes any that is free.
    ready : callable
        Gets the address once the socket listens.

    Raises
    ------
    InputError
        If the port is taken.
    """
    import socket

    import uvicorn

    from wetside.errors import InputError

    open_darkroom()
    # Named as TCP, so that the event loop lets small answers go at once.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
    except OSError as error:
        listening.close()
        raise InputError("web.port_taken", port=port, reason=str(error.strerror)) from error
    listening.listen(128)
    ready(f"http://{HOST}:{listening.getsockname()[1]}/")
    config = uvicorn.Config("wetside.web.asgi:application", log_level="warning", lifespan="off", server_header=False)
    uvicorn.Server(config).run(sockets=[listening])
