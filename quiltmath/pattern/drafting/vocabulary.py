"""The words of a cutting list, each with the kind of thing it stands for. What stands in none of these lists is a word
that describes, such as the name of a fabric; what may change a count or a size is a `caution`."""

from __future__ import annotations

import re

_DIAGONAL = (
    r"(?:on|along|across|by)\s+(?:(?:the|one|1|a|its|their)\s+)?diag(?:onal)?\b\.?|diagonally|diag\b\.?"
    r"|(?:from\s+)?corner[\s-]+to[\s-]+(?:(?:the\s+)?opposite[\s-]+)?corner"
)
_TWICE = (
    r"twice|two\s+times|quartered|in(?:to)?\s+(?:quarters|fourths|four|4)|(?:in\s+)?both\s+directions|both\s+ways"
    r"|\(?x\s*2\)?|2\s*x(?=\s)"
)
_ONCE = r"once|one\s+time|in\s+one\s+direction|halved|in(?:to)?\s+(?:half|halves|two|2)"
_BOTH = r"(?:on|along|across|through|by)\s+(?:both|2|the\s+two|its\s+two)\s+diagonals(?:\s+lines)?"
_BOTH_TOLD = r"(?:on|along|across)\s+(?:the|its|their)\s+diagonals\b"
"""Both diagonals, where the verb says so: "quartered on the diagonals"."""
_THEM = r"(?:these|those|them|each(?:\s+one)?|all)"
_APART = r"[\s,]*"
_SLICED = r"off|out|up|these|those|them|it|in|on|once|twice|diag\w*|from|corner|along|across"
"""What follows a verb that may be one of cutting."""
_CUT = rf"(?:(?:cut|chop|slice|snip)(?:p?ing|ting|s)?|(?:chopp|slic|snipp)ed(?=\s+(?:{_SLICED})\b))"
_SOMEBODY = r"(?:so\s+)?(?:i|we|you(?:'ll)?)\s+(?:then\s+|just\s+|only\s+|simply\s+)?"
"""Who cuts, in running prose: "so I just cut"."""
SOMEBODY = (
    r"(?:(?:i|we|you|one)(?:'ll|'re|'d)?\s+|please\s+)"
    r"(?:(?:will|shall|should|must|may|can|could|would|might|now|then|just|only|simply|also|please"
    r"|(?:need|have|want|ought|are\s+going|going)\s+to|are\s+to)\s+)*"
)
"""Who is told to cut, before the verb: "you should", "we are going to", "please"."""

_AND_CUT = r"(?:\s+(?:the\s+)?(?:strips|them|these))?(?:\s+together)?(?=,?\s+(?:and|then)\s+(?:then\s+)?(?:cut|trim)\b)"
_TO_MAKE = r"\s+(?:(?:the|these)\s+)?strips\s+(?:together\s+)?to\s+(?:make|get)(?=\s+\(?(?:\d+|two|four)\)?\s+\(?\d)"
_TOGETHER = rf"{_TO_MAKE}|{_AND_CUT}|\s+(?:together|end)\b"
"""What follows "piece" where it is no noun."""

_OF_SEAMS = (
    r"\s+apart|\s+(?:on|along)\s+it\b|\s+(?:on|along|between|down|through|halfway\s+between)\s+(?:(?:the|your|both|each|that|this|these)\s+)?"
    r"(?:[a-z-]+\s+){0,2}(?:lines?|seams?|stitching)\b|,?\s+(?:and\s+|then\s+)*(?:press|open)\b"
)
"""What follows "cut" where units are cut apart that are sewn."""

_STRIPS = r"strips?\b(?![\s-]*(?:sets?|units?|panels?)\b)"
"""Strips, and none of what is sewn of them."""
_FROM_EACH_STRIP = (
    r"(?:from\s+each\s+(?:of\s+(?:the|these|those)\s+)?strips?|across\s+each(?:\s+(?:one|strip))?),?\s+(?:you\s+)?cut\b"
)

_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may(?!\s+[a-z])|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?"
    r"|nov(?:ember)?|dec(?:ember)?)\b\.?"
)
_PLACES = (
    r"(?:steps?|areas?|pages?|pgs?\.?|fig(?:ure)?s?\.?|diagrams?|charts?|photos?|pictures?|illustrations?|rounds?|frames?|rnds?|logs?|clues?"
    r"|weeks?|days?|months?|lessons?|chapters?|sections?|projects?|handouts?|leaflets?|bags?|rooms?|booths?|tickets?|ages?|aged|part(?=\s+\d+\s+of\s+\d))"
)
_NO_PIECES = (
    r"(?:stitch(?:es)?|sts|dollars?|euros?|pounds?|cents?|minutes?|mins?|hours?|hrs?|days?|weeks?|months?|years?"
    r"|evenings?|nights?|weekends?|people|guests?|children|photos?|pictures?|tickets?|copies|pages"
    r"|steps|spools?)\b"
)

