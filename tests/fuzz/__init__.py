"""What people and programs may hand in, tried by the thousand: `python -m tests.fuzz [CASES] [KIND …]`.

Sheets drawn by the published schema, sheets bent, letters lost, corrected, printed, handed to commands; pages drafted
and completed; raw bytes, lengths, questions to proofs, forms filled and read back. Each case ends in a verdict or in
one message that names the place, within so many `MEGABYTES` and `SECONDS` of CPU; whatever else happens, a warning too,
is a finding. Where a case is several things that a person does one after another (each answer to a page's question, and
the review of the sheet that comes of it; a sheet reviewed, then corrected, reported, laid out, printed), each of these
jobs has its own seconds, and the slowest is told: the case says by `jobs.next_job` where one begins. A command, and a
page from its text to its first question, is one job.
`of_sheets` and `of_pages` draw and try them, `cases` names all kinds, `running` watches over the process in which that
is done, so that a case that hangs or takes all memory is a finding too. A sample runs under pytest.
"""

SHARES = {
    "schema": 0.5,
    "bent": 0.5,
    "numbers": 0.5,
    "why": 0.5,
    "pages": 0.3,
    "corrected": 0.2,
    "commands": 0.15,
    "printed": 0.06,
}
"""How many cases of each kind are tried for one of the others, which are quickly tried."""

SECONDS = 5
MEGABYTES = 1000
