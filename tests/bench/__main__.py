"""`python -m tests.bench NAME [arguments]`: run one bench, or list them."""

import sys
from importlib import import_module

from . import BENCHES


def main(arguments):
    if not arguments or arguments[0] not in BENCHES:
        print("python -m tests.bench NAME, where NAME is one of")
        for name, words in BENCHES.items():
            print(f"  {name:10} {words}")
        return 2
    return import_module(f"{__package__}.{arguments[0]}").main(arguments[1:]) or 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
