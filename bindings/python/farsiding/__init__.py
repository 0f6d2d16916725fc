"""The Farsiding core for Python: the generated calls, and Python's manner of opening a book.

`farsiding_bindings` is generated from the Rust API; nothing is decided here. README.md has an example.
"""

import asyncio
import os

from .farsiding_bindings import (
    AmountReading,
    Book,
    Picture,
    ReadAmount,
    FarsidingError,
    calculate,
    core_version,
    formulas,
    new_key,
    pin_may_be_chosen,
    pin_storage_key,
    prepare_storage,
    read_amount,
)

__all__ = [
    "AmountReading",
    "Book",
    "Picture",
    "ReadAmount",
    "FarsidingError",
    "calculate",
    "core_version",
    "formulas",
    "new_key",
    "open_book",
    "pin_may_be_chosen",
    "pin_storage_key",
    "prepare_storage",
    "read_amount",
]


def open_book(folder: "str | os.PathLike[str]", name: str, key: bytes) -> Book:
    """Makes `folder` ready and opens the book `name` in it. Not for use inside a running event loop.

    `key` is the device's secret of 32 bytes. Raises what `prepare_storage` and `Book.open` raise.
    """
    asyncio.run(prepare_storage(os.fspath(folder)))
    return Book.open(os.fspath(folder), name, key)
