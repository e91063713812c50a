"""Speed, measured as ratios within one run: `python -m tests.bench NAME`. One module a bench, with
`main(arguments)`."""

BENCHES = {
    "redraw": "key press to painted picture in JupyterLab, beside one patch at a time through interact",
    "cutting": "cutting plans of 2 to 10 parts, and how near they come to the least cloth there could be",
    "review": "reviewing from the command line, and a report as HTML beside its pictures alone",
    "limits": "the largest sheets that are accepted: seconds and memory for review, correction and report",
    "sew": "whole quilts on point sewn in the simulator, and how the time grows",
}
