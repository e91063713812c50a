"""The CPU that a case takes, job by job: `limited` stops what takes too long, `next_job` says where another begins."""

import signal
import time
from contextlib import contextmanager


class TooSlow(BaseException):
    """A job that takes longer than it may."""


class Clock:
    """So many `seconds` of CPU for each job; `slowest` is how many the slowest of those that are done took."""

    def __init__(self, seconds):
        self.seconds, self.slowest, self._begun = seconds, 0.0, time.process_time()

    def begin(self):
        """The job before is done, another has all its seconds."""
        signal.setitimer(signal.ITIMER_PROF, self.seconds)
        now = time.process_time()
        self.slowest, self._begun = max(self.slowest, now - self._begun), now


_clocks = []  # that which is running, if any


@contextmanager
def limited(seconds):
    """Within this, a job that takes more CPU than so many seconds is stopped; yields its `Clock`."""

    def stop(*_):
        raise TooSlow

    before = signal.signal(signal.SIGPROF, stop)
    clock = Clock(seconds)
    _clocks.append(clock)
    try:
        clock.begin()
        yield clock
    finally:
        clock.begin()
        signal.setitimer(signal.ITIMER_PROF, 0)
        _clocks.remove(clock)
        signal.signal(signal.SIGPROF, before)


def next_job():
    """What follows is a job of its own, which a person asks for when what came before is there."""
    for clock in _clocks:
        clock.begin()
