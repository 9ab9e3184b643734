"""What commands share at the terminal: questions, progress, lists of colours, and the streams that they go through."""