PHRASES: dict[str, str] = {
    # Numbers of places, days, prices and ages, which are no figures of a cutting list.
    "ref": r"100\s?%|fussy[\s-]+cut(?:ting)?,?\s+if\s+(?:you\s+(?:like|wish|want|prefer)|desired)\b"
    r"|,?\s*(?:before|ahead\s+of)\s+(?:cutting\s+)?(?:any\s+|all\s+|the\s+)*others?(?:\s+(?:pieces|pcs|patches|strips|cuts)\b\.?)?"
    r"|cutting\s+(?:mats?|boards?|tables?|rulers?|tools?)\b"
    r"|(?:square|even|true|straighten|trim)\s+(?:up\s+|off\s+)?(?:one|an?|the|both|each)\s+(?:short\s+|left\s+|raw\s+)?(?:ends?|edges?)"
    r"(?:\s+of\s+(?:the|each|every|your|all(?:\s+the)?)\s+(?:strip[\s-]*)?(?:sets?|units?|panels?))?(?=,?\s+(?:and|then)\s)"
    r"|\d[\d ./]*(?:\"|-?\s?in(?:ch)?\b|mm)?(?:\s*x\s*\d[\d ./]*(?:\"|-?\s?in(?:ch)?\b)?)?"
    r"\s*(?:(?:square|clear|acrylic|long|quilting|quilter's)\s+)?"
    r"(?:rulers?|(?:cutting\s+|self-healing\s+)mats?|rotary\s+cutters?)\b"
    r"|(?:pattern|design)\s+(?:no\b\.?|number|nr\b\.?)?\s*\#?\d+(?=\W)(?!\s*[\"x/])"
    rf"|{_PLACES}\s+\#?\d+(?:[\s,-]*(?:and|to|of|&|-)?\s*\d+)*(?!\d|[./]\d|-\d+/\d|\s*[\"x]|\s+(?!and\b)[a-z]+\s+\d)"
    r"|(?:1st|2nd|3rd|\dth)\b(?!\s+(?:(?:and|&)\s+\d\w+\s+)?borders?|\s+strips?|\s*:|\s+-\s)|(?:rows?|unit)\s+\#?(?:\d+|[a-z])(?=\s*(?:$|[,:;.(]|-\s))"
    rf"|\d{{1,2}}(?:st|nd|rd|th)?\s+(?:of\s+)?{_MONTH}|{_MONTH}\s+\d{{1,2}}(?:st|nd|rd|th)?\b(?!\s*[\"x/])"
    r"|at\s+\d{1,2}(?::\d\d)?(?:\s*[ap]\.?m\b\.?)?(?=\s*(?:$|[.,;)](?!\d)))|(?:call|phone|tel|text)\b[\s.:]*\+?\d[\d\s()-]{5,}\d"
    rf"|[$£€]\s?\d+(?:[.,]\d+)?|\d+\s+{_NO_PIECES}(?:\s+(?:to|per)\s+(?:the|an|1|one)?\s*inch\b)?",
    # A finished size is none to cut by; an unfinished one is.
    "unfinished": r"before\s+(?:it\s+is|they\s+are|being)\s+(?:set|sewn|joined)\b"
    r"(?:\s+in(?:to)?(?:\s+the\s+(?:quilt|top))?)?"
    r"|unf(?:inished|\b\.?)(?:\s+size)?|raw\s+size|(?:with|including)\s+(?:the\s+|its\s+|their\s+)?raw\s+edges"
    r"|raw(?=\s*(?:$|[).,;]))|(?:un)?trimmed\s+size"
    r"|cut\s+size",
    "finished": r"finish(?:ed|es|ing)?(?:\s+(?:size|at))?|completed\s+size"
    r"|(?:(?<=\" )|(?<=\d )|(?<=in ))fin\b\.?|fin\b\.?(?=\s+(?:size|sq)\b)",
    # Of another quilt than that of the page.
    "other_size": r"(?:large(?:r|st)?|small(?:er|est)?|bigger|mini|baby|crib|lap|throw|full|double|twin|king|queen"
    r"|alternat(?:e|ive)|other)[\s-]+(?:sized?|version|colou?rway|option)\b|for\s+(?:the\s+|an?\s+)?(?:larger|smaller|bigger|other|baby|crib|lap|throw|full|double|twin|king"
    r"|queen)[\s-]+(?:sized?|version|quilt)\b",
    # Triangles: squares cut twice before once, for the shorter words are in the longer ones.
    "twice": rf"(?:in\s+half\s+)?(?:{_TWICE})\s*(?:{_DIAGONAL}|{_BOTH_TOLD})"
    r"(?:[\s,]*(?:both\s+ways|in\s+both\s+directions))?"
    rf"|(?:in\s+half\s+)?(?:{_DIAGONAL}){_APART}(?:{_TWICE})"
    rf"|(?:in\s+(?:half|quarters)\s+)?{_BOTH}(?:{_APART}in(?:to)?\s+(?:quarters|fourths))?|(?:(?:{_TWICE}){_APART}{_BOTH})"
    r"|(?:with|in(?:to)?)\s+an?\s+x\b|(?<=cut )x(?=\W*$)"
    r"|⊠"
    rf"|(?:in\s+half\s+)(?:{_DIAGONAL}){_APART}(?:{_TWICE})|(?:{_TWICE})\s+in\s+half\s+(?:{_DIAGONAL})"
    rf"|quarter-?cut|cut\s+diagonally\s+both\s+ways|quarter\s+(?:(?:it|{_THEM})\s+)?(?:{_BOTH}|{_DIAGONAL})",
    "once": rf"(?:in\s+half\s+|halved?\s+(?={_ONCE}))?(?:{_ONCE})\s+(?:{_DIAGONAL})(?:{_APART}once)?"
    rf"|(?:{_DIAGONAL}){_APART}(?:{_ONCE})(?:{_APART}once)?"
    rf"|{_DIAGONAL}|halve\s+(?:{_THEM}\s+)?(?:{_DIAGONAL})|[◩◪⧄⧅]",
    "way": r"each\s+way\b|(?:on\s+)?(?:each|every|all(?:\s+(?:four|4))?)\s+sides?\b"
    r"|[◸◹◺◿](?=\s*(?:once|diag|in\s+half))",
    # Units have seams in them: their size is none of a patch.
    "unit": r"(?:half[\s-]+square|quarter[\s-]+square)[\s-]+(?:triangles?[\s-]+)?(?:units?|blocks?)"
    r"|(?:[hq]sts?|fg)(?:\s+units?)?\b"
    r"|half[\s-]+square[\s-]+triangles?|quarter[\s-]+square[\s-]+triangles?|flying[\s-]+geese(?:\s+units?)?|(?:four|nine|4"
    r"|9)(?:-patch(?:es)?|\s+patch\b)|[49]ps?\b|(?:(?<=for )|(?<=for the )|(?<=- ))(?:four|nine)\s+patches\b"
    r"|(?:pinwheels?|hourglass(?:es)?|geese)(?:\s+units?)?",
    "strip_set": r"strip[\s-]*sets?(?:\s+\#?(?:\d{1,2}|[iv]{2,4}|[a-z]))?(?=\s*(?:$|[,.;:)]))|strip[\s-]*sets?"
    r"|panels?\b|strata\b|pieced\s+strips?|strip\s+units?",
    # Where a piece belongs.
    "role": r"(?:(?:inner|inside|outer|outside|middle|centre|center|first|second|third|fourth|1st|2nd|3rd|4th|final"
    r"|narrow|wide|skinny|thin|big|side|sides|top|bottom"
    r"|top\s*(?:and|&|/)\s*bottom|upper\s+and\s+lower|upper|lower|left|right|mitered|mitred|pieced)\s*(?:and\s+|&\s*|,\s*"
    r"|/\s*)?)*borders?\b(?:(?<!s)\s*\#?\d(?!\d)\b(?!\s+(?:strips|squares|rectangles|pieces)\b)(?!\s*(?:/\s*\d|[\"-]|yds?\b|yards?\b)|\.\d|\s+\d))?"
    r"|(?:double[\s-]*fold\s+|straight[\s-]*(?:grain\s+|of\s+grain\s+)?|french[\s-]*fold\s+)?bindings?\b|bind\b"
    r"|(?:back|reverse)(?:\s+(?:side|of\s+(?:the\s+|your\s+)?quilt))?(?=\s*[:,-]\s*\d[\d ./-]*(?:yds?|yards?|c?m)\b)"
    r"|(?:pieced\s+)?backing\b|lining\b|batting\b|(?:cotton\s+)?batt?s?\b(?=\W*\d)|wadding\b|volume\s+fleece\b"
    r"|sashing\b|sashes\b|sash\b|lattice\b|corner[\s-]*stones?|corner[\s-]*posts?|posts\b"
    r"|(?:side\s+|corner\s+|edge\s+)?setting(?=\s+(?:squares?|triangles?|blocks?|pieces?|strips?))"
    r"|(?:side|edge)(?=\s+triangles?)|corner(?=\s+(?:triangles?|squares?|blocks?))"
    r"|(?:alternate|alternating)(?=\s+(?:squares?|blocks?|plain))",
    "pack": r"packs?\b|rolls?\b|packets?\b|bundles?\b|charm\s+packs?",
    "fat_quarter": r"(?:fat|long|skinny)[\s-]+(?:quarters?|eighths?|sixteenths?)|fqs?\b|f/8s?\b",
    "precut": r"pre-?cuts?\b(?!\s+(?:before|for\s+class|these|all)\b)",
    "same_size": r"(?:(?:of|in)\s+)?(?:the\s+)?same\s+size\b",
    # Nouns.
    "squares": r"squares?\b|squ?r?s?\b\.?",
    "rectangles": r"rectangles?\b|rects?\b\.?|recs\b\.?|oblongs?\b|bricks\b|brick\b(?!\W*$)|bars?\b|logs?\b",
    "strips": r"strips?\b|strip\b|lengths\b|strs?\b\.?(?=\s*(?:@|\d))",
    "triangles": r"triangles?\b|tris?\b"
    r"|(?:half|quarter)-?square\b(?=\s+(?:[a-z]\d?\s+|(?:side|corner|setting|edge)\s+)*tri)|half-?square",
    "segments": r"segments?\b|slices\b|sections?\b|cross-?cuts\b|units?\b",
    "blocks": r"block\s+(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b"
    r"|(?:block\s+\#?\d{2}|(?<![a-z] )blocks\s+\#?\d{2}|blocks?\s+\#?(?:[a-z]\d?|\d))(?=\s*(?:$|[.,;:)(]|-(?!\s?\d)))"
    r"|blocks?\b|bl(?:k?s?)\b\.?(?!\s*=)",
    "pieces": rf"piece(?!{_TOGETHER})s?\b|patch(?:es)?\b|pcs?\b\.?",
    # Verbs.
    "of_each": rf"(?!{_FROM_EACH_STRIP})(?:of|from|in)\s+(?:each|every)(?:\s+one\b)?(?:\s+of(?:\s+the)?)?"
    r"|for\s+each(?:\s+of(?:\s+the)?)?",
    "into": rf"{_FROM_EACH_STRIP}|s/c\b(?:\s+(?:in)?to\b)?"
    r"|(?:(?:and\s+)?then\s+(?:i|we|you)\s+|and\s+|then\s+|;\s*)?(?:re-?cut|sub[\s-]*cut|cross[\s-]*cut|x-?cut)(?:ting)?"
    rf"(?:\s+(?:{_STRIPS}|(?:this|these|them|each|the)(?:\s+{_STRIPS})?))?(?:\s+(?:in)?to)?\b"
    rf"|from\s+(?:(?:this|these|those|the)\s+)?{_STRIPS},?(?:\s+cut)?|from\s+(?:these|this|which|those|them|it)\b,?(?:\s+cut)?"
    rf"|(?:and\s+)?(?:then\s+)?(?:keep\s+)?{_CUT}\s+(?:(?:these|those|them|this)(?:\s+strips?)?|it|(?:the|each|all)\s+strips?|strips?)\s+(?:in)?to"
    rf"|(?:then|and)\s+cut(?!{_OF_SEAMS})(?:\s+(?:these|them"
    r"|this))?(?:\s+(?:in)?to(?!\s+(?:quarters|fourths|hal)))?"
    rf"|{_APART}(?:(?:and|then)\s+)*(?:divid|split|separat)(?:e|t?ed|t?ing)?\s+(?:(?:{_THEM}|the|this|it)\s+)?(?:strips?\s+)?(?:in)?to\b"
    r"(?=\s+(?:a\s+total\s+of\s+)?(?!(?:two|four)\b(?!\s+\(?\d))(?:\(?\d|[a-z-]+\s+\(?\d))"
    r"|(?:and\s+|then\s+)*trim(?:med)?\s+(?:(?:these|those|them|strips?|the\s+strips)\s+)?(?:down\s+)?to\b"
    r"(?=\s+(?:\(\d+\)|\d+\s+(?:strips|pieces|rectangles|squares)\b))"
    r"|,?\s*cut\s+(?:in)?to\b(?!\s+(?:quarters|fourths|hal|(?:two|four)\b(?!\s+\(?\d)))|which\s+(?:are|is)\s+cut\s+into|(?:to\s+be\s+)?cut\s+up\s+into",
    # Of strips that are longer than the fabric is wide.
    "pieced": r"(?:to\s+be\s+)?(?:piec(?:ed?|ing)|join(?:ed|ing)?|sewn|seam(?:ed|ing|(?=\s+\w)))(?:\s+together)?"
    r"(?:\s+(?:(?:as|if|where|when)\s+(?:needed|necessary|required)|to\s+(?:fit|length|size)|in\s+pairs)\b|(?=\W*$|\s+for\b))",
    "end_to_end": rf"(?:piece|join|sew|stitch|seam){_TO_MAKE}|(?:pieced?|join(?:ed)?|sewn?|seam(?:ed)?){_AND_CUT}"
    r"|(?:(?:sew|join|stitch|piece|seam)\w*\s+)?(?:them\s+|these\s+|strips\s+"
    r"|the\s+strips\s+)?(?:together\s+)?(?:end[\s-]+to[\s-]+end|(?:in)?to\s+one\s+(?:long\s+)?(?:strip|length)\b"
    r"|to\s+make\s+one\s+long\s+strip|(?:at\s+)?(?:the\s+|their\s+)?short\s+ends(?:\s+together)?)"
    r"(?:,?\s+(?:and\s+|then\s+)*(?:cut|trim)\s+to\s+(?:fit|size|length)\b)?",
    "cut": r"divided?(?:\s+(?:these|those|them))?"
    rf"(?=\s+(?:{_THEM}\s+)?(?:{_DIAGONAL}|{_BOTH}|(?:{_TWICE}|{_ONCE})\s+(?:{_DIAGONAL})))"
    rf"|{_SOMEBODY}(?:cut|chopped|sliced|snipped)\b(?!{_OF_SEAMS})"
    rf"|{_CUT}(?:\s+(?:off|out|up|yourself|yourselves|me))?\b(?!{_OF_SEAMS})",
    "sew": r"sew\w*|join\w*|stitch\w*|piece(?=\s+(?:the|together|these|them))|assembl\w+|attach\w*|add(?:ing)?\b"
    r"|seam(?:ing|ed)|seam(?=\s+(?:the|these|them|all|your|two|\d+(?=\s+[a-z]{3})|strips|together)\b(?!\s+allow))",
    "make": r"(?:you(?:'ll|\s+will)?\s+)?(?:end|wind)\s+up\s+with\b"
    r"|(?:to\s+)?(?:make|makes|making|yield|yields|yielding|give|gives|giving|get|produces?|creates?|prepare)\b"
    r"|=(?=\s*\(?\d+\)?\s*(?:$|[).,;]|tri|hst|qst|half|quarter|units?\b))",
    "total": r"in\s+all\b|in\s+total\b|total(?:s|ing)?\b|altogether\b",
    "from": r"from\b(?!\s+the\s+length\b(?!\s+of))|(?<=length )of\b|out\s+of\b|using\b",
    "for": r"for\b",
    "need": r"(?:don't|do\s+not|never)\s+forget\b(?:\s+to\b)?"
    r"|(?:you(?:'ll|\s+will)?\s+)?(?:only\s+)?need(?:ed|s)?\b|you(?:'ll|\s+will)?\s+(?:only\s+)?(?:have|use)\b"
    r"|you\s+should\s+(?:now\s+)?have|(?:until\s+)?you\s+have\b|(?:i|we|you)\s+(?:ended\s+up\s+using|used)\b|require[sd]?\b|req'?d\b\.?"
    r"|use(?=\s+(?:only\s+)?\d+\s*(?:$|[).,;]|of\b))|(?<=\d )used(?=\s*(?:$|[).,;]))",
    "enough": r"enough\b|sufficient\b",
    "bias": r"(?:(?:double|single|french)[\s-]*fold(?:ed)?\s+)?bias\b",
    "lengthwise": r"from\s+the\s+length\b(?!\s+of)"
    r"|(?:down|along)\s+the\s+(?:full\s+)?length\b(?:\s+of\s+(?:the\s+|your\s+)?(?:fabric|grain|cloth)\b)?"
    r"(?!\s+of\s+(?:the\s+|your\s+|each\s+)?(?:quilt|top|side|strip|border|edge|row))"
    r"|lengthwise(?:\s+grain)?|parallel\s+to\s+(?:the\s+)?selv[ae]d?ges?"
    r"|along\s+(?:the\s+)?selv[ae]d?ges?|on\s+the\s+length(?:wise)?\s+(?:of\s+)?grain"
    r"|(?:(?:on|along|down)\s+the\s+)?length\s+of\s+(?:the\s+)?(?:fabric|grain|goods)|lof\b",
    "each": r"each(?:\s+(?:one|of\s+(?:them|these|which)))?"
    r"(?:\s+(?:measur(?:ing|es)|(?:cut|is|being|to\s+be)(?=\s+\d)))?\b|per\b|every\b|apiece\b|ea\b\.?",
    "left_over": r"(?:left|will\s+be\s+left)[\s-]*over|will\s+be\s+left\b(?!\s+(?:side|and))"
    r"|(?<=\d )left(?=\s*(?:$|[).;]))|extras?\b|to\s+spare|spare\b|unused\b|remain(?:s"
    r"|ing)?\s+(?:over|unused)",
    # Of what is counted already.
    "aside": r"(?:keep|discard|use|save|reserve)\s+(?:the\s+)?(?:rest|remainder|off-?cuts|left-?overs?|scraps|waste)\b"
    r"|(?:set|put|lay|keep|leave)\s+(?:(?:these|those|them|it)\s+)?(?:aside|to\s+(?:one|the)\s+side)\b|aside\b|reserve[ds]?\b|save[ds]?\b",
    "includes": r"seams?\s+(?:are\s+)?allowed(?:\s+for)?\b"
    r"|(?:includ(?:es?|ed|ing)\b|incl\b\.?)(?:\s+(?:the\s+)?seam(?:s|\s+allowances?)(?!\s+\d))?"
    r"|allow(?:s|ing)?\s+for\b",
    "set": r"matching\s+sets?|sets?\b",
    "rows": r"(?:horizontal\s+|vertical\s+)?rows?\b|columns?\b(?!\s+(?:strips?|sash))",
    "seam_allowance": r"seam(?:s|\s+allowances?)?\b|s\.?a\b\.?(?=\s*[=:])",
    "caution": r"x\s*$|(?:clip|round|trim)\s+(?:off\s+)?(?:the\s+|all\s+|one\s+)?corners?\b"
    r"|to\s+(?:fit|measure(?:ment)?)\b|(?:slightly|a\s+(?:bit|little|touch))\s+(?:larger|smaller|bigger|longer|wider)\b|"
    r"[/\\]\s*$|(?:length|width)\s+of\s+(?:the\s+|your\s+)?(?:quilt|top|sides?)\b"
    r"|or\b|either\b|as\s+many\b|twice\b|thrice\b|times\b|double\b|halves\b|thirds?\b(?!\s+(?:frame|round|ring))"
    r"|(?:half|quarters?|eighths?)\b(?!\s+(?:of\s+)?(?:an?\s+)?(?:yards?|inch)\b|-inch)"
    r"|fourths?\b(?!\s+(?:frame|round|ring))"
    r"|additional\b|some(?=\s+for\b)|more\b|another\b|about\b|(?:approx(?:imately)?|abt)\b\.?|minimum\b|at\s+least|up\s+to|if\b|not\b"
    r"|don't\b|optional\w*|instead\b"
    r"|alternatively\b|otherwise\b|discard\w*|less\b|minus\b|plus\b|except\b|pairs?\b|both\b|reversed?\b|mirror\w*|twin\b|king\b|queen\b|same\b|rest\b"
    r"|again\b|diagonals?\b|halv(?:e|es|ing)\b|splits?\b|slit\b|slash\w*|x's\b"
    r"|matching\b|template\b(?!-free)|circles?\b|hexagons?\b|diamonds?\b|trapezoids?\b"
    r"|ovals?\b|hearts?\b|lea(?:f|ves)\b|petals?\b|stems?\b|fusible\b|interfacing\b|stabili[sz]er\b|web(?:bing)?\b"
    r"|vinyl\b|elastic\b|ribbon\b|lace\b|paper\b|octagons?\b|wedges?\b|kites?\b|degrees?\b|ruler\b|angle\b|radius\b|diameter\b|cups?\b|ounces?\b|oz\b|grams?\b"
    r"|tsp\b|tbsp\b|teaspoons?\b|tablespoons?\b|minutes?\b|°|%|\$|€|£",
    "article": r"a\s+total\s+of\b|an?\b",
    "and": r"and\b|&|\+",
}
"""{kind: what is read as it}, in the order in which they are tried."""

