"""Lets ``python -m takeoff`` do what the command does."""

from takeoff.cli import main

main()
