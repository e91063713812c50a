"""The report as one HTML page: nothing is loaded, nothing runs, and it prints on Letter and A4."""

from html import escape
from urllib.parse import quote

from ...draw.svg_writer import page_svg
from .contents import CURE, PAGES, Drawing, Heading, Listed, NumberTable, Paragraph, Told, Verdict
from .pictures import laid_out

WIDE, NARROW = 660, 264  # px: a picture over the page, and one beside a finding
HIGH = 380  # px: how high the picture over the page may be
BROAD, LOW = 630, 200  # px: pictures side by side below a finding, and how high they may be

STYLE = """
@page { margin: 14mm 13mm; }
* { box-sizing: border-box; }
body { font: 11pt/1.35 Verdana, "DejaVu Sans", sans-serif; color: #000; background: #fff; max-width: 700px;
  margin: 16px auto; padding: 0 8px; overflow-wrap: anywhere; }
h1 { font-size: 17pt; line-height: 1.2; margin: 0; padding: 8px 18px; border: 4px solid #000; }
h1.stop { border-width: 10px; border-color: #d55e00; outline: 2px solid #000; }
h1.ask { border-style: dashed; border-width: 5px; }
h1.go { border-color: #0072b2; }
h1 strong { font-size: 36pt; letter-spacing: 1px; display: block; }
.pattern { font-size: 15pt; font-weight: bold; margin: 12px 0 2px; }
.sum { font-size: 12pt; }
.matters { margin: 6px 0; padding-left: 1.2em; }
.matters li { margin: 0; }
.matters li:first-child { font-size: 12pt; font-weight: bold; }
.cure { margin: 10px 0; padding: 8px 14px; border: 2px solid #0072b2; break-inside: avoid; }
.cure h2 { margin: 0 0 4px; border: 0; font-size: 12.5pt; }
.cure ul { margin: 0; padding-left: 1.2em; font-size: 12pt; }
.cure li { margin: 0 0 2px; }
.cure p { margin: 4px 0 0; }
.small { font-size: 9pt; }
h2 { font-size: 14pt; margin: 18px 0 6px; border-bottom: 2px solid #000; break-after: avoid; }
h3 { font-size: 12.5pt; margin: 0 0 4px; }
p { margin: 4px 0 8px; }
figure { margin: 10px 0; break-inside: avoid; }
svg { max-width: 100%; height: auto; display: block; }
.finding { margin: 0 0 14px; padding: 10px 0 10px 14px; border-left: 4px solid #000; break-inside: avoid;
  overflow: hidden; }
.finding.stop { border-left: 9px solid #d55e00; }
.finding.ask { border-left: 6px dashed #000; }
.finding figure { margin: 8px 0 0; }
.finding figure.beside { float: right; width: 264px; margin: 0 0 6px 16px; }
.pairs { margin: 4px 0; }
.source { font-size: 9.5pt; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; font-size: 10.5pt; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
col:nth-child(1) { width: 30%; } col:nth-child(2) { width: 21%; } col:nth-child(3) { width: 29%; }
.rest col:nth-child(1) { width: 36%; } .rest col:nth-child(2) { width: 25%; } .rest col:nth-child(3) { width: 39%; }
th, td { text-align: left; vertical-align: top; padding: 3px 8px 3px 0; border-bottom: 1px solid #999;
  font-weight: normal; }
thead th, th.group { font-weight: bold; border-bottom: 2px solid #000; }
th.group { padding-top: 12px; break-after: avoid; }
.differing td:last-child { font-weight: bold; }
table.small { font-size: 9pt; }
table.small th, table.small td { padding: 2px 8px 2px 0; }
li { margin: 0 0 6px; break-inside: avoid; }
.answer { display: block; border-bottom: 1px solid #000; height: 1.9em; }
@media print {
  body { margin: 0; padding: 0; max-width: none; font-size: 10pt; line-height: 1.3; }
  h1 { padding: 4px 14px; font-size: 15pt; }
  h2 { margin: 12px 0 4px; }
  .sum, .cure ul, .matters li:first-child { font-size: 11pt; }
  .finding { margin: 0 0 8px; padding: 4px 0 4px 12px; }
  .answer { height: 1.5em; }
  figure { margin: 4px 0; }
  figure svg { max-height: 330px; }
  .small, table.small { font-size: 8.5pt; }
  table.small th, table.small td { padding: 1px 8px 1px 0; }
  li { margin: 0 0 2px; }
}
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
    said = [
        f'<h1 class="{part.level}"><strong>{escape(word + colon)}</strong>{escape(rest)}</h1>',
        f'<p class="pattern">{escape(part.pattern)}</p>',
        f'<p class="sum">{escape(part.sentence)}</p>',
    ]
    if part.matters:
        said.append(f'<ul class="matters">{_items(part.matters)}</ul>')
    pages = f'<p>{PAGES}: <a href="{quote(part.pages)}">{escape(part.pages)}</a></p>' if part.pages else ""
    if part.cures:
        after = f'<p class="sum">{escape(part.after)}</p>' if part.after else ""
        said.append(f'<section class="cure"><h2>{CURE}</h2><ul>{_items(part.cures)}</ul>{after}{pages}</section>')
    elif pages:
        said.append(pages)
    return "\n".join(said)


def _items(sentences):
    return "".join(f"<li>{escape(sentence)}</li>" for sentence in sentences)


def _heading(part, _):
    return f"<h2>{escape(part.text)}</h2>"


def _words(part, _):
    return f"<p{_small(part)}>{escape(part.text)}</p>"


def _drawing(part, number):
    return f"<figure>{drawn(part, number)}</figure>"


def _told(part, number):
    picture = below = ""
    if part.broad:
        below = f"<figure>{drawn(part, number)}</figure>"
    elif part.picture is not None:
        picture = f'<figure class="beside">{drawn(part, number)}</figure>'
    said = [f"<p>{escape(text)}</p>" for text in (part.message, part.same) if text]
    if part.pairs:
        pairs = "; ".join(f"<b>{escape(label)}</b> {escape(text)}" for label, text in part.pairs)
        said.append(f'<p class="pairs">{pairs}</p>')
    if part.source:
        said.append(f'<p class="source">{escape(part.source)}</p>')
    told = "\n".join(said)
    return f'<section class="finding {part.level}">{picture}<h3>{escape(part.heading)}</h3>\n{told}{below}</section>'


def _small(part, *classes):
    """The class of a paragraph, a table or a list that is set small."""
    classes = [*classes, *(["small"] if part.small else [])]
    return f' class="{" ".join(classes)}"' if classes else ""


def _table(part, _):
    heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in part.heads)
    rows = []
    for title, group in part.groups:
        if title:
            rows.append(f'<tr><th class="group" colspan="{len(part.heads)}" scope="colgroup">{escape(title)}</th></tr>')
        for what, *cells in group:
            rows.append(
                f'<tr><th scope="row">{escape(what)}</th>'
                + "".join(f"<td>{escape(cell)}</td>" for cell in cells)
                + "</tr>"
            )
    columns, kind = "<col>" * len(part.heads), _small(part, "rest" if part.small else "differing")
    return (
        f"<table{kind}><colgroup>{columns}</colgroup><thead><tr>{heads}</tr></thead>\n<tbody>\n"
        + "\n".join(rows)
        + "\n</tbody></table>"
    )


def _listed(part, _):
    kind, answer = ("ol", '<span class="answer"></span>') if part.questions else ("ul", "")
    return (
        f"<{kind}{_small(part)}>" + "\n".join(f"<li>{escape(item)}{answer}</li>" for item in part.items) + f"</{kind}>"
    )


_WRITE = {
    Verdict: _verdict,
    Heading: _heading,
    Paragraph: _words,
    Drawing: _drawing,
    Told: _told,
    NumberTable: _table,
    Listed: _listed,
}
