"""The notebooks as plain pages for a class, through Voilà: no code, large type, one section at a time."""

from __future__ import annotations

import os
import secrets
import socket
import threading
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
    token = "".join(secrets.choice(LETTERS) for _ in range(8))

    def ready(at):
        page = f"http://{HERE}:{at}/voila/render/{name}?token={token}"
        if room:
            reach = (
                f"For the room, all lessons:    http://{address()}:{at}/?token={token}\n"
                "Whoever is in this network and has that address can open them; each reader takes some memory here."
            )
        else:
            reach = "Only this computer can open it; for other devices in the room add --room."
        print(f"The lesson, on this computer: {page}\n{reach}\nTo end it, press Ctrl+C here.", flush=True)
        if browser:
            threading.Thread(target=webbrowser.open, args=(page,), daemon=True).start()

    with_our_files()
    os.environ[SHARED] = "1"
    first = port or PORT
    code = _voila(arguments(copy, first, token, room), ready)
    if code:
        raise CannotOpen(
            f"the pages could not be served (exit code {code}); what was said stands above. If every port near {first} "
            "is in use, name another: quiltmath open --class --port 8900"
        )
    return code


def arguments(copy: Path, port: int, token: str, room: bool = False) -> list[str]:
    """What Voilà is told, to serve the folder `copy`.

    >>> arguments(Path("copy"), 8866, "abc", room=True)[-3:]
    ['--Voila.ip=0.0.0.0', '--Voila.token=abc', 'copy']
    """
    return [
        "--Voila.log_level=ERROR",
        "--VoilaConfiguration.template=quiltmath",
        "--VoilaConfiguration.classic_tree=True",
        "--TagRemovePreprocessor.enabled=True",
        "--TagRemovePreprocessor.remove_cell_tags=jupyterlab",  # what tells of its menus
        "--Voila.tornado_settings=disable_check_xsrf=yes",  # so that a page that is closed can end its kernel
        "--PasswordIdentityProvider.allow_password_change=False",  # it would be this computer's
        "--MappingKernelManager.cull_interval=60",
        "--MappingKernelManager.cull_idle_timeout=900",  # of pages that were closed
        f"--Voila.port={port}",
        f"--Voila.port_retries={TRIED}",
        f"--Voila.ip={EVERYWHERE if room else HERE}",
        f"--Voila.token={token}",
        str(copy),
    ]


def address() -> str:
    """This computer's address in its network, as far as it has one."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # nothing is sent: it only chooses the network card
            return probe.getsockname()[0]
        except OSError:
            return socket.gethostname()


def _voila(told, ready):
    """Run Voilà in this process, so that Ctrl+C is its own, and tell `ready` the port once it listens there; returns
    its exit code."""
    from voila.app import Voila

    class Pages(Voila):
        def launch_browser(self):
            """Voilà knows its port here, and has it: another server that was started at the same time has another."""
            ready(self.port)

    try:
        Pages.launch_instance(told)
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    return 0
