"""What a handout refuses."""


class CannotHandOver(ValueError):
    """A handout that cannot be made; the message says why and what to do."""
