"""The server: opens the archive, then answers on loopback only."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wetside.services.records.archive import Opened, Told

HOST = "127.0.0.1"


def set_up(data: str | None = None) -> None:
    """Set the framework up for the darkroom's data.

    Parameters
    ----------
    data : str, optional
        Folder of the data; as the environment says if absent.
    """
    if data:
        os.environ["WETSIDE_DATA"] = data
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wetside.web.settings")
    import django

    django.setup()


def open_darkroom(
    data: str | None = None, doing: str = "serve", meanwhile: Callable[[Told], None] | None = None
) -> Opened:
    """Set the framework up and open the archive, which stays locked until its lock is released or the program ends.

    Parameters
    ----------
    data : str, optional
        Folder of the data; as the environment says if absent.
    doing : str
        What the lock is held for.
    meanwhile : callable, optional
        As :func:`wetside.services.records.archive.open_archive`.

    Raises
    ------
    WetsideError
        As :func:`wetside.services.records.archive.open_archive`.
    """
    set_up(data)
    from django.conf import settings

    from wetside.adapters.data_folder import secret_of
    from wetside.services.records.archive import open_archive

    opened = open_archive(settings.DATA_FOLDER, doing, meanwhile)
    settings.SECRET_KEY = secret_of(settings.DATA_FOLDER)  # a new folder had none when the settings were read
    return opened


def serve(
    port: int,
    ready: Callable[[str, Sequence[Told]], None],
    data: str | None = None,
    meanwhile: Callable[[Told], None] | None = None,
) -> None:
    """Answer on loopback until the program is ended.

    Parameters
    ----------
    port : int
        0 takes any that is free.
    ready : callable
        Gets the address once the socket listens, and what was done to open the archive.
    data : str, optional
        Folder of the data; as the environment says if absent.
    meanwhile : callable, optional
        Lets the backup of the start be made while pages are served, and gets what came of it; without one pages wait.

    Raises
    ------
    InputError
        If the port is taken.
    WetsideError
        If the archive cannot be opened.
    """
    import socket
    import threading

    import uvicorn

    from wetside.errors import InputError

    set_up(data)
    loading = threading.Thread(target=_load_pages, name="loading of the pages", daemon=True)
    loading.start()  # the database is checked meanwhile, which leaves this processor idle
    opened = open_darkroom(data, meanwhile=meanwhile)
    # Named as TCP, so that the event loop lets small answers go at once.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
    except (OSError, OverflowError) as error:  # the second for a number that no port can have
        listening.close()
        opened.close()
        raise InputError(
            "web.port_taken", port=port, reason=str(getattr(error, "strerror", None) or error).rstrip(".")
        ) from error
    listening.listen(128)
    ready(f"http://{HOST}:{listening.getsockname()[1]}/", opened.told)
    loading.join()
    from wetside.web.stopping import WAITS_S, StoppingServer

    config = uvicorn.Config(
        "wetside.web.asgi:application",
        log_level="warning",
        lifespan="off",
        server_header=False,
        timeout_graceful_shutdown=WAITS_S,
    )
    try:
        StoppingServer(config).run(sockets=[listening])
    finally:
        opened.close()


def _load_pages() -> None:
    """Load what the first page would wait for; what fails here fails again where it is told."""
    from contextlib import suppress
    from importlib import import_module

    with suppress(Exception):
        from django.template.loader import get_template
        from django.urls import reverse

        import_module("wetside.web.asgi")
        reverse("start")
        get_template("web/start.html")
