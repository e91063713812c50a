"""What all tests share: no clock for Hypothesis, no network, and a browser that CI may not do without."""

import os
import socket

import pytest
from hypothesis import settings

from .browser import lab

HERE = ("127.0.0.1", "::1", "localhost")
settings.register_profile("quiltmath", deadline=None)  # a busy machine is no failure
settings.load_profile("quiltmath")


def pytest_runtest_setup(item):
    if item.get_closest_marker("browser") and lab.missing():
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)(lab.missing())


@pytest.fixture(autouse=True, scope="session")
def offline():
    """Any connection to another machine fails at once."""

    def only_here(connect):
        def checked(self, address):
            if self.family in (socket.AF_INET, socket.AF_INET6) and address[0] not in HERE:
                raise OSError(f"the tests are offline; something asked for {address}")
            return connect(self, address)

        return checked

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", only_here(socket.socket.connect))
        patch.setattr(socket.socket, "connect_ex", only_here(socket.socket.connect_ex))
        yield
