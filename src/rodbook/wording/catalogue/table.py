"""What is wrong with a table of openings."""

from rodbook.wording.rendering import Many

SENTENCES: dict[str, str | Many] = {
    "table.column_twice": "{heading!r} is already column {column}; keep one of them",
    "table.columns_missing": Many(
        "the column {missing!r:/and_last} is missing; all of {group!r:/and_last} are needed, or none of them",
        "the columns {missing!r:/and_last} are missing; all of {group!r:/and_last} are needed, or none of them",
        "missing",
    ),
    "table.empty": "this table is empty; its first row holds the headings, such as mark and room",
    "table.neither_yes_nor_no": "{value!r:.60} is neither yes nor no",
    "table.no_heading": (
        "{value!r:.40} stands under no heading; head the column or empty the cell, and write decimals with a point"
        " where commas stand between cells"
    ),
    "table.no_kind": "a table is a .csv or .xlsx file, and this is neither; save it so",
    "table.no_mark": "there is no column 'mark'; each opening needs its name",
    "table.no_sizes": (
        "there are no columns of sizes; give readings (width foot, width middle, width head, height left, height "
        "middle, height right), or the wanted leaf width and leaf height"
    ),
    "table.no_such_column": "there is no column {heading!r:.40}{hint}",
    "table.of_another_kind": "a table is a .csv or .xlsx file, and this is a {suffix:.20} file; save it so",
    "table.only_headings": "this table has headings and no openings below them; add a row for each",
    "table.quotation_marks": "quotation marks do not match; a mark inside a cell is written twice",
    "table.quotation_marks_or_long_cell": (
        "quotation marks do not match here, or a cell is far too long; a mark inside a cell is written twice"
    ),
    "table.too_many_columns": "{columns} columns stand here; at most {most} are read",
    "table.too_many_rows": "{rows} rows stand here; at most {most} are read from one table",
}
