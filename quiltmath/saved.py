"""What a saved notebook keeps of a live one: the stills, which need no kernel, and not the widgets."""

from typing import Any

VIEW = "application/vnd.jupyter.widget-view+json"


def without_widgets(notebook: dict[str, Any]) -> None:
    """Take the live widgets out of the outputs of a notebook, and HTML that says what a picture beside it says.

    >>> widget = {VIEW: {"model_id": "1"}, "text/html": "<svg/>", "image/png": "…", "text/plain": "A sentence."}
    >>> page = {"metadata": {"widgets": {}}, "cells": [{"outputs": [{"data": widget}]}, {"source": "Words."}]}
    >>> without_widgets(page)
    >>> page
    {'metadata': {}, 'cells': [{'outputs': [{'data': {'image/png': '…', 'text/plain': 'A sentence.'}}]}, \
{'source': 'Words.'}]}
    """
    notebook.get("metadata", {}).pop("widgets", None)
    for cell in notebook.get("cells", ()):
        for output in cell.get("outputs", ()):
            data = output.get("data", {})
            if len(data) > 1:  # a widget of somebody's own has nothing else to show
                data.pop(VIEW, None)
            if "image/png" in data:  # with its alt text in the metadata
                data.pop("text/html", None)


def keep_stills(model: dict[str, Any], **_: Any) -> None:
    """Jupyter's hook before a file is saved."""
    if model.get("type") == "notebook" and isinstance(model.get("content"), dict):
        without_widgets(model["content"])
