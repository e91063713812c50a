"""Words that stand in the lines of a cutting list and name no fabric."""

from __future__ import annotations

from .vocabulary import DONE_TO_FABRIC, FUNCTION_WORDS, SAID_OF_PIECES

# fmt: off
EMPTY = {
    "above", "across", "all", "along", "are", "as", "aside", "at", "be", "below", "bottom", "by", "called", "color",
    "colour", "cut", "fabric", "fabrics", "following", "follows", "for", "grain", "h", "high", "i", "in", "inch",
    "inches", "into", "is", "it", "its", "l", "labeled", "labelled", "left", "long", "marked", "measure", "measured",
    "measures", "measuring", "need", "no", "number", "of", "off", "on", "piece", "pieces", "qty", "quantity",
    "remaining",
    "scrap", "scraps", "set", "side", "sides", "size", "sized", "stack", "strip", "tall", "that", "the", "their",
    "them", "then", "these", "this", "those", "to", "top", "total", "use", "w", "whatever", "wide", "will", "with", "x",
    "yardage", "you", "you'll", "your"
}
# fmt: on
HEADS = {"the", "of", "in", "from", "my", "your", "ur", "yr"}
TOLD = {
    "also", "bring", "buy", "buying", "center", "centre", "choose", "count", "exact", "exactly", "finally",
    "first", "fussy", "gather", "goods", "horizontal", "horizontally", "initial", "last", "lastly", "middle", "next",
    "pull", "purchase", "second", "see", "select", "separate", "shown", "sort", "suggest", "take", "third",
    "vertical", "vertically"
}  # fmt: skip
"""Words of an order or a place, which name no fabric in a line."""
OF_SHAPE = {
    "big", "corner", "corners", "each", "edge", "equal", "extra", "large", "larger", "little", "order", "pieced",
    "quilt", "same", "short", "single", "skinny", "small", "smaller", "takes", "template-free", "tiny", "whole"
}  # fmt: skip
"""Words of a size, a shape or a place, which name no fabric either."""
DEAR = {"cute", "darling", "dear", "little", "lovely", "pretty", "sweet", "teeny", "wee"}
"""What a fond hand calls pieces, before their fabric."""
# fmt: off
SAID = SAID_OF_PIECES - DONE_TO_FABRIC
FILLERS = EMPTY | DEAR | HEADS | TOLD | OF_SHAPE | FUNCTION_WORDS | SAID | {
    "a", "accurately", "after", "allow", "almost", "always", "an", "and", "anything", "around", "bag", "before",
    "begin", "carefully", "charm", "crossgrain", "crosswise", "else", "height", "here", "horizontal",
    "horizontally", "kit", "leave", "leaving", "material", "materials", "nearly", "neatly", "need", "off", "ones",
    "onto", "out", "overall", "parallel", "patchwork", "pick", "plenty", "pre-washed", "prewashed", "quilt", "ready",
    "really", "remainder", "repeat", "required", "roughly", "s", "selvage", "selvages", "selvedge", "selvedges",
    "simply", "sq", "start", "straight", "sure", "time", "together", "too", "u", "uncut", "until", "usable", "vertical",
    "vertically", "very", "well", "what", "which", "whose", "width", "à"
}
# fmt: on
"""Words that change nothing of what is cut: of any other that was not taken for a name, a draft asks."""
LEADS = {*HEADS, *TOLD, *FUNCTION_WORDS, "is", "now", "cut", "then"}
"""What stands before the name of a fabric in a sentence: "Next up is the white"."""
