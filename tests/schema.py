"""The published schema of a pattern sheet, and where in a sheet its tables stand."""

from quiltmath import pattern

SCHEMA = pattern.json_schema()
DEFS = SCHEMA["$defs"]
MODELS = {"Sheet": SCHEMA, **DEFS}
KEYS = {(model, key) for model, schema in MODELS.items() for key in schema.get("properties", ())}
"""(model, key) of every key there is."""


def tables(data, schema=SCHEMA, model="Sheet"):
    """Yield every table of a sheet given as plain tables, as (name of its model, the table itself)."""
    if "$ref" in schema:
        name = schema["$ref"].rpartition("/")[2]
        yield from tables(data, DEFS[name], name)
    elif "anyOf" in schema:
        for one in schema["anyOf"]:
            yield from tables(data, one, model)
    elif isinstance(data, dict) and "properties" in schema:
        yield model, data
        for key in data.keys() & schema["properties"].keys():
            yield from tables(data[key], schema["properties"][key], model)
    elif isinstance(data, dict) and isinstance(schema.get("additionalProperties"), dict):
        for one in data.values():
            yield from tables(one, schema["additionalProperties"], model)
    elif isinstance(data, list) and isinstance(schema.get("items"), dict):
        for one in data:
            yield from tables(one, schema["items"], model)


def keys_said(data):
    """(model, key) of every key that a sheet says."""
    return {(model, key) for model, table in tables(data) for key in table}
