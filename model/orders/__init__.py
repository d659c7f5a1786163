"""The example orders that ship with the package, one TOML file each."""

from importlib.resources import files
from pathlib import Path


def example_names() -> list[str]:
    """Return the names of the shipped orders, alphabetical."""
    names = (Path(entry.name) for entry in files("model.orders").iterdir())
    return sorted(name.stem for name in names if name.suffix == ".toml")


def example_path(name: str) -> Path:
    """Return where the shipped order of this name lies. Raises KeyError where there is none."""
    if name not in example_names():
        raise KeyError(name)
    return Path(str(files("model.orders").joinpath(f"{name}.toml")))
