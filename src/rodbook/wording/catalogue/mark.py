"""What is wrong with a mark."""

SENTENCES = {
    "mark.begins_with_figure": (
        "{mark!r} begins with a figure, as the marks of parts do ({part_mark}); begin it with a letter, such as R{rest}"
    ),
    "mark.sounds_alike": "{mark!r} sounds like {other!r}, the mark of {of}; said aloud each needs its own",
    "mark.taken": "{mark!r} is already the mark of {of}; each needs its own",
}
