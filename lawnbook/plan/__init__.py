"""What to do: water, nitrogen, thatch and due dates, each number with its working."""
