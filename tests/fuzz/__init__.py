"""What people and programs may hand in, tried by the thousand: `python -m tests.fuzz [CASES] [KIND …]`.

Sheets drawn by the published schema, sheets bent, letters lost, corrected, printed, handed to commands; pages drafted
and completed; raw bytes, lengths, questions to proofs, forms filled and read back. Each case ends in a verdict or in
one message that names the place, within so many `SECONDS` of CPU and `MEGABYTES`; whatever else happens is a finding.
`of_sheets` and `of_pages` draw and try them, `cases` names all kinds, `running` watches over the process in which that
is done, so that a case that hangs or takes all memory is a finding too. A sample runs under pytest.
"""

SECONDS = {"corrected": 15, "commands": 15, "pages": 15, "printed": 15}
"""Of CPU, for a case of each kind, where it is not `USUAL_SECONDS`: a review and what follows from it, a page drafted
anew for each answer."""

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

USUAL_SECONDS = 5
MEGABYTES = 1000
