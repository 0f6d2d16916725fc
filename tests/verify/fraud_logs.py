"""A finished packet put into a log of the office's own making: whatever entries are chosen, log, heads and seal agree on them."""

import base64
import copy

from damage import OFFICE, PHONE, SECOND, pack, sha256
from fraud_makers import Packet, body, note, parts
from handmade import Log, audit_path, heads_map, heads_path, tree

LISTS = ("visit", "car", "site", "roster")


def in_a_log_of_its_own(p: Packet, entries, elsewhere=None):
    """Sealed anew with these entries in a log that holds nothing else, in the order and at the times they came in.
    `elsewhere` replaces what the chains say of entries of other records."""
    known = {leaf["entry"]: (leaf["number"], leaf["received_at"]) for leaf in p.log["leaves"]}
    newest = max(known.values())
    rows = [
        (known.get(sha256(raw), newest), sha256(raw), body(raw)["about"]) for name in LISTS for raw in entries[name]
    ]
    made = Log()
    made.leaves = [(entry, at, about) for (_, at), entry, about in sorted(rows)]
    place = {entry: at for at, (entry, _, _) in enumerate(made.leaves)}
    entries = {**entries, **{name: sorted(entries[name], key=lambda raw: place[sha256(raw)]) for name in LISTS}}
    hashes, documents = made.hashes(), made.documents()
    heads = []
    for visit in entries["stay"]:
        count, root = made.head_of(b"v" + visit)
        heads.append(
            {"about": b"v" + visit, "count": count, "root": root, "path": heads_path(documents, sha256(b"v" + visit))}
        )
    line = f"heads {len(documents)} {base64.b64encode(heads_map(documents)).decode()}"
    log = {
        "checkpoints": [note(OFFICE, p.last_note()[0], len(hashes), tree(hashes), line)],
        "consistency": [],
        "leaves": [
            {"entry": entry, "number": at, "received_at": when, "about": about, "path": audit_path(hashes, at)}
            for at, (entry, when, about) in enumerate(made.leaves)
        ],
        "chains": p.log["chains"] if elsewhere is None else elsewhere,
        "tokens": [],
        "heads": heads,
    }
    return p.sealed(parts(entries, log))


def said(key, raw, **changed):
    """An entry signed with a known key, as another one was but for what is changed."""
    return key.envelope(pack({**body(raw), **changed}), "farsiding entry 1")


def inner_entry_called_elsewhere(p):
    """An inner entry left out, its number and id given as those of an entry of another record."""
    entries = copy.deepcopy(p.entries)
    at = p.at("reading")
    raw = entries["visit"].pop(at)
    gone = {"device": PHONE.public, "elsewhere": [{"seq": body(raw)["seq"], "entry": sha256(raw)}], "missing": []}
    others = [chain for chain in p.log["chains"] if chain["device"] != PHONE.public]
    return in_a_log_of_its_own(p, entries, sorted([*others, gone], key=lambda chain: chain["device"]))


def site_of_another_place(p):
    """What is known of the site is what another site's people said of theirs."""
    entries = copy.deepcopy(p.entries)
    raw = entries["site"][0]
    says = {"site": {**body(raw)["says"]["site"], "name": "Another Siding", "zone": "Etc/GMT-9"}}
    entries["site"] = [said(PHONE, raw, about=b"s" + bytes([8] * 16), says=says)]
    return in_a_log_of_its_own(p, entries)


def car_of_another_number(p):
    """What is known of another car stands as known of this one."""
    entries = copy.deepcopy(p.entries)
    raw = entries["visit"][p.at("reading")]
    capacity = {"car_capacity": {"capacity": body(raw)["says"]["reading"]["amount"]}}
    entries["car"] = [said(PHONE, raw, about=b"c" + bytes([7] * 16), slot="capacity", says=capacity, seq=900)]
    return in_a_log_of_its_own(p, entries)


def roster_of_another_organisation(p):
    entries = copy.deepcopy(p.entries)
    raw = entries["visit"][p.at("reading")]
    who = {"operator": {"operator": "WREN", "name": "Somebody Else", "active": True}}
    entries["roster"] = [said(PHONE, raw, about=b"r" + bytes([7] * 16), slot="operator/WREN", says=who, seq=900)]
    return in_a_log_of_its_own(p, entries)


def smuggled_by_a_joining_slot(p):
    """An entry about another visit, under a slot as joins have it, that says something else."""
    entries = copy.deepcopy(p.entries)
    raw = entries["visit"][p.at("hold")]
    other, slot = b"v" + bytes([5] * 16), "joined/" + entries["stay"][0].hex()
    more = said(
        SECOND,
        raw,
        about=other,
        slot=slot,
        says={"released": {"as_residue": True}},
        seq=body(raw)["seq"] + 1,
        prev=sha256(raw),
    )
    entries["visit"].append(more)
    return in_a_log_of_its_own(p, entries)


def two_cars_as_one_stay(p, other):
    """Another car's visit stands in the stay; nobody ever joined them."""
    entries = copy.deepcopy(p.entries)
    visit = b"v" + other.entries["stay"][0]
    assert visit[1:] not in entries["stay"]
    entries["stay"] = sorted([*entries["stay"], visit[1:]])
    entries["visit"] += [raw for raw in other.entries["visit"] if body(raw)["about"] == visit]
    return in_a_log_of_its_own(p, entries)
