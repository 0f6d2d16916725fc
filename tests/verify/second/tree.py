"""Sections 7.1 and 7.5: the tree of the log and the map of heads."""
from .forms import sha256


def leaf_hash(data):
    return sha256(b"\x00" + data)


def node_hash(left, right):
    return sha256(b"\x01" + left + right)


def tree_hash(leaves):
    """The RFC 9162 tree hash over these leaf hashes."""
    if not leaves:
        return sha256(b"")
    # Complete subtrees from the left, the largest first: each is split at a power of two.
    stack = []
    for number, leaf in enumerate(leaves, 1):
        stack.append(leaf)
        while not number & 1:
            right = stack.pop()
            stack.append(node_hash(stack.pop(), right))
            number >>= 1
    root = stack.pop()
    while stack:
        root = node_hash(stack.pop(), root)
    return root


def root_of_inclusion(leaf, number, size, path):  # RFC 9162, 2.1.3.2
    if number >= size:
        return None
    fn, sn, result = number, size - 1, leaf
    for sibling in path:
        if sn == 0:
            return None
        if fn & 1 or fn == sn:
            result = node_hash(sibling, result)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            result = node_hash(result, sibling)
        fn, sn = fn >> 1, sn >> 1
    return result if sn == 0 else None


def consistent(old, old_hash, new, new_hash, proof):  # RFC 9162, 2.1.4.2
    if old == 0:
        return True
    if old == new:
        return old_hash == new_hash and not proof
    if not 0 < old < new:
        return False
    proof = list(proof)
    if old & (old - 1) == 0:
        proof.insert(0, old_hash)
    if not proof:
        return False
    fn, sn = old - 1, new - 1
    while fn & 1:
        fn, sn = fn >> 1, sn >> 1
    first = second = proof[0]
    for hashed in proof[1:]:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            first, second = node_hash(hashed, first), node_hash(hashed, second)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            second = node_hash(second, hashed)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and first == old_hash and second == new_hash


def leaf_data(leaf):
    """The data of a leaf of the log, of version one or two."""
    return leaf["entry"] + leaf["received_at"].to_bytes(8, "big", signed=True) + leaf.get("about", b"")


def log_leaf(leaf):
    return leaf_hash(leaf_data(leaf))


def head_hash(about, count, root):
    return sha256(b"\x02" + sha256(about) + count.to_bytes(8, "big") + root)


def root_of_heads(about, count, root, path):
    """Where the head of this document leads to; None where the path is longer than a key."""
    key = int.from_bytes(sha256(about), "big")
    depth = len(path)
    if depth > 256:
        return None
    result = head_hash(about, count, root)
    for at, beside in enumerate(path):
        bit = key >> (255 - (depth - 1 - at)) & 1
        result = sha256(b"\x03" + (beside + result if bit else result + beside))
    return result
