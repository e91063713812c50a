"""The report as one HTML page: nothing is loaded, nothing runs, and it prints on Letter and A4."""

from html import escape

from ...draw.svg_writer import page_svg
from .contents import Drawing, Heading, Listed, NumberTable, Paragraph, Told, Verdict
from .pictures import laid_out

WIDE, NARROW = 660, 264  # px: a picture over the page, and one beside a finding
HIGH = 470  # px: how high the picture over the page may be
BROAD, LOW = 630, 300  # px: pictures side by side below a finding, and how high they may be

STYLE = """
@page { margin: 14mm 13mm; }
* { box-sizing: border-box; }
body { font: 11pt/1.35 Verdana, "DejaVu Sans", sans-serif; color: #000; background: #fff; max-width: 700px;
  margin: 16px auto; padding: 0 8px; overflow-wrap: anywhere; }
h1 { font-size: 25pt; line-height: 1.2; margin: 0; padding: 14px 18px; border: 4px solid #000; }
h1.stop { border-width: 10px; border-color: #d55e00; outline: 2px solid #000; }
h1.ask { border-style: dashed; border-width: 5px; }
h1.go { border-color: #0072b2; }
h1 strong { font-size: 40pt; letter-spacing: 1px; display: block; }
.pattern { font-size: 15pt; font-weight: bold; margin: 12px 0 2px; }
.sum { font-size: 12.5pt; }
.short { margin: 4px 0; }
.short li { margin: 0; }
h2 { font-size: 15pt; margin: 26px 0 8px; border-bottom: 2px solid #000; break-after: avoid; }
h3 { font-size: 12.5pt; margin: 0 0 4px; }
p { margin: 4px 0 8px; }
figure { margin: 14px 0; break-inside: avoid; }
svg { max-width: 100%; height: auto; display: block; }
.finding { margin: 0 0 14px; padding: 10px 0 10px 14px; border-left: 4px solid #000; break-inside: avoid;
  overflow: hidden; }
.finding.stop { border-left: 9px solid #d55e00; }
.finding.ask { border-left: 6px dashed #000; }
.finding figure { margin: 8px 0 0; }
.finding figure.beside { float: right; width: 264px; margin: 0 0 6px 16px; }
.pairs { margin: 4px 0; }
.pairs b { display: inline-block; min-width: 5.2em; }
.source { font-size: 9.5pt; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; font-size: 10.5pt; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
col:nth-child(1) { width: 31%; } col:nth-child(2) { width: 20%; } col:nth-child(3) { width: 32%; }
th, td { text-align: left; vertical-align: top; padding: 3px 8px 3px 0; border-bottom: 1px solid #999;
  font-weight: normal; }
thead th, th.group { font-weight: bold; border-bottom: 2px solid #000; }
th.group { padding-top: 12px; break-after: avoid; }
td.sign { white-space: nowrap; }
tr.differs td, tr.differs th, tr.missing td, tr.missing th { font-weight: bold; }
li { margin: 0 0 6px; break-inside: avoid; }
.answer { display: block; border-bottom: 1px solid #000; height: 1.9em; }
@media print { body { margin: 0; padding: 0; max-width: none; } }
"""


def html(contents: list, title: str) -> str:
    """The contents of a report as the text of an HTML file.

    >>> html([Paragraph("1 < 2")], "A & B").count("&lt;"), "<title>A &amp; B</title>" in html([], "A & B")
    (1, True)
    """
    body = "\n".join(_WRITE[type(part)](part, number) for number, part in enumerate(contents))
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{escape(title)}</title>
<style>{STYLE}</style>
</head>
<body>
{body}
</body>
</html>
"""


def drawn(part: Drawing | Told, number: int) -> str:
    """The picture of a part of the report as SVG, as large as its place on the page; nothing where there is none."""
    if part.picture is None:
        return ""
    if isinstance(part, Drawing):
        width, height = WIDE, HIGH
    else:
        width, height = (BROAD if part.broad else NARROW), LOW
    return page_svg(laid_out(part.picture, width, height), ids=f"p{number}-")


def _verdict(part, _):
    word, colon, rest = part.words.partition(":")
    short = "".join(f"<li>{escape(line)}</li>" for line in part.short)
    return (
        f'<h1 class="{part.level}"><strong>{escape(word + colon)}</strong>{escape(rest)}</h1>\n'
        f'<p class="pattern">{escape(part.pattern)}</p>\n<p class="sum">{escape(part.sentence)}</p>'
        + (f'\n<ul class="short sum">{short}</ul>' if short else "")
    )


def _heading(part, _):
    return f"<h2>{escape(part.text)}</h2>"


def _words(part, _):
    return f"<p>{escape(part.text)}</p>"


def _drawing(part, number):
    return f"<figure>{drawn(part, number)}</figure>"


def _told(part, number):
    picture = below = ""
    if part.broad:
        below = f"<figure>{drawn(part, number)}</figure>"
    elif part.picture is not None:
        picture = f'<figure class="beside">{drawn(part, number)}</figure>'
    pairs = "".join(f'<p class="pairs"><b>{escape(label)}</b> {escape(text)}</p>' for label, text in part.pairs)
    return (
        f'<section class="finding {part.level}">{picture}<h3>{escape(part.heading)}</h3>\n'
        f"<p>{escape(part.message)}</p>\n"
        f'{pairs}<p class="source">{escape(part.source)}</p>{below}</section>'
    )


def _table(part, _):
    heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in part.heads)
    rows = []
    for title, group in part.groups:
        rows.append(f'<tr><th class="group" colspan="{len(part.heads)}" scope="colgroup">{escape(title)}</th></tr>')
        for what, *cells, sign in group:
            kind = {"≠": ' class="differs"', "?": ' class="missing"'}.get(sign[0], "")
            rows.append(
                f'<tr{kind}><th scope="row">{escape(what)}</th>'
                + "".join(f"<td>{escape(cell)}</td>" for cell in cells)
                + f'<td class="sign">{escape(sign)}</td></tr>'
            )
    columns = "<col>" * len(part.heads)
    return (
        f"<table><colgroup>{columns}</colgroup><thead><tr>{heads}</tr></thead>\n<tbody>\n"
        + "\n".join(rows)
        + "\n</tbody></table>"
    )


def _listed(part, _):
    kind, answer = ("ol", '<span class="answer"></span>') if part.questions else ("ul", "")
    return f"<{kind}>" + "\n".join(f"<li>{escape(item)}{answer}</li>" for item in part.items) + f"</{kind}>"


_WRITE = {
    Verdict: _verdict,
    Heading: _heading,
    Paragraph: _words,
    Drawing: _drawing,
    Told: _told,
    NumberTable: _table,
    Listed: _listed,
}
