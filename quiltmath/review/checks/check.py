"""What a check is."""

from ..finding import Finding, Ruler

SLACK = 1 / 16  # inches: what disappears in sewing; two edges that differ by less can be eased together


CUT_OTHERWISE = ("wrong-triangles", "cut-size", "edges-differ")


class Check:
    """One thing to look at before cutting: subclasses give `name`, `title`, `repair`, `why`, and `findings(made)`.

    `after` names checks: where one of them has found a `stop`, this one's findings would only be its consequences, and it
    stays silent.
    """

    name = title = repair = why = ""
    level = "stop"
    after = ()

    def look(self, made, earlier):
        """The findings of this check on a made sheet, unless an `earlier` finding explains them."""
        if any(finding.check in self.after and finding.level == "stop" for finding in earlier):
            return ()
        return tuple(self.findings(made, earlier))

    def findings(self, made, earlier):
        """Yield a `Finding` for each thing found."""
        raise TypeError(f"{type(self).__name__} does not say what it finds")

    def finding(self, made, path, message, printed="", needed="", level=None, **more):
        """A finding of this check at a path of the sheet."""
        return Finding(
            check=self.name,
            level=level or self.level,
            where=made.sheet.place(path),
            printed=printed,
            needed=needed,
            message=message,
            why=more.pop("why", self.why),
            **more,
        )


def blamed(earlier):
    """The parts that earlier findings say must be cut otherwise: what is sewn from them is not to be judged yet."""
    return frozenset(
        part
        for finding in earlier
        if finding.check in CUT_OTHERWISE and finding.level == "stop"
        for part in finding.parts
    )


def ruler(made):
    """The `Ruler` in whose words a sheet's findings are said."""
    return Ruler(made.sheet.units)


def path_of(sheet, part):
    """The path of the cutting-list line that cuts this part."""
    return ["cut", [cut.part for cut in sheet.cut].index(part)]


def some(number, thing, things=None):
    """A count with its noun.

    >>> some(1, "point"), some(12, "point"), some(2, "patch", "patches")
    ('1 point', '12 points', '2 patches')
    """
    return f"{number} {thing if number == 1 else things or thing + 's'}"
