"""What is true: pure functions and frozen values. Clock, chance and ids are arguments."""
