"""How each answer to a question would look: the block as it would be pieced, the quilt as it would be set."""

import re
from typing import Any

from .. import making, pattern
from ..draw import Picture, panel_picture
from ..pattern.drafting import Choice, Draft
from ..pattern.writing import toml
from ..review.report.pictures import fabrics_drawn

SIZE = 120, 120  # px: width and height of a picture above its answer
MOST_SEWN = 400  # blocks: of more no picture that small shows how they are set
_TURNED = re.compile(r":\d")
_WHOLE = {
    "strip_set": {"strips", "sub_cut"},
    "unit": {"kind", "parts"},
    "block": {"rows"},
}
"""What a table needs to be sewn; of one that is not known yet no picture is made."""


def label(choice: Choice, number: int, pictured: bool) -> str:
    """What the button of an answer says: one that a picture shows better than its turns has a number.

    >>> label(Choice("HST HST:270 / HST:90 HST:180"), 2, True), label(Choice("A B / B A"), 1, True)
    ('Way 2', 'A B / B A')
    """
    return f"Way {number}" if pictured and _TURNED.search(choice.label) else choice.label


def picture(draft: Draft, choice: Choice) -> Picture | None:
    """What this answer would make, as far as it can be sewn; None where nothing shows that.

    >>> drafted = pattern.draft('Set 3 across and 4 down\\nNavy: 60 squares 3"\\nCream: 48 squares 3"')
    >>> picture(drafted, drafted.questions[0].choices[0]).alt.partition(":")[0]
    'A B A / B A B / A B A of 8 by 8 in'
    """
    tables = {one.table for one in choice.changes}
    blocks = [one.name for one in choice.changes if one.table == "block" and "rows" in one.data]
    if not tables & {"setting", "border"} and not blocks:
        return None
    data = draft.data(choice)
    if not tables & {"setting", "border"}:
        data["setting"] = {"style": "straight", "across": 1, "down": 1, "block": blocks[-1]}
        data.pop("border", None)
    try:
        made = making.make(pattern.read_text(toml(_sewn(data))))
        panel = made.panel(blocks[-1]) if blocks and not tables & {"setting", "border"} else made.top
    except ValueError:  # something else of the page is not known yet
        return None
    if panel is None or len(panel.cuts) > MOST_SEWN * 4:
        return None
    return panel_picture(
        panel, show=("seams",) * (made.top is not panel), fabrics=fabrics_drawn(made.sheet), name=choice.label
    )


def _sewn(data: dict[str, Any]) -> dict[str, Any]:
    """What of the tables of a draft is needed to sew its top, as far as it is whole."""
    kept: dict[str, Any] = {key: data[key] for key in ("units", "seam", "cut", "border", "setting") if key in data}
    for table, needs in _WHOLE.items():
        kept[table] = {name: line for name, line in data.get(table, {}).items() if needs <= line.keys() or "of" in line}
    return {"title": "The page", **kept}