_ENDS = r"(?![^\W\d_])"  # a figure may follow without a blank: "cut12rectangles2"
_LEXER = re.compile(
    "|".join(f"(?P<{kind}>(?<![a-z])(?:{words.replace(chr(92) + 'b', _ENDS)}))" for kind, words in PHRASES.items())
)


def phrase(text: str, at: int, end: int) -> tuple[str, int] | None:
    """The kind of the words that begin at this place, and where they end; None where they only describe.

    >>> phrase("in half diagonally for 4", 0, 24), phrase("navy", 0, 4)
    (('once', 18), None)
    """
    match = _LEXER.match(text, at, end)
    return (str(match.lastgroup), match.end()) if match else None


def trade_name(words: str) -> str | None:
    """What a sheet calls a piece that the trade has a name for; None for one that it does not know.

    >>> trade_name("fqs"), trade_name("fat eighths"), trade_name("squares")
    ('fat quarter', 'fat eighth', None)
    """
    if not words.startswith(("fat", "fq", "f/8")):
        return None
    return None if "sixteenth" in words else "fat eighth" if "8" in words or "eighth" in words else "fat quarter"


# fmt: off
DONE_TO_FABRIC = {
    "assorted", "bleached", "brushed", "checked", "colored", "coloured", "coordinated", "dotted", "dyed", "embroidered",
    "figured", "flecked", "flowered", "mixed", "mottled", "patterned", "printed", "red", "speckled", "spotted",
    "striped", "textured", "unbleached", "variegated", "washed"
}
"""Words that end as a verb does in the past, and name a fabric all the same."""

