"""Where the kit's own files lie: inside the package once installed, beside it in a checkout."""
from pathlib import Path

PACKAGE = Path(__file__).parent


def folder(name):
    """The folder `name` ("data" or "notebooks") that came with this copy of the kit, as a Path.

    >>> folder("data").is_dir()
    True
    >>> folder("attic")
    Traceback (most recent call last):
    FileNotFoundError: this copy of quiltmath carries no folder 'attic'; install it again from the wheel or the checkout
    """
    for home in (PACKAGE, PACKAGE.parent):
        if (home / name).is_dir():
            return home / name
    raise FileNotFoundError(
        f"this copy of quiltmath carries no folder {name!r}; install it again from the wheel or the checkout")
