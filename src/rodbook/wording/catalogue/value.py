"""What values are called that are too long for a sentence, and what would be right in place of a word."""

SENTENCES = {
    "value.did_you_mean": "; did you mean {word}?",
    "value.did_you_mean_figure": "; did you mean {value:g}?",
    "value.group": "a group of names and values",
    "value.list": "a list",
    "value.long_number": "a number of more than 19 digits",
    "value.many_digits": "of many digits",
    "value.nothing": "nothing",
    "value.of_that_number": "of that number",
    "value.one_of": "; use one of: {words}",
    "value.one_of_more": "; use one of: {words} …",
    "value.written": "{text:.60}",
}
