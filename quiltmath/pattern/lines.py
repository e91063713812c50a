"""Which line of a TOML text gives a value: the parser does not say, so the text is read once more for its keys."""

import re

_HEADER = re.compile(r"""^\s*(\[\[?)\s*([^\]]+?)\s*\]\]?""")
_KEY = re.compile(r"""^\s*("[^"]*"|'[^']*'|[A-Za-z0-9_-]+)((?:\s*\.\s*(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*=""")


def line_of(text, path):
    """The number of the line that gives the value at this path of keys and list numbers, or of its table, or None.

    >>> line_of("title = 'x'\\n[[cut]]\\npart = 'A'\\n[[cut]]\\npart = 'B'", ["cut", 1, "part"])
    5
    """
    lines = list(_places(text))
    for length in range(len(path), 0, -1):
        wanted = list(path[:length])
        found = [number for place, number in lines if place == wanted] + [
            number for place, number in lines if place[:length] == wanted
        ]
        if found:
            return found[0]
    return None


def _places(text):
    """The path of every table header and key in the text, with its line."""
    table, counts = [], {}
    for number, line in enumerate(text.splitlines(), 1):
        header = _HEADER.match(line)
        if header and "=" not in line.split("]")[0]:
            keys = _keys(header.group(2))
            if header.group(1) == "[[":
                counts[tuple(keys)] = counts.get(tuple(keys), -1) + 1
                table = [*keys, counts[tuple(keys)]]
            else:
                table = _inside_lists(keys, counts)
            yield table, number
            continue
        key = _KEY.match(line)
        if key:
            yield [*table, *_keys(key.group(1) + key.group(2))], number


def _inside_lists(keys, counts):
    path = []
    for key in keys:
        path.append(key)
        if tuple(path) in counts:
            path.append(counts[tuple(path)])
    return path


def _keys(dotted):
    return [part.strip().strip("\"'") for part in re.findall(r"\"[^\"]*\"|'[^']*'|[^.\s]+", dotted)]
