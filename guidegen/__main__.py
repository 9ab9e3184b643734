"""`python -m guidegen` does what `guidegen` does."""

from guidegen.cli import main

if __name__ == "__main__":
    main()
