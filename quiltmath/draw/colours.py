"""Colours by name: those that CSS names, and which of them, or of the kit's own, a quilter's word means."""

from __future__ import annotations

from collections.abc import Iterable

# CSS Color Module Level 4, section 6.1, "Named Colors" (an open standard of the W3C); "grey" is read as "gray".
_CSS = """
aliceblue f0f8ff  antiquewhite faebd7  aqua 00ffff  aquamarine 7fffd4  azure f0ffff  beige f5f5dc  bisque ffe4c4
black 000000  blanchedalmond ffebcd  blue 0000ff  blueviolet 8a2be2  brown a52a2a  burlywood deb887
cadetblue 5f9ea0  chartreuse 7fff00  chocolate d2691e  coral ff7f50  cornflowerblue 6495ed  cornsilk fff8dc
crimson dc143c  cyan 00ffff  darkblue 00008b  darkcyan 008b8b  darkgoldenrod b8860b  darkgray a9a9a9
darkgreen 006400  darkkhaki bdb76b  darkmagenta 8b008b  darkolivegreen 556b2f  darkorange ff8c00
darkorchid 9932cc  darkred 8b0000  darksalmon e9967a  darkseagreen 8fbc8f  darkslateblue 483d8b
darkslategray 2f4f4f  darkturquoise 00ced1  darkviolet 9400d3  deeppink ff1493  deepskyblue 00bfff
dimgray 696969  dodgerblue 1e90ff  firebrick b22222  floralwhite fffaf0  forestgreen 228b22  fuchsia ff00ff
gainsboro dcdcdc  ghostwhite f8f8ff  gold ffd700  goldenrod daa520  gray 808080  green 008000
greenyellow adff2f  honeydew f0fff0  hotpink ff69b4  indianred cd5c5c  indigo 4b0082  ivory fffff0  khaki f0e68c
lavender e6e6fa  lavenderblush fff0f5  lawngreen 7cfc00  lemonchiffon fffacd  lightblue add8e6
lightcoral f08080  lightcyan e0ffff  lightgoldenrodyellow fafad2  lightgray d3d3d3  lightgreen 90ee90
lightpink ffb6c1  lightsalmon ffa07a  lightseagreen 20b2aa  lightskyblue 87cefa  lightslategray 778899
lightsteelblue b0c4de  lightyellow ffffe0  lime 00ff00  limegreen 32cd32  linen faf0e6  magenta ff00ff
maroon 800000  mediumaquamarine 66cdaa  mediumblue 0000cd  mediumorchid ba55d3  mediumpurple 9370db
mediumseagreen 3cb371  mediumslateblue 7b68ee  mediumspringgreen 00fa9a  mediumturquoise 48d1cc
mediumvioletred c71585  midnightblue 191970  mintcream f5fffa  mistyrose ffe4e1  moccasin ffe4b5
navajowhite ffdead  navy 000080  oldlace fdf5e6  olive 808000  olivedrab 6b8e23  orange ffa500  orangered ff4500
orchid da70d6  palegoldenrod eee8aa  palegreen 98fb98  paleturquoise afeeee  palevioletred db7093
papayawhip ffefd5  peachpuff ffdab9  peru cd853f  pink ffc0cb  plum dda0dd  powderblue b0e0e6  purple 800080
rebeccapurple 663399  red ff0000  rosybrown bc8f8f  royalblue 4169e1  saddlebrown 8b4513  salmon fa8072
sandybrown f4a460  seagreen 2e8b57  seashell fff5ee  sienna a0522d  silver c0c0c0  skyblue 87ceeb
slateblue 6a5acd  slategray 708090  snow fffafa  springgreen 00ff7f  steelblue 4682b4  tan d2b48c  teal 008080
thistle d8bfd8  tomato ff6347  turquoise 40e0d0  violet ee82ee  wheat f5deb3  white ffffff  whitesmoke f5f5f5
yellow ffff00  yellowgreen 9acd32
"""
CSS = {name: f"#{value}" for line in _CSS.split("\n") for name, value in zip(*[iter(line.split())] * 2)}
"""The colours that CSS names, each as #rrggbb."""

