"""What each thing in a picture looks like: one palette, and beside every colour a hatch, a dash or a
letter."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

# Okabe and Ito's eight colours, told apart by readers with any colour vision.
BLACK, WHITE = "#000000", "#ffffff"
ORANGE, SKY, GREEN, YELLOW = "#e69f00", "#56b4e9", "#009e73", "#f0e442"
BLUE, VERMILLION, PURPLE = "#0072b2", "#d55e00", "#cc79a7"
TEXT = {"black": BLACK, "blue": BLUE}
HATCHES = ("", "rising", "falling", "dots", "level", "crossed", "upright")


@dataclass(frozen=True)
class Role:
    """How one kind of thing is drawn; widths in px (96 to the inch), a dash as lengths on and off; a
    halo is a white border that keeps a line visible on dark cloth."""

    words: str
    fill: str = ""
    hatch: str = ""
    ink: str = ""
    line: str = ""
    width: float = 0
    dash: tuple[float, ...] = ()
    mark: str = ""
    halo: bool = False


FABRICS = {
    "blue": Role("blue cloth", fill=BLUE),
    "white": Role("white cloth", fill=WHITE, line=BLACK, width=1),
    "yellow": Role("yellow cloth", fill=YELLOW),
    "sky": Role("sky-blue cloth", fill=SKY, hatch="rising", ink=BLACK),
    "orange": Role("orange cloth", fill=ORANGE, hatch="dots", ink=BLACK),
    "green": Role("green cloth", fill=GREEN, hatch="falling", ink=BLACK),
    "purple": Role("purple cloth", fill=PURPLE, hatch="level", ink=BLACK),
    "red": Role("red cloth", fill=VERMILLION, hatch="crossed", ink=BLACK),
    "black": Role("black cloth", fill=BLACK, hatch="upright", ink=WHITE),
}
ROLES = {
    **FABRICS,
    "paper": Role("plain shape", fill=WHITE, line=BLACK, width=2),
    "faint": Role("faint", fill=WHITE, line=BLACK, width=1, dash=(2, 4)),
    "lost cloth": Role("cloth lost in the seam", fill=VERMILLION, hatch="crossed", ink=WHITE),
    "added cloth": Role("seam allowance", fill=SKY, hatch="rising", ink=WHITE),
    "left over": Role("fabric left over", fill=SKY, hatch="rising", ink=WHITE),
    "seam": Role("seam", line=BLACK, width=1),
    "outline": Role("outline", line=BLACK, width=2),
    "raw edge": Role("raw edge, on the grain", line=BLACK, width=3),
    "bias edge": Role("raw edge, on the bias", line=VERMILLION, width=6, dash=(9, 4)),
    "off-grain edge": Role("raw edge, off the grain", line=VERMILLION, width=4, dash=(3, 3)),
    "finished line": Role("finished line", line=BLUE, width=2, dash=(3, 4), halo=True),
    "cut line": Role("cut", line=BLACK, width=3, dash=(12, 5, 3, 5), halo=True),
    "guide": Role("guide", line=BLUE, width=2, dash=(8, 3), halo=True),
    "press": Role("press this way", line=BLACK, width=2.5, halo=True),
    "grain": Role("lengthwise grain", line=BLUE, width=2, halo=True),
    "lost point": Role("point lost", line=VERMILLION, width=4, mark="cross"),
    "kept point": Role("point kept", line=BLUE, width=3, mark="ring"),
    "spot": Role("spot", line=BLACK, width=2, halo=True),
}

# Everyday colour words, so that a fabric called "navy" is not drawn yellow.
_WORDS = {
    "blue": "blue navy indigo dark denim",
    "white": "white cream ivory muslin linen oat ecru background ground light natural",
    "yellow": "yellow gold lemon mustard butter straw",
    "sky": "sky aqua teal turquoise medium",
    "orange": "orange rust peach tan brown",
    "green": "green olive sage mint",
    "purple": "purple plum lilac pink violet lavender rose",
    "red": "red brick scarlet crimson",
    "black": "black grey gray charcoal",
}


def role(name: str) -> Role:
    """The Role called `name`; a fabric's later rounds ("blue 2") keep the colour and change the hatch.

    >>> role("bias edge").words
    'raw edge, on the bias'
    >>> role("blue 2").hatch
    'rising'
    >>> role("sparkle")
    Traceback (most recent call last):
    ValueError: a picture has no role 'sparkle'; use one of: blue, white, yellow, ...
    """
    if name in ROLES:
        return ROLES[name]
    colour, _, round_ = name.rpartition(" ")
    if colour in FABRICS and round_.isdigit():
        plain = FABRICS[colour]
        start = HATCHES.index(plain.hatch)
        hatch = HATCHES[(start + int(round_) - 1) % len(HATCHES)]
        return replace(plain, hatch=hatch, ink=WHITE if plain.fill in (BLACK, BLUE) else BLACK)
    raise ValueError(f"a picture has no role {name!r}; use one of: {', '.join(ROLES)}")


def fabric_roles(names: Iterable[str]) -> dict[str, str]:
    """Which fabric role each fabric is drawn in: by its colour word where it has one, else the next one free.

    The answer depends on the order of `names` alone, so a picture keeps its colours while a slider moves.

    >>> fabric_roles(["navy", "background", "leaf print", "navy dots"])
    {'navy': 'blue', 'background': 'white', 'leaf print': 'yellow', 'navy dots': 'blue 2'}
    """
    names = list(dict.fromkeys(names))
    chosen: dict[str, str] = {}
    for name in names:
        colour = _colour_in(name)
        if colour:
            chosen[name] = _next_round(colour, chosen.values())
    for name in names:
        if name not in chosen:
            used = list(chosen.values())
            free = [colour for colour in FABRICS if colour not in used]
            chosen[name] = free[0] if free else _next_round(_least_used(used), used)
    return {name: chosen[name] for name in names}


def _colour_in(name):
    words = str(name).lower().replace("-", " ").replace("_", " ").split()
    return next((colour for word in words for colour, known in _WORDS.items() if word in known.split()), None)


def _next_round(colour, used):
    used = set(used)
    if colour not in used:
        return colour
    round_ = 2
    while f"{colour} {round_}" in used:
        round_ += 1
    return f"{colour} {round_}"


def _least_used(used):
    def times(colour):
        return sum(name == colour or name.startswith(colour + " ") for name in used)

    return min(FABRICS, key=times)