SAID_OF_PIECES = {
    "allowed", "assumed", "based", "calculated", "called", "centered", "centred", "desired", "estimated", "figured",
    "included", "indicated", "labeled", "labelled", "listed", "marked", "measured", "needed", "numbered", "required",
    "shaped", "sized", "specified", "squared", "started", "stated", "used", "wanted"
}
"""Words of that end which change neither a count nor a size, nor how a piece is cut."""
# fmt: on


def may_be_done(word: str) -> bool:
    """Whether a word may say what is done to a piece, where no list knows it.

    >>> may_be_done("snipped"), may_be_done("striped"), may_be_done("red")
    (True, False, False)
    """
    return bool(re.search(r"[a-z][a-df-z]ed$", word)) and word.rpartition("-")[2] not in DONE_TO_FABRIC | SAID_OF_PIECES


# fmt: off
FUNCTION_WORDS = {
    "able", "again", "ahead", "am", "any", "anything", "because", "been", "bought", "but", "came", "can", "could",
    "did", "do", "does", "down", "favorite", "favourite", "folks", "friends", "from", "get", "go", "going", "got",
    "grab", "had", "has", "have", "he", "her", "here", "him", "his", "i", "i'd", "i'll", "i'm", "i've", "if", "just",
    "know", "let", "let's", "like", "likewise", "love", "made", "make", "may", "me", "might", "mine", "must", "my",
    "myself", "now", "of", "ok", "okay", "ones", "only", "or", "our", "out", "own", "pick", "please", "running", "she",
    "should", "so", "some", "start", "started", "still", "there", "they", "to", "took", "up", "us", "used", "using",
    "want", "was", "we", "we'd", "we'll", "went", "were", "when", "while", "who", "would", "you're", "yourself"
}
"""Words of running prose, which name nothing."""