# Words that are no CSS name, or mean another colour in a shop than in CSS; on the left a fabric role of `roles` or a
# CSS name. Which word means which colour is common usage, without a source.
_MEANT = {
    "blue": "blue navy indigo ink royal blau",
    "white": "white cream ivory muslin linen oat ecru eggshell weiss",
    "yellow": "yellow gold lemon butter straw sunshine gelb",
    "sky": "sky aqua ice",
    "orange": "orange amber",
    "green": "green emerald jade",
    "purple": "plum rose mauve orchid",
    "black": "black jet onyx schwarz",
    "steelblue": "denim",
    "royalblue": "sapphire cobalt",
    "cornflowerblue": "cornflower periwinkle",
    "mediumpurple": "purple violet iris lila",
    "plum": "lilac lavender",
    "crimson": "red scarlet cherry poppy ruby rot",
    "firebrick": "brick cranberry",
    "maroon": "burgundy wine claret",
    "hotpink": "fuchsia magenta",
    "pink": "blush rosa",
    "salmon": "shrimp",
    "peachpuff": "peach apricot",
    "chocolate": "rust copper terracotta ginger cinnamon",
    "saddlebrown": "brown walnut coffee braun",
    "tan": "sand khaki camel biscuit oatmeal",
    "wheat": "beige",
    "goldenrod": "mustard honey ochre",
    "darkseagreen": "sage celadon",
    "palegreen": "mint",
    "olivedrab": "moss fern leaf",
    "forestgreen": "forest pine gruen grün",
    "seagreen": "spruce",
    "gray": "grey grau pewter",
    "dimgray": "charcoal graphite",
    "lightgray": "stone dove ash",
    "slategray": "slate",
}
_MEANT_BY = {word: colour for colour, words in _MEANT.items() for word in words.split()}
# How light a fabric is, where its name says no colour.
_BY_VALUE = {"dark": "blue", "medium": "sky", "light": "white", "background": "white", "ground": "white"}
MOST_WORDS = 3  # "light goldenrod yellow"


def colour_meant(name: str) -> str | None:
    """The colour a fabric's name speaks of, as a fabric role or a CSS name; None where it names none.

    >>> colour_meant("Sand"), colour_meant("dark sea-green dots"), colour_meant("navy"), colour_meant("leaves in rain")
    ('tan', 'darkseagreen', 'blue', None)
    """
    words = str(name).casefold().replace("grey", "gray").translate(str.maketrans("-_.,;:/()", " " * 9)).split()
    for long in range(MOST_WORDS, 0, -1):
        for first in range(len(words) - long + 1):
            joined = "".join(words[first : first + long])
            for word in (joined, joined.removesuffix("s")):
                if word in _MEANT_BY or word in CSS:
                    return _MEANT_BY.get(word, word)
    return next((_BY_VALUE[word] for word in words if word in _BY_VALUE), None)


def agreed_colour(names: Iterable[str]) -> str | None:
    """The one colour that all of these names speak of that speak of any; None where they speak of several.

    >>> agreed_colour(["sand square", "corner"]), agreed_colour(["sand square", "plum square"])
    ('tan', None)
    """
    meant = {colour for name in names if (colour := colour_meant(name))}
    return meant.pop() if len(meant) == 1 else None


def luminance(colour: str) -> float:
    """The relative luminance of a #rrggbb colour, 0 to 1: how light it is in grey print (WCAG 2.2).

    >>> luminance("#ffffff"), round(luminance("#0072b2"), 3)
    (1.0, 0.152)
    """
    parts = (value / 255 for value in _parts(colour))
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(share * part for share, part in zip((0.2126, 0.7152, 0.0722), linear))


def contrast(one: str, other: str) -> float:
    """How much two #rrggbb colours differ in grey, from 1 (not at all) to 21 (WCAG 2.2).

    >>> contrast("#ffffff", "#000000")
    21.0
    """
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def lightened(colour: str, against: str, least: float) -> str:
    """The colour, mixed with as much white as it takes to stand out from a dark one by this contrast.

    >>> lightened("#808080", "#000000", 2), lightened("#800000", "#000000", 2.5)
    ('#808080', '#932626')
    """
    for share in range(0, 100, 5):
        mixed = "#" + "".join(f"{round(part + (255 - part) * share / 100):02x}" for part in _parts(colour))
        if contrast(mixed, against) >= least:
            return mixed
    return "#ffffff"


def _parts(colour):
    return [int(colour[place : place + 2], 16) for place in (1, 3, 5)]
