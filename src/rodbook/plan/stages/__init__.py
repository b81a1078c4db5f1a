"""The stages that the pipeline puts in order: readings, sizes, set-out, swings, materials, layouts, outlook."""