COLOURS = {
    "amber", "apricot", "aqua", "aubergine", "background", "beige", "black", "blue", "bright", "brights", "brown",
    "buff", "burgundy", "charcoal", "cherry", "chocolate", "coral", "cream", "crimson", "dark", "ecru", "emerald",
    "fuchsia", "gold", "gray", "green", "grey", "indigo", "ivory", "jade", "khaki", "lavender", "lemon", "light",
    "lilac", "lime", "magenta", "maroon", "mauve", "medium", "mint", "mocha", "moss", "muslin", "mustard", "natural",
    "navy", "oatmeal", "ochre", "olive", "orange", "peach", "pink", "plum", "purple", "red", "rose", "rust", "sage",
    "salmon", "sand", "scarlet", "silver", "slate", "tan", "taupe", "teal", "turquoise", "violet", "wheat", "white",
    "wine", "yellow"
}
"""Words that part one fabric from another: where they gainsay the head, the fabric is asked for."""

CALLED_AFTER = {
    "almond", "ash", "blush", "bone", "butter", "celery", "cerulean", "cinnamon", "clay", "cobalt", "cocoa", "coffee",
    "copper", "cranberry", "dusk", "eggplant", "flax", "fog", "forest", "ginger", "granite", "grape",
    "graphite", "heather", "honey", "ink", "latte", "midnight", "mist", "oat", "oyster", "papaya", "paprika",
    "parchment", "pearl", "pebble", "persimmon", "pewter", "pine", "putty", "quartz", "raspberry", "saffron", "seafoam",
    "sienna", "smoke", "snow", "spruce", "steel", "stone", "storm", "tangerine", "terracotta", "toffee", "umber",
    "vanilla", "walnut"
}
"""What colours are called after, and fabrics: words of which a name may be made besides."""

