"""The report of a review as one file, HTML or PDF, to hand across the counter: verdict, pictures, numbers,
questions.

    from quiltmath.review import report
    report.save(review.review(sheet), "lap-quilt.html")            # or .pdf

`contents.py` says what a report says, `as_html.py` and `as_pdf.py` write it, `saving.py` puts it in its
place.
"""

from ...resources import CannotSave
from .saving import places, save

__all__ = ["CannotSave", "places", "save"]
