"""What places are called that are no field of a document."""

SENTENCES = {
    "place.board": "board {name!r}",
    "place.cell": "cell {cell}",
    "place.column": "column {column}",
    "place.file": "the file",
    "place.fitting": "fitting {name}",
    "place.job": "job {name!r}",
    "place.line": "line {number}",
    "place.pane": "pane {name}",
    "place.row": "row {number}",
    "place.section": "section {name!r}",
    "place.table": "the list",
    "place.task": "task {name!r}",
}
