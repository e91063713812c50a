"""Words as a page shows them: numbers that stay whole."""

import re

WHOLE_AND_FRACTION, NUMBER_AND_UNIT = r"(?<=\d) (?=\d+/\d)", r"(?<=\d) (?=(?:in|yd|cm|mm|m|%)\b|%)"


def unbroken(text: str) -> str:
    """Text in which no line ends within a number, or between it and its unit.

    >>> unbroken("cut 3 1/2 in, 12 of them in all")
    'cut 3\\xa01/2\\xa0in, 12 of them in all'
    """
    return re.sub(f"{WHOLE_AND_FRACTION}|{NUMBER_AND_UNIT}", "\N{NO-BREAK SPACE}", text)
