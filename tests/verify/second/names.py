"""Section 13: the names of people, which stand in no entry."""
from .entries import says_of
from .forms import Refused, decode, fields, is_digest, need, sha256

CONTEXT = b"farsiding name 1"
LONGEST_NAME = 200


def read_names(value):
    names = fields(value, ("names",))["names"]
    need(isinstance(names, tuple) and names, "it names nobody")
    before = b""
    for row in names:
        fields(row, ("named", "salt", "name"))
        need(is_digest(row["named"]) and is_digest(row["salt"]) and isinstance(row["name"], str))
        need(before < row["named"], "the names are not in order")
        before = row["named"]
        need(1 <= len(row["name"].encode()) <= LONGEST_NAME, "a name is empty or too long")
    return names


def operator_of(entry):
    """Code and commitment of the person an entry of kind `operator` names; None if it is not of its form."""
    says = says_of(entry, "operator") or {}
    if not (isinstance(says.get("operator"), str) and isinstance(says.get("name"), str)
            and isinstance(says.get("trained_on", ""), str) and isinstance(says.get("active"), bool)
            and is_digest(says.get("named"))):
        return None
    return says["operator"], says["named"]


class Names:
    """The part of the verifier that compares names with what entries commit to."""

    def names(self, files):
        if "names.cbor" not in files:
            return
        try:
            names = read_names(decode(files["names.cbor"].bytes()))
        except Refused as why:
            self.broken("unreadable_attachment", f"names.cbor: {why}")
            return
        people = self.people_named()
        of_people = {named for code, named in filter(None, (operator_of(entry) for entry in self.all if entry["list"] == "roster"))
                     if code in people}
        sound = True
        for row in names:
            if sha256(CONTEXT + row["salt"] + row["name"].encode()) != row["named"]:
                sound = False
                self.broken("altered_name", f"the name for {row['named'].hex()} is not the one committed to")
            elif not self.altered and row["named"] not in of_people:
                sound = False
                self.broken("foreign_name", f"the name for {row['named'].hex()} is of nobody the entries name")
        if sound:
            self.holds("names", f"{len(names)} names are those committed to")

    def people_named(self):
        """The codes of everybody whom entries of `visit` and `car` name."""
        named = set()
        for entry in self.all:
            if entry["list"] not in ("visit", "car"):
                continue
            named.add(entry["body"]["by"])
            for kind, field in (("handover_given", "to"), ("handover_taken", "from")):
                other = (says_of(entry, kind) or {}).get(field)
                if isinstance(other, str):
                    named.add(other)
        return named