HUES = COLOURS - {"background", "bright", "brights", "dark", "light", "medium", "natural", "muslin"}
"""Words of which no two are said of one fabric, apart from each other."""

OF_FABRIC = {
    "accent", "assorted", "batik", "batiks", "border-print", "calico", "chambray", "check", "checks", "color", "colour",
    "contrast", "corduroy", "damask", "denim", "dot", "dots", "dyed", "fabric", "feature", "flannel", "floral",
    "florals", "focus", "gingham", "homespun", "linen", "main", "novelty", "paisley", "plaid", "plaids", "print",
    "prints", "seersucker", "solid", "solids", "spot", "spots", "stripe", "striped", "stripes", "texture", "toile",
    "tonal", "tonals", "tone", "tweed", "velvet", "volume", "wool"
}
"""Words that say of a name that it is one of a fabric."""

NUMBERED = r"fab\.?|print|colou?r|solid|batik|floral|dot|stripe|tonal|plain|accent|contrast|feature"
"""What is told from others of its kind by a number or a letter, besides "fabric": "Accent 2"."""

PRINTS = {
    "batik", "check", "dot", "floral", "gingham", "paisley", "plaid", "print", "spot", "stripe", "stripes", "toile"
}  # fmt: skip
"""Words that make a fabric even of a place in the quilt: "border stripe"."""

