"""The guide to the pattern sheet: it names every key there is and no other, and each of its sheets is read and sewn."""

import re
import tomllib

import pytest

from quiltmath import making, pattern, review
from quiltmath.pattern.fields import PLACES
from quiltmath.pattern.parts import KINDS

from .guide import EXAMPLES, FERRY, GUIDE, REFERENCE, WALK, put_in, section, snippets, walk
from .sheets import paths, typed

SCHEMA = pattern.json_schema()
HEADS = {
    "fabric.NAME": "Fabric",
    "cut": "Cut",
    "strip_set.NAME": "StripSet",
    "unit.NAME": "UnitTable",
    "block.NAME": "BlockTable",
    "setting": "Setting",
    "setting.sashing": "Sashing",
    "setting.sides": "EdgePiece",
    "setting.corners": "EdgePiece",
    "border": "Border",
    "binding": "Binding",
    "backing": "Backing",
    "batting": "Batting",
    "step": "StepTable",
    "other_size": "OtherSize",
    "": "Sheet",
}
MEANT = {
    "piece-count",
    "finished-size",
    "fabric-short",
    "binding-short",
    "backing-small",
    "batting-small",
    "border-length",
}


def tables():
    """{the model's name in the schema: (keys explained, keys said to be needed, all that is said)} below each
    heading."""
    found = {}
    for heading, text in re.findall(
        r"^### (.*?)\n(.*?)(?=^### |^## |\Z)", section(REFERENCE), re.DOTALL | re.MULTILINE
    ):
        names = re.findall(r"`\[+([\w.]+)\]+`", heading) or [""]
        model = {HEADS[name] for name in names}
        assert len(model) == 1, heading
        keys, needed = [], set()
        for bullet in re.findall(r"^- (.*?)(?=^- |^\n|\Z)", text, re.DOTALL | re.MULTILINE):
            here = re.findall(r"`(\w+)`", bullet.split(":")[0])
            keys += here
            needed |= {key for key in here if "*Needed.*" in bullet}
        found[model.pop()] = keys, needed, text
    return found


class TestKeys:
    def test_every_table_has_its_heading(self):
        models = {"Sheet", *SCHEMA["$defs"]} - {"Item"}
        assert set(tables()) == models

    @pytest.mark.parametrize("model", sorted(set(HEADS.values())))
    def test_every_key_of_a_table_is_explained_once_and_no_other(self, model):
        keys, _, _ = tables()[model]
        there = SCHEMA if model == "Sheet" else SCHEMA["$defs"][model]
        assert sorted(keys) == sorted(there["properties"])

    @pytest.mark.parametrize("model", sorted(set(HEADS.values()) - {"Sheet"}))
    def test_what_is_needed_is_said(self, model):
        _, needed, _ = tables()[model]
        assert needed == set(SCHEMA["$defs"][model].get("required", ()))

    def test_what_is_needed_of_the_whole_is_said(self):
        assert set(SCHEMA["required"]) == {"title", "cut", "setting"}
        _, needed, text = tables()["Sheet"]
        assert needed == {"title"}
        assert "`cut` and `setting` are *needed*" in text

    @pytest.mark.parametrize("model", sorted(set(HEADS.values())))
    def test_every_word_that_may_be_chosen_is_named(self, model):
        _, _, text = tables()[model]
        there = SCHEMA if model == "Sheet" else SCHEMA["$defs"][model]
        for key, field in there["properties"].items():
            for word in words(field):
                written = f'"{word}"' if isinstance(word, str) else f"{word}"
                assert written in re.sub(r"\s+", " ", text), f"{model}.{key} may be {word!r}"

    def test_units_and_places_are_all_named(self):
        assert all(f'`"{kind}"`' in section("## How pieces lie") for kind in KINDS)
        assert all(f'`"{place}"`' in GUIDE for place in PLACES)


def words(field):
    """The words or numbers a field of the schema may be."""
    for each in (field, *field.get("anyOf", ())):
        yield from each.get("enum", ())
        yield from [each["const"]] if "const" in each else ()


class TestTheWalk:
    def test_it_is_a_whole_sheet_and_a_go(self):
        found = review.review(pattern.read_text(walk(), "guide"))
        assert (found.verdict, found.findings) == ("go", ())

    def test_it_is_the_page_it_is_typed_from(self):
        sheet = tomllib.loads(walk())
        for cut in sheet["cut"]:
            said = re.search(rf"\b{cut['part']}\s+(\d+) (?:squares|strips) ([\d /]+)\"", FERRY)
            assert (int(said[1]), said[2]) == (cut["count"], cut.get("size") or cut["strip"]), cut["part"]
        for name, cloth in sheet["fabric"].items():
            assert f"{name.capitalize()} {cloth['bought']}" in FERRY
        for written in (
            '{} × {}"'.format('46 1/4"', sheet["finished"][1]),
            f"Backing {sheet['backing']['bought']}",
            f"{sheet['setting']['across']} across and {sheet['setting']['down']} down",
        ):
            assert written in FERRY


class TestExamples:
    @pytest.mark.parametrize("snippet", EXAMPLES, ids=range(len(EXAMPLES)))
    def test_each_put_into_the_sheet_of_the_walk_can_be_sewn(self, snippet):
        sheet = pattern.read_text(typed(put_in(tomllib.loads(walk()), tomllib.loads(snippet))), "guide")
        found = review.review(sheet)
        assert found.made.top is not None and found.made.troubles == []
        wrong = [finding for finding in found.findings if finding.check not in MEANT]
        if "cut blocks" in snippet:
            assert [(finding.check, finding.level) for finding in wrong] == [
                ("bias-outside", "note")
            ]  # a border holds it
        else:
            assert wrong == []

    @pytest.mark.parametrize("snippet", EXAMPLES, ids=range(len(EXAMPLES)))
    def test_the_numbers_of_each_are_those_the_quilt_takes(self, snippet):
        data = tomllib.loads(snippet)
        here = [cut["part"] for cut in data.get("cut", [])]
        sheet = pattern.read_text(typed(put_in(tomllib.loads(walk()), data)), "guide")
        needed = making.pieces_needed(sheet)
        counted = {part: sheet.part(part) for part in here if sheet.part(part).strip is None}
        few = {
            part: (cut.gives, needed[part])
            for part, cut in counted.items()
            if not needed[part] <= cut.gives < needed[part] + 4
        }
        assert few == {}

    def test_there_is_no_other_code_that_nobody_reads(self):
        fences = re.findall(r"^```(\w*)$", GUIDE, re.MULTILINE)
        assert set(fences) == {"toml", "text", ""}
        assert fences.count("toml") == len(EXAMPLES) + len(snippets(section(WALK)))


class TestSheetsToBeginFrom:
    def test_all_sound_sheets_are_listed_and_no_other(self):
        listed = re.findall(r"^- `([\w-]+)\.toml`: \S", section("## Sheets to begin from"), re.MULTILINE)
        assert sorted(listed) == [path.stem for path in paths("sound")]
