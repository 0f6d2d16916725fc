#!/usr/bin/env python3
"""Roots of the map of heads, computed with hashlib alone, by definition: `python3 heads.py > heads.txt`."""
from hashlib import sha256 as s


def tree(leaves):
    if not leaves:
        return s(b"").digest()
    if len(leaves) == 1:
        return s(b"\0" + leaves[0]).digest()
    k = 1
    while k * 2 < len(leaves):
        k *= 2
    return s(b"\1" + tree(leaves[:k]) + tree(leaves[k:])).digest()


def place(documents, depth=0):
    """The node over these (key, hash) pairs, whose keys agree in the first `depth` bits."""
    if not documents:
        return bytes(32)
    if len(documents) == 1:
        return documents[0][1]
    bit = lambda key: key[depth // 8] >> (7 - depth % 8) & 1
    sides = [[d for d in documents if bit(d[0]) == side] for side in (0, 1)]
    return s(b"\3" + place(sides[0], depth + 1) + place(sides[1], depth + 1)).digest()


for size, visits in ((1, 1), (9, 4), (700, 200)):
    entries = [s(n.to_bytes(8, "big")).digest() for n in range(size)]
    documents = []
    for visit in range(min(size, visits)):
        key = s(b"v" + bytes([visit] * 16)).digest()
        mine = entries[visit::visits]
        documents.append((key, s(b"\2" + key + len(mine).to_bytes(8, "big") + tree(mine)).digest()))
    print(size, visits, place(documents).hex())