PARTS = {
    "arm", "back", "bag", "bar", "base", "basket", "blade", "block", "boat", "body", "bottom", "bow", "box",
    "branch", "brick", "cabin", "center", "centre", "chain", "chimney", "circle", "column", "corner", "cross",
    "cushion", "diamond", "door", "edge", "end", "fan", "flap", "flower", "flying", "foundation", "four", "frame",
    "front", "goose", "grass", "ground", "half", "handle", "heart", "hourglass", "house", "hull", "inner", "large",
    "leaf", "left", "log", "mast", "medallion", "middle", "nine", "outer", "panel", "patch", "path", "petal",
    "piece", "pillow", "pinwheel", "plus", "pocket", "point", "quilt", "rail", "rectangle", "right", "ring", "roof",
    "round", "row", "runner", "sail", "set", "side", "sky", "small", "snowball", "spacer", "spool", "square",
    "star", "stem", "strap", "strip", "tip", "top", "topper", "trapezoid", "tree", "triangle", "trunk", "tulip",
    "unit", "version", "wall", "water", "window", "wing", "wreath"
}
"""Words for the parts of a quilt, which name no fabric over strips."""

HANDLED = {
    "align", "arrange", "draw", "flip", "fold", "lay", "mark", "pair", "pin", "place", "placed", "position", "press",
    "repeat", "rotate", "trim", "trimmed", "turn"
}
"""What is done with pieces that are cut: a sentence of these cuts none."""

PROSE = HANDLED | {
    "alternate", "alternating", "baste", "begin", "beginning", "chain", "clip", "continue", "finger",
    "iron", "keep", "label", "layer", "match", "measure", "nest", "open", "pressing",
    "refer", "referring", "sewn", "spray", "stack", "starch", "starting", "store", "trace", "unfold",
    "leave", "tie", "tuft", "using", "wash"
}
"""What a sentence begins with that tells of sewing."""
# fmt: on

ROLES = {
    "bind": "binding",
    "backing": "backing",
    "lining": "backing",
    "batting": "batting",
    "wadding": "batting",
    "volume fleece": "batting",
    "sash": "sashing",
    "lattice": "sashing",
    "corner stone": "cornerstone",
    "post": "cornerstone",
    "cornerstone": "cornerstone",
    "border": "border",
}
