"""What each thing in a picture looks like: one palette, and beside every colour a hatch, a dash or a
letter."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from .colours import CSS, agreed_colour, colour_meant, contrast, lightened, luminance

# Okabe and Ito's eight colours, told apart by readers with any colour vision.
BLACK, WHITE = "#000000", "#ffffff"
ORANGE, SKY, GREEN, YELLOW = "#e69f00", "#56b4e9", "#009e73", "#f0e442"
BLUE, VERMILLION, PURPLE = "#0072b2", "#d55e00", "#cc79a7"
TEXT = {"black": BLACK, "blue": BLUE}
HATCHES = ("", "rising", "falling", "dots", "level", "crossed", "upright")


@dataclass(frozen=True)
class Role:
    """How one kind of thing is drawn; widths in px (96 to the inch), a dash as lengths on and off; a
    halo is a white border that keeps a line visible on dark fabric."""

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
    "blue": Role("blue fabric", fill=BLUE),
    "white": Role("white fabric", fill=WHITE, line=BLACK, width=1),
    "yellow": Role("yellow fabric", fill=YELLOW),
    "sky": Role("sky-blue fabric", fill=SKY, hatch="rising", ink=BLACK),
    "orange": Role("orange fabric", fill=ORANGE, hatch="dots", ink=BLACK),
    "green": Role("green fabric", fill=GREEN, hatch="falling", ink=BLACK),
    "purple": Role("purple fabric", fill=PURPLE, hatch="level", ink=BLACK),
    "red": Role("red fabric", fill=VERMILLION, hatch="crossed", ink=BLACK),
    "black": Role("black fabric", fill=BLACK, hatch="upright", ink=WHITE),
}
ROLES = {
    **FABRICS,
    "paper": Role("plain shape", fill=WHITE, line=BLACK, width=2),
    "faint": Role("faint", fill=WHITE, line=BLACK, width=1, dash=(2, 4)),
    "lost cloth": Role("fabric lost in the seam", fill=VERMILLION, hatch="crossed", ink=WHITE),
    "added cloth": Role("seam allowance", fill=SKY, hatch="rising", ink=WHITE),
    "left over": Role("fabric left over", fill=SKY, hatch="rising", ink=WHITE),
    "seam": Role("seam", line=BLACK, width=1.5),
    "outline": Role("outline", line=BLACK, width=2),
    "raw edge": Role("raw edge, on the grain", line=BLACK, width=3),
    "bias edge": Role("raw edge, on the bias", line=VERMILLION, width=6, dash=(9, 4)),
    "off-grain edge": Role("raw edge, off the grain", line=VERMILLION, width=4, dash=(3, 3)),
    "finished line": Role("finished line", line=BLUE, width=2, dash=(3, 4), halo=True),
    "cut line": Role("cut", line=BLACK, width=3, dash=(12, 5, 3, 5), halo=True),
    "guide": Role("guide", line=BLUE, width=2, dash=(8, 3), halo=True),
    "press": Role("press this way", line=BLACK, width=2.5, halo=True),
    "grain": Role("lengthwise grain", line=BLUE, width=2, halo=True),
    "lost point": Role("point lost", line=VERMILLION, width=4, mark="cross", halo=True),
    "kept point": Role("point kept", line=BLUE, width=3, mark="ring", halo=True),
    "spot": Role("spot", line=BLACK, width=2, halo=True),
}

DARKEST = 2.5  # contrast with black: a fabric is not drawn darker, so that seams show on it
MIDDLE = 0.16  # luminance: a darker fabric is hatched in white
PALE = 0.8  # luminance: a lighter fabric has a line round it on white paper
TOLD_APART = 1.25  # contrast: two fabrics that differ by less in grey have different hatches


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
    if not round_.isdigit():
        colour, round_ = name, "1"
    plain = FABRICS.get(colour) or _named_by_css(colour)
    if plain is None:
        raise ValueError(f"a picture has no role {name!r}; use one of: {', '.join(ROLES)}, or a colour that CSS names")
    start = HATCHES.index(plain.hatch)
    hatch = HATCHES[(start + int(round_) - 1) % len(HATCHES)]
    return replace(plain, hatch=hatch, ink=WHITE if luminance(plain.fill) < MIDDLE else BLACK)


def _named_by_css(colour):
    """The role of a fabric in a colour that CSS names, or None."""
    if colour not in CSS:
        return None
    fill = lightened(CSS[colour], BLACK, DARKEST)
    line = {"line": BLACK, "width": 1} if luminance(fill) > PALE else {}
    return Role(f"{colour} fabric", fill=fill, **line)


def fabric_roles(names: Iterable[str], parts: Mapping[str, Iterable[str]] | None = None) -> dict[str, str]:
    """Which fabric role each fabric is drawn in: near its colour, where its name or the names of its `parts` tell one,
    else the next one free; two that are alike in grey have different hatches.

    The answer depends on the order of `names` alone, so a picture keeps its colours while a slider moves.

    >>> fabric_roles(["navy", "background", "leaf print", "navy dots", "sand"])
    {'navy': 'blue', 'background': 'white', 'leaf print': 'olivedrab', 'navy dots': 'blue 2', 'sand': 'tan'}
    >>> fabric_roles(["A", "B"], parts={"A": ["plum square"], "B": ["strip"]})
    {'A': 'purple', 'B': 'blue'}
    """
    names = list(dict.fromkeys(names))
    chosen: dict[str, str] = {}
    for name in names:
        colour = colour_meant(name) or agreed_colour((parts or {}).get(name, ()))
        if colour:
            chosen[name] = _told_apart(colour, chosen.values())
    for name in names:
        if name not in chosen:
            used = list(chosen.values())
            free = [colour for colour in FABRICS if not any(_alike(role(colour), role(one)) for one in used)]
            chosen[name] = free[0] if free else _next_round(_least_used(used), used)
    return {name: chosen[name] for name in names}


def _told_apart(colour, used):
    """The colour in the first of its rounds that grey print tells from those that are used."""
    used = list(used)
    rounds = [colour, *(f"{colour} {number}" for number in range(2, len(HATCHES) + 1))]
    free = (
        one for one in rounds if one not in used and not any(_same_in_grey(role(one), role(other)) for other in used)
    )
    return next(free, None) or _next_round(colour, used)


def _same_in_grey(one, other):
    return one.hatch == other.hatch and contrast(one.fill, other.fill) < TOLD_APART


def _alike(one, other):
    """Whether two roles are taken for each other, in colour or in grey."""
    return one.fill == other.fill or _same_in_grey(one, other)


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
