"""The notebooks as plain pages for a class, through Voilà: no code, large type, one section at a time."""

from __future__ import annotations

import os
import secrets
import socket
import threading
import time
import webbrowser
from importlib.util import find_spec
from pathlib import Path

from .opening import CannotOpen, installed_with, prepared, with_our_files
from .resources import SHARED

PORT = 8866
TRIED = 50  # ports after the first
HERE, EVERYWHERE = "127.0.0.1", "0.0.0.0"
LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # none that is read as another off a board


def open_class(
    notebook: str = "",
    where: str | Path | None = None,
    port: int | None = None,
    browser: bool = True,
    room: bool = False,
) -> int:
    """Serve the working copy as pages for a class until it is ended; returns the exit code.

    Only this computer can open them, or with `room` whoever is in its network and has the address, which holds a
    token.
    """
    if find_spec("voila") is None:
        raise CannotOpen(f"pages for a class need Voilà; install the kit with it: {installed_with('class')}")
    copy, name = prepared(notebook, where)
    at = free_port(port or PORT, EVERYWHERE if room else HERE)
    token = "".join(secrets.choice(LETTERS) for _ in range(8))
    page = f"http://{HERE}:{at}/voila/render/{name}?token={token}"
    if room:
        reach = (
            f"For the room, all lessons:    http://{address()}:{at}/?token={token}\n"
            "Whoever is in this network and has that address can open them; each reader takes some memory here."
        )
    else:
        reach = "Only this computer can open it; for other devices in the room add --room."
    told = f"The lesson, on this computer: {page}\n{reach}\nTo end it, press Ctrl+C here."
    with_our_files()
    os.environ[SHARED] = "1"
    threading.Thread(target=_ready, args=(at, told, page if browser else None), daemon=True).start()
    return _voila(arguments(copy, at, token, room))


def arguments(copy: Path, port: int, token: str, room: bool = False) -> list[str]:
    """What Voilà is told, to serve the folder `copy`.

    >>> arguments(Path("copy"), 8866, "abc", room=True)[-3:]
    ['--Voila.ip=0.0.0.0', '--Voila.token=abc', 'copy']
    """
    return [
        "--no-browser",
        "--Voila.log_level=ERROR",
        "--VoilaConfiguration.template=quiltmath",
        "--VoilaConfiguration.classic_tree=True",
        "--Voila.tornado_settings=disable_check_xsrf=yes",  # so that a page that is closed can end its kernel
        "--PasswordIdentityProvider.allow_password_change=False",  # it would be this computer's
        "--MappingKernelManager.cull_interval=60",
        "--MappingKernelManager.cull_idle_timeout=900",  # of pages that were closed
        f"--Voila.port={port}",
        "--Voila.port_retries=0",
        f"--Voila.ip={EVERYWHERE if room else HERE}",
        f"--Voila.token={token}",
        str(copy),
    ]


def free_port(first: int, ip: str = HERE) -> int:
    """The first port from `first` on that nobody listens at."""
    for port in range(first, min(first + TRIED, 65535) + 1):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((ip, port))
            except OSError:
                continue
            return port
    raise CannotOpen(f"every port from {first} to {first + TRIED} is in use; name another: quiltmath open --port 8900")


def address() -> str:
    """This computer's address in its network, as far as it has one."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # nothing is sent: it only chooses the network card
            return probe.getsockname()[0]
        except OSError:
            return socket.gethostname()


def _ready(port, told, page):
    """Say where the pages are, and open one in a browser, once somebody answers at the port."""
    for _ in range(600):
        with socket.socket() as probe:
            if probe.connect_ex((HERE, port)) == 0:
                print(told, flush=True)
                if page is not None:
                    webbrowser.open(page)
                return
        time.sleep(0.1)


def _voila(told):
    """Run Voilà in this process, so that Ctrl+C is its own; returns its exit code."""
    from voila.app import main

    try:
        main(told)
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    return 0
