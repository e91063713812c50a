"""What a command prints, where its reader may go away before the end or its disk be full."""

from __future__ import annotations

import os
import signal
import sys
from contextlib import contextmanager, suppress
from io import UnsupportedOperation
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any, TextIO


class Output:
    """A stream that takes what is written as long as it can, and then lets the work behind it go on to its end.

    A reader that has gone away (`| head`) is no trouble: nobody misses the rest. Any other reason, such as a full disk,
    is kept in `trouble`, for its user to be told.

    >>> out = Output(sys.stdout)
    >>> print("GO", file=out)
    GO
    >>> out.trouble is None
    True
    """

    def __init__(self, stream: TextIO | None) -> None:
        self.stream, self.gone = stream, stream is None  # Python starts without one where it was closed (>&-)
        self.trouble: OSError | None = None

    def write(self, text: str) -> int:
        """Write text, or let it go where nobody takes it any more."""
        self._try("write", text)
        return len(text)

    def flush(self) -> None:
        """Hand on what has been written."""
        self._try("flush")

    def isatty(self) -> bool:
        """Whether a person reads along."""
        return not self.gone and self.stream is not None and self.stream.isatty()

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)

    def _try(self, do, *given):
        if self.gone:
            return
        try:
            getattr(self.stream, do)(*given)
        except OSError as problem:
            self.gone = True
            if not isinstance(problem, BrokenPipeError):
                self.trouble = problem
            _let_go(self.stream)


def _let_go(stream):
    """Send what the stream still holds nowhere, for Python hands it on once more when it ends."""
    with suppress(OSError, UnsupportedOperation, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


@contextmanager
def standard_streams() -> Iterator[Output]:
    """Standard output and standard error as `Output` for as long as a command runs; gives standard output."""
    before = sys.stdout, sys.stderr
    out, err = (Output(stream) for stream in before)
    sys.stdout, sys.stderr = out, err  # type: ignore[assignment]
    try:
        yield out
    finally:
        out.flush()
        err.flush()
        sys.stdout, sys.stderr = before


@contextmanager
def ended_by_ctrl_c() -> Iterator[None]:
    """Within this Ctrl+C is a `KeyboardInterrupt` also where a package that was being loaded made another error of
    it."""
    pressed = []

    def stop(*_):
        pressed.append(True)
        raise KeyboardInterrupt

    try:
        before = signal.signal(signal.SIGINT, stop)
    except ValueError:  # only the main thread is told of signals
        before = None
    try:
        yield
    except Exception:
        if pressed:
            raise KeyboardInterrupt from None
        raise
    finally:
        if before is not None:
            signal.signal(signal.SIGINT, before)
