"""What is wrong with a name."""

SENTENCES = {
    "name.taken": "{name!r} is already the {field} of {of}; each needs its own",
    "name.twice": "{name!r} stands here twice; give each its own name",
}
