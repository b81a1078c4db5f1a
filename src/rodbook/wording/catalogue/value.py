"""What values are called that are too long for a sentence, and what would be right in place of a word."""

SENTENCES = {
    "value.did_you_mean": "; did you mean {word}?",
    "value.group": "a group of names and values",
    "value.list": "a list",
    "value.long_number": "a number of more than 19 digits",
    "value.nothing": "nothing",
    "value.one_of": "; use one of: {words}",
    "value.one_of_more": "; use one of: {words} …",
}
