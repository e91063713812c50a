"""A sample of what `python -m tests.fuzz` tries by the thousand, and what that must notice."""

import time
import warnings

import pytest

from .fuzz import SECONDS, SHARES
from .fuzz.cases import KINDS
from .fuzz.expected import Wrong, message
from .fuzz.jobs import next_job
from .fuzz.running import all_tried, tried

SAMPLE = 12  # of a kind that is quickly tried; of the others their share


@pytest.mark.parametrize("kind", KINDS)
def test_each_case_comes_to_a_verdict_or_to_one_message(kind):
    found, sample = [], max(2, round(SAMPLE * SHARES.get(kind, 1)))
    all_tried(kind, 1, sample, done=found.append)
    assert len(found) >= sample // 2
    assert [(one.wrong, one.case) for one in found if one.wrong] == []


def test_a_sample_is_the_same_each_time():
    first, second = [], []
    for cases in (first, second):
        all_tried("lengths", 3, 10, begun=cases.append)
    assert first == second


def test_whatever_else_happens_is_a_finding():
    def crash(case):
        raise KeyError(case)

    def hang(case):
        until = time.process_time() + SECONDS
        while time.process_time() < until:
            pass
        return "go"

    def warn(case):
        warnings.warn("it divides", RuntimeWarning, stacklevel=1)

    assert "KeyError: 'x'" in tried("x", crash).wrong
    assert tried("x", hang, seconds=0.2).wrong == "more than 0.2 s of CPU"
    assert "it divides" in tried("x", warn).wrong
    assert tried("x", lambda case: "go").outcome == "go"


def test_each_job_of_a_case_has_its_own_seconds():
    def two_jobs(case):
        for _ in range(2):
            next_job()
            until = time.process_time() + 0.15
            while time.process_time() < until:
                pass
        return "go"

    one = tried("x", two_jobs, seconds=0.25)
    assert one.outcome == "go"
    assert one.seconds >= 0.15


@pytest.mark.parametrize("said", ["no place", "case.toml: two\nlines", "case.toml: " + "x" * 2000])
def test_a_message_is_one_line_that_names_the_place(said):
    with pytest.raises(Wrong, match="no message of one line"):
        message(ValueError(said), "case.toml")
    assert message(ValueError("case.toml, line 3: size: too large"), "case.toml") == "refused"
