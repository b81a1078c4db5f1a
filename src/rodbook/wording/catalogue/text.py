"""What is wrong with a text, whatever it is for."""

SENTENCES = {
    "text.more_than_one_line": "this has to stand on one line; take the line break or tab out",
    "text.unprintable": "a character that can't be printed (U+{code_point:04X}) stands here; take it out",
}
