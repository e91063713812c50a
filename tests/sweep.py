"""What pytest tries on a sample, tried on everything: `python -m tests.sweep NAME`. Each sweep runs the assertions of
the tests.

Without a name it lists the sweeps. The sample of the tests is the same in every run.
"""

import random
import sys
from itertools import product

SMALLEST, LARGEST = 1, 8  # blocks across and down


def every_quilt():
    """Every (across, down) the sweep goes through."""
    return list(product(range(SMALLEST, LARGEST + 1), repeat=2))


def some_quilts(seed, count=6):
    """The quilts the tests try: the four corners of the range, all of one or two blocks a side, and `count` others.

    Which others depends on the seed alone, so that each style has its own and they stay the same.

    >>> some_quilts("plain")[:7]
    [(1, 1), (1, 8), (8, 1), (8, 8), (1, 2), (2, 1), (2, 2)]
    >>> some_quilts("plain") == some_quilts("plain") != some_quilts("sashed")
    True
    """
    always = list(dict.fromkeys([*product((SMALLEST, LARGEST), repeat=2), *product((1, 2), repeat=2)]))
    return always + some_of([quilt for quilt in every_quilt() if quilt not in always], seed, count)


def some_of(everything, seed, count):
    """So many of these things, in order; which ones depends on the seed alone."""
    return sorted(random.Random(seed).sample(everything, count))


def settings():
    """Every quilt of 1 to 8 blocks across and down, in every style: counts and sizes held against the sewn top."""
    from . import test_settings_on_point as on_point
    from . import test_settings_straight as straight

    for tests in (on_point, straight):
        for style in tests.STYLES:
            for across, down in every_quilt():
                tests.counts_and_size_are_those_of_the_sewn_top(style, across, down)
            print(f"{tests.__name__}, {style}: {len(every_quilt())} quilts agree", flush=True)


def plans():
    """Every kind of plan in twenty sizes: what the review says of its sheet, its needs, its cloth, its text."""
    from .plans import main as every_plan

    assert every_plan() == 0, "a plan is not the sheet it is written as: see above"


def corrections():
    """Halved blocks of every size, every planted fault with one honest mend: corrected, they pass and edit no more."""
    from . import test_correction as tests
    from .corrections import ASKED, MANY_WAYS, every, table

    for case in tests.HALVED:
        tests.halved_blocks_are_built_from_what_fits(*case)
    print(f"{len(tests.HALVED)} sheets corrected", flush=True)
    done = list(every())
    print("\n".join(table(done)))
    for each in done:
        if each.planted.kind not in ASKED | MANY_WAYS:
            tests.a_correction_passes_and_edits_the_lines_it_names(each)


def mutation():
    """Every fault at every strength, and every harmless change, in every sound sheet: none missed, no false alarm."""
    from .mutation import outcomes, table, wrong

    everything = list(outcomes())
    print("\n".join(table(everything)))
    assert wrong(everything) == [], "\n".join(map(str, wrong(everything)))


def templates():
    """Every shape of template in every size by eighths and by 2 mm, on both papers, laid together by its marks."""
    from . import test_handout_templates as tests

    count = 0
    for one, paper in tests.every_template():
        tests.is_true_over_its_pages(one, paper)
        count += 1
    print(f"{count} templates are true", flush=True)


def paper():
    """The printed pattern of every sound sheet and kind of plan, every worksheet, hostile names in reports."""
    from . import test_handout_downloads as downloads
    from . import test_handout_pattern as handout
    from . import test_report as report

    for name in handout.SOUND:
        handout.a_sound_sheet_has_its_pages(name)
    for name in handout.PLANS:
        handout.typed_off_the_page_it_passes_the_review(name)
    for stem in downloads.GUESSED:
        downloads.a_notebook_hands_out_its_worksheet(stem)
    for first in range(len(report.HOSTILE)):
        report.names_are_shown_as_they_are_in_pdf(first)
    told = f"{len(handout.SOUND)} patterns, {len(handout.PLANS)} plans and {len(report.HOSTILE)} reports are printed"
    print(told, flush=True)


def forms():
    """Every sheet that says something in a field of its own, typed box by box into an empty form."""
    from contextlib import chdir
    from tempfile import TemporaryDirectory

    from . import test_form as tests

    with TemporaryDirectory() as folder, chdir(folder):  # a form keeps what is typed beside it
        for path in tests.telling():
            tests.typed_box_by_box_it_is_the_same_sheet(path)
    print("every sheet is typed into the form", flush=True)


def examples():
    """Every property with ten times as many examples, others in each run: a failure prints how to repeat it."""
    import pytest

    more = ["--hypothesis-profile=sweep", "-m", "hypothesis", "tests"]
    assert pytest.main(more) == pytest.ExitCode.OK, "a property does not hold: see above"


def pages():
    """Every notebook in JupyterLab and as a page for a class, at every size, by key and pointer, light and dark."""
    from .browser.every_page import main as every_page

    found = every_page()
    assert found == [], "\n".join(found)


SWEEPS = {
    sweep.__name__: sweep
    for sweep in (settings, plans, corrections, mutation, templates, paper, forms, examples, pages)
}


def main(arguments):
    """Run the sweep of this name; with none, list them."""
    if len(arguments) != 1 or arguments[0] not in SWEEPS:
        for name, sweep in SWEEPS.items():
            print(f"{name:12}{sweep.__doc__}")
        return 0 if not arguments else 2
    SWEEPS[arguments[0]]()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
