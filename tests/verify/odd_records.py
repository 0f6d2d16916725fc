"""Odd entries, odd places in the log, odd seals, receipts and certificates."""
import handmade
from handmade import pack, sha256


def entry_cases():
    def body(**more):
        return {"odd.body": lambda v: {**v, **more}}
    for name, more, said in [
        ("seen_with_more", {"seen": {"size": 99, "root": bytes(32), "more": 1}}, []), ("seen_of_another_log", {"seen": {"size": 3, "root": bytes(32)}}, []),
        ("seen_of_none", {"seen": {"size": 0, "root": bytes(32)}}, []), ("seen_as_a_list", {"seen": [3, bytes(32)]}, []),
        ("seen_with_a_short_root", {"seen": {"size": 3, "root": bytes(31)}}, []), ("seen_with_text", {"seen": {"size": "3", "root": bytes(32)}}, []),
        ("seen_with_a_float", {"seen": {"size": 3.0, "root": bytes(32)}}, []), ("seen_null", {"seen": None}, []), ("seen_as_a_number", {"seen": 3}, []),
        ("seen_with_null_root", {"seen": {"size": 3, "root": None}}, []), ("hand_null", {"hand": None}, []), ("hand_as_text", {"hand": "mine"}, ["altered_entry"]),
        ("hand_empty", {"hand": {}}, ["altered_entry"]), ("why_gone", {"why": None}, ["altered_entry"]), ("why_blank", {"why": " \n\t"}, ["altered_entry"]),
        ("why_empty", {"why": ""}, ["altered_entry"]), ("why_of_wide_blanks", {"why": "\u00a0\u2003"}, ["altered_entry"]),
        ("why_as_bytes", {"why": b"x"}, ["altered_entry"]), ("why_without_cause", {"replaces": [], "why": "because"}, []),
        ("replaces_one_twice", {"replaces": [bytes(32)] * 2}, []), ("says_of_two_pairs", {"says": {"remark": {"text": "a"}, "withdrawn": {}}}, ["altered_entry"]),
        ("says_nothing", {"says": {}}, ["altered_entry"]), ("says_as_a_list", {"says": ["remark"]}, ["altered_entry"]), ("says_as_text", {"says": "withdrawn"}, []),
        ("says_null_content", {"says": {"withdrawn": None}}, []), ("says_with_a_number_for_kind", {"says": {5: {}}}, ["altered_entry"]), ("says_null", {"says": None}, ["altered_entry"]),
        ("says_unknown", {"says": {"later": [1, 2]}}, []), ("seq_zero", {"seq": 0}, ["removed_entry"]), ("seq_largest", {"seq": (1 << 64) - 1}, ["removed_entry"]),
        ("about_an_unknown_letter", {"about": b"z" + bytes(16)}, ["unreadable_attachment"]), ("about_a_car", {"about": b"c" + bytes(16)}, ["foreign_entry"]),
        ("joined_slot_of_another", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex()}, ["foreign_entry"]),
        ("joined_slot_in_capitals", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex().upper()}, ["foreign_entry"]),
        ("joined_slot_with_more", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex() + "/x"}, ["foreign_entry"]),
        ("joined_slot_with_a_line_feed", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex() + "\n"}, ["foreign_entry"]),
        ("joined_slot_about_a_car", {"about": b"c" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex()}, ["foreign_entry"]),
        ("joined_with_an_absent_one", {"says": {"joined": {"other": handmade.OTHER}}}, []), ("joined_with_text", {"says": {"joined": {"other": handmade.OTHER.hex()}}}, []),
        ("joined_with_more", {"says": {"joined": {"other": handmade.OTHER, "more": 1}}}, []), ("joined_with_a_list", {"says": {"joined": {"other": list(handmade.OTHER)}}}, []),
        ("joined_with_a_car", {"slot": "same_car", "says": {"joined": {"other": handmade.CAR}}}, []),
        ("photo_of_text_length", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": "5", "media": "x"}, "of": "y"}}}, []),
        ("photo_without_of", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "x"}}}}, []),
        ("photo_absent", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "image/png"}, "of": "car_number"}}}, []),
        ("photo_of_strange_media", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": ""}, "of": "car_number"}}}, []),
        ("photo_with_text_digest", {"says": {"photo": {"photo": {"sha256": "00" * 32, "length": 5, "media": "x"}, "of": "y"}}}, []),
        ("photo_of_an_unknown_word", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "x"}, "of": "y"}}}, []),
        ("photo_about_null", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "image/png"}, "of": "car_number", "about": None}}}, []),
        ("photo_about_a_number", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "image/png"}, "of": "car_number", "about": 5}}}, []),
        *[("photo_of_" + of, {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "image/png"}, "of": of}}}, [])
          for of in ("seal", "threads", "defect", "instrument", "housing", "paper", "other", "Seal", "seals", "")],
        ("joined_with_null", {"says": {"joined": {"other": None}}}, []), ("withdrawn_with_null", {"says": {"withdrawn": {"more": None}}}, []),
        ("offset_of_years", {"when": {"at": handmade.BEGIN, "offset_minutes": 1 << 20}}, ["altered_entry"]), ("offset_too_large", {"when": {"at": handmade.BEGIN, "offset_minutes": 1 << 40}}, ["altered_entry"]), ("offset_largest", {"when": {"at": handmade.BEGIN, "offset_minutes": 32767}}, []),
        ("offset_one_too_large", {"when": {"at": handmade.BEGIN, "offset_minutes": 32768}}, ["altered_entry"]),
        ("when_with_more", {"when": {"at": handmade.BEGIN, "offset_minutes": 0, "more": 1}}, []), ("when_ahead_null", {"when": {"at": handmade.BEGIN, "offset_minutes": 0, "ahead_millis": None}}, []),
        ("time_before_all", {"when": {"at": -(1 << 63), "offset_minutes": 0}}, []), ("time_before_all_and_ahead", {"when": {"at": -(1 << 63), "offset_minutes": 0, "ahead_millis": (1 << 63) - 1}}, []),
        ("time_after_all", {"when": {"at": (1 << 63) - 1, "offset_minutes": 0, "ahead_millis": -(1 << 63)}}, []),
        ("by_empty", {"by": ""}, []), ("slot_empty", {"slot": ""}, []), ("by_with_control_characters", {"by": "A\u202e\0"}, []), ("by_long", {"by": "A" * 5000}, []),
        ("place_null", {"place": None}, []), ("place_as_text", {"place": "here"}, ["altered_entry"]), ("place_empty", {"place": {}}, ["altered_entry"]),
        ("place_of_integers", {"place": {"latitude": 1, "longitude": -2, "accuracy_m": 3}}, ["altered_entry"]), ("place_of_whole_floats", {"place": {"latitude": 1.0, "longitude": -2.0, "accuracy_m": 3.0}}, []),
        ("place_of_one_integer", {"place": {"latitude": 1.5, "longitude": -2.5, "accuracy_m": 3}}, ["altered_entry"]), ("place_without_accuracy", {"place": {"latitude": 1.5, "longitude": -2.5}}, ["altered_entry"]),
        ("place_with_text", {"place": {"latitude": "1", "longitude": 2, "accuracy_m": 3}}, ["altered_entry"]),
        ("place_with_more", {"place": {"latitude": 1.5, "longitude": -2.5, "accuracy_m": 3.5, "more": 1}}, ["altered_entry"]),
        ("place_with_null", {"place": {"latitude": 1.5, "longitude": -2.5, "accuracy_m": None}}, ["altered_entry"]), ("place_with_a_null_more", {"place": {"latitude": 1.5, "longitude": -2.5, "accuracy_m": 3.5, "more": None}}, ["altered_entry"]),
        ("place_nowhere", {"place": {"latitude": float("inf"), "longitude": -2.5, "accuracy_m": 3.5}}, ["altered_entry"]), ("place_of_no_number", {"place": {"latitude": 1.5, "longitude": float("nan"), "accuracy_m": 3.5}}, ["altered_entry"]),
        ("place_beyond_the_pole", {"place": {"latitude": 91.5, "longitude": -200.5, "accuracy_m": -1.5}}, []), ("place_with_truth", {"place": {"latitude": True, "longitude": -2.5, "accuracy_m": 3.5}}, ["altered_entry"]),
        ("place_as_a_list", {"place": [1.5, 2.5, 3.5]}, ["altered_entry"]), ("too_large", {"by": "A" * 32768}, ["altered_entry"]),
        ("odd_key_beside", {5: 6}, ["altered_entry"]),
    ]:
        yield f"entry/{name}", body(**more) if all(isinstance(one, str) for one in more) else {"odd.body": lambda v, m=more: {**v, **m}}, said
    yield from besides_cases()


def besides_cases():
    """What stands in a stay of other visits, and besides it of the site and the roster."""
    visit, other, alien = handmade.VISIT, handmade.OTHER, bytes(16)
    slot = "joined/" + visit.hex()
    for name, where, says, said in [
        ("joined", slot, {"joined": {"other": visit}}, []), ("not_joined", slot, {"not_joined": {"other": visit}}, []),
        ("joined_in_another_slot", "joined/" + other.hex(), {"joined": {"other": visit}}, ["foreign_entry"]),
        ("joined_in_no_slot", "same_car", {"joined": {"other": visit}}, ["foreign_entry"]),
        ("joined_to_another", slot, {"joined": {"other": alien}}, ["foreign_entry"]),
        ("joined_to_another_in_its_slot", "joined/" + alien.hex(), {"joined": {"other": alien}}, ["foreign_entry"]),
        ("joined_with_text", slot, {"joined": {"other": visit.hex()}}, ["foreign_entry"]), ("joined_with_more", slot, {"joined": {"other": visit, "more": 1}}, []),
        ("withdrawn", slot, {"withdrawn": {}}, []), ("withdrawn_elsewhere", "joined/" + other.hex(), {"withdrawn": {}}, ["foreign_entry"]),
        ("agreement", slot, {"agreement": {"keeps": alien * 2}}, []), ("agreement_elsewhere", "same_car", {"agreement": {"keeps": alien * 2}}, ["foreign_entry"]),
        ("unknown_kind", slot, {"later": {"other": visit}}, ["foreign_entry"]), ("remark", slot, {"remark": {"text": "a"}}, ["foreign_entry"]),
    ]:
        yield "besides/" + name, {"odd.body": lambda v, w=where, s=says: {**v, "about": b"v" + other, "slot": w, "says": s}}, said
    of = lambda called, about: {called + ".body": lambda v: {**v, "about": about}}
    opened = lambda says: {"first.body": lambda v: {**v, "says": says}}
    yield "besides/another_site", of("place", b"s" + other), ["foreign_entry"]
    yield "besides/site_of_a_roster", of("place", b"r" + handmade.ORGANISATION), ["foreign_entry"]
    yield "besides/another_roster", of("person", b"r" + other), ["foreign_entry"]
    yield "besides/roster_of_a_site", of("person", b"s" + handmade.SITE), ["foreign_entry"]
    yield "besides/nothing_opened", opened({"remark": {"text": "begun"}}), ["foreign_entry"]
    yield "besides/opened_at_another_site", opened(handmade.opened(other)), ["foreign_entry"]
    yield "besides/opened_for_a_car_of_a_number", opened(handmade.opened(handmade.SITE, car=5)), ["foreign_entry"]
    yield "besides/opened_at_a_site_in_text", opened(handmade.opened(handmade.SITE.hex())), ["foreign_entry"]
    for name, said in [("receiver", ["foreign_entry"]), ("procedure", ["foreign_entry"])]:
        whole = handmade.opened(handmade.SITE)["opened"]
        yield f"besides/opened_without_{name}", opened({"opened": {n: w for n, w in whole.items() if n != name}}), said
        yield f"besides/opened_with_{name}_null", opened(handmade.opened(handmade.SITE, **{name: None})), said
    yield "besides/opened_for_a_truck", opened(handmade.opened(handmade.SITE, receiver="truck")), []
    yield "besides/opened_for_an_unknown_receiver", opened(handmade.opened(handmade.SITE, receiver="ship")), ["foreign_entry"]
    yield "besides/opened_by_a_short_procedure", opened(handmade.opened(handmade.SITE, procedure=bytes(31))), ["foreign_entry"]
    yield "besides/opened_twice", {"odd.body": lambda v: {**v, "says": handmade.opened(other)}}, []
    yield "besides/opened_with_more", opened(handmade.opened(handmade.SITE, more=[1])), []
    yield "besides/two_visits_joined_by_what_was_taken_back", {"second.body": lambda v: {**v, "says": {"joined": {"other": other}}},
                                                               "entries.map": lambda v: {**v, "stay": [visit, other]}}, ["altered_seal"]
    for name, about, says in [("by_nobody", visit, {"remark": {"text": "a"}}), ("by_itself", visit, {"joined": {"other": visit}}),
                              ("by_one", visit, {"joined": {"other": other}}), ("by_the_other", other, {"joined": {"other": visit}}),
                              ("by_what_is_not", visit, {"not_joined": {"other": other}}), ("with_a_third", visit, {"joined": {"other": alien}})]:
        yield "besides/two_visits_joined_" + name, {"odd.body": lambda v, a=about, s=says: {**v, "about": b"v" + a, "says": s},
                                                    "entries.map": lambda v: {**v, "stay": [visit, other]}}, ["altered_seal"]

def log_cases():
    def log(change):
        return {"log.map": lambda v: {**v, **change(v)}}
    item = lambda v: v["heads"][0]
    yield "log/heads_empty", log(lambda v: {"heads": []}), ["unreadable_attachment"]
    yield "log/seen_empty", log(lambda v: {"seen": []}), ["unreadable_attachment"]
    yield "log/photos_elsewhere_empty", log(lambda v: {"photos_elsewhere": []}), ["unreadable_attachment"]
    yield "log/photos_elsewhere", log(lambda v: {"photos_elsewhere": [[bytes(32), 2]]}), []
    yield "log/photos_elsewhere_of_three", log(lambda v: {"photos_elsewhere": [[bytes(32), 2, 3]]}), ["unreadable_attachment"]
    yield "log/photos_elsewhere_as_maps", log(lambda v: {"photos_elsewhere": [{"photo": bytes(32)}]}), ["unreadable_attachment"]
    yield "log/heads_item_twice", log(lambda v: {"heads": v["heads"] * 2}), []
    yield "log/heads_item_and_a_wrong_one", log(lambda v: {"heads": v["heads"] + [{**item(v), "count": 9}]}), ["other_head"]
    yield "log/heads_wrong_one_and_the_item", log(lambda v: {"heads": [{**item(v), "count": 9}] + v["heads"]}), ["other_head"]
    yield "log/heads_of_a_strange_visit", log(lambda v: {"heads": v["heads"] + [{**item(v), "about": b"v" + bytes(16)}]}), []
    yield "log/heads_count_largest", log(lambda v: {"heads": [{**item(v), "count": (1 << 64) - 1}]}), ["other_head"]
    yield "log/heads_path_of_256", log(lambda v: {"heads": [{**item(v), "path": [bytes(32)] * 256}]}), ["other_head"]
    yield "log/heads_path_of_257", log(lambda v: {"heads": [{**item(v), "path": [bytes(32)] * 257}]}), ["other_head"]
    yield "log/heads_path_turned", log(lambda v: {"heads": [{**item(v), "path": item(v)["path"][::-1]}]}), ["other_head"]
    seen = lambda v, **more: {"seen": [{**v["seen"][0], **more}]}
    yield "log/seen_of_none", log(lambda v: seen(v, size=0)), []
    yield "log/seen_with_another_leaf", log(lambda v: seen(v, last=v["leaves"][0])), []
    yield "log/seen_with_another_time", log(lambda v: seen(v, last={**v["seen"][0]["last"], "received_at": 5})), []
    yield "log/seen_without_a_proof", log(lambda v: seen(v, path=[])), []
    yield "log/seen_larger_than_the_log", log(lambda v: seen(v, size=1 << 60)), []
    yield "log/seen_with_more", log(lambda v: seen(v, more=1)), ["unreadable_attachment"]
    yield "log/leaf_number_largest", log(lambda v: {"leaves": v["leaves"][:-1] + [{**v["leaves"][-1], "number": (1 << 64) - 1}]}), ["unlogged_entry"]
    yield "log/leaf_about_an_unknown_letter", log(lambda v: {"leaves": v["leaves"][:-1] + [{**v["leaves"][-1], "about": b"z" + bytes(16)}]}), ["unreadable_attachment"]
    yield "log/seen_leaf_about_an_unknown_letter", log(lambda v: seen(v, last={**v["seen"][0]["last"], "about": b"z" + bytes(16)})), ["unreadable_attachment"]
    yield "log/heads_of_an_unknown_letter", log(lambda v: {"heads": v["heads"] + [{**item(v), "about": b"z" + bytes(16)}]}), ["unreadable_attachment"]
    yield "log/leaf_twice", log(lambda v: {"leaves": v["leaves"] + v["leaves"][-1:]}), ["log_order"]
    yield "log/leaf_path_longer", log(lambda v: {"leaves": v["leaves"][:-1] + [{**v["leaves"][-1], "path": v["leaves"][-1]["path"] + [bytes(32)]}]}), ["unlogged_entry"]
    yield "log/no_checkpoint", log(lambda v: {"checkpoints": [], "consistency": []}), ["forged_checkpoint"]
    yield "log/one_checkpoint", log(lambda v: {"checkpoints": v["checkpoints"][1:], "consistency": []}), []
    yield "log/one_checkpoint_and_a_proof", log(lambda v: {"checkpoints": v["checkpoints"][1:]}), []
    yield "log/proof_missing", log(lambda v: {"consistency": []}), ["log_fork"]
    yield "log/proof_longer", log(lambda v: {"consistency": [v["consistency"][0] + [bytes(32)]]}), ["log_fork"]
    yield "log/proof_too_many", log(lambda v: {"consistency": v["consistency"] * 2}), []
    yield "log/checkpoint_twice", log(lambda v: {"checkpoints": v["checkpoints"] + v["checkpoints"][1:], "consistency": v["consistency"] + [[]]}), []
    yield "log/checkpoint_twice_and_a_proof", log(lambda v: {"checkpoints": v["checkpoints"] + v["checkpoints"][1:], "consistency": v["consistency"] * 2}), []
    for name, more, tokens, said in [("checkpoints_as_many_as_may_be", 14, 0, []), ("checkpoints_one_too_many", 15, 0, ["unreadable_attachment"]),
                                     ("tokens_as_many_as_may_be", 0, 64, ["forged_time_stamp"]), ("tokens_one_too_many", 0, 65, ["unreadable_attachment"])]:
        yield "log/" + name, log(lambda v, n=more, t=tokens: {"checkpoints": v["checkpoints"] + v["checkpoints"][1:] * n,
                                                              "consistency": v["consistency"] + [[]] * n,
                                                              "tokens": [{"size": 1, "token": b"x"}] * t}), said
    yield "log/checkpoints_fall", log(lambda v: {"checkpoints": v["checkpoints"][::-1]}), ["log_fork", "unlogged_entry", "other_head"]
    run = lambda missing: log(lambda v: {"chains": [{**v["chains"][0], "elsewhere": [], "missing": missing}]})
    yield "log/run_of_missing", run([[3, 3]]), []
    yield "log/run_backwards", run([[3, 2]]), ["removed_entry"]
    yield "log/run_of_all", run([[0, (1 << 64) - 1]]), []
    yield "log/run_of_one_number", run([[3]]), ["unreadable_attachment"]
    yield "log/run_of_three_numbers", run([[3, 3, 3]]), ["unreadable_attachment"]
    yield "log/run_as_a_map", run([{"first": 3, "last": 3}]), ["unreadable_attachment"]
    yield "log/no_chain", log(lambda v: {"chains": []}), ["removed_entry"]
    yield "log/chain_twice", log(lambda v: {"chains": v["chains"] * 2}), []
    yield "log/token_of_text", log(lambda v: {"tokens": [{"size": 10, "token": "x"}]}), ["unreadable_attachment"]
    yield "log/token_of_nothing", log(lambda v: {"tokens": [{"size": 10, "token": b""}]}), ["forged_time_stamp"]


def seal_and_receipt_cases():
    yield "seal/fold_one_less_null", {"seal.map": lambda v: {**v, "fold": None}}, ["altered_seal"]
    yield "seal/another_format", {"seal.map": lambda v: {**v, "format": "farsiding packet 2"}}, ["altered_seal"]
    yield "seal/no_stay", {"seal.map": lambda v: {**v, "stay": []}}, ["altered_seal"]
    yield "seal/another_stay", {"seal.map": lambda v: {**v, "stay": [bytes(16)]}}, ["altered_seal"]
    yield "seal/another_root", {"seal.map": lambda v: {**v, "entries": {**v["entries"], "root": bytes(32)}}}, ["altered_seal"]
    yield "seal/fewer_entries", {"seal.map": lambda v: {**v, "entries": {**v["entries"], "count": 1}}}, ["altered_seal"]
    yield "seal/more_entries", {"seal.map": lambda v: {**v, "entries": {**v["entries"], "count": 99}}}, ["removed_entry", "altered_seal"]
    yield "seal/attachment_twice", {"seal.map": lambda v: {**v, "attachments": v["attachments"] + v["attachments"][:1]}}, ["removed_attachment"]
    yield "seal/attachment_more", {"seal.map": lambda v: {**v, "attachments": [{**v["attachments"][0], "more": 1}]}}, ["altered_seal"]
    yield "seal/attachments_turned", {"seal.map": lambda v: {**v, "attachments": v["attachments"][::-1]}}, []
    yield "seal/lists_itself", {"seal.map": lambda v: {**v, "attachments": v["attachments"] + [{"name": "seal.cbor", "sha256": bytes(32), "length": 1}]}}, ["removed_attachment"]
    yield "seal/another_time", {"seal.map": lambda v: {**v, "at": v["at"] + 1}}, ["altered_seal"]
    yield "seal/of_fold_two", {"seal.map": lambda v: {**v, "fold": 2}}, []
    yield "seal/of_fold_one", {"seal.map": lambda v: {k: w for k, w in v.items() if k != "fold"}}, []
    yield "seal/of_fold_three", {"seal.map": lambda v: {**v, "fold": 3}}, []
    yield "files/no_view", {"files": lambda f: {k: w for k, w in f.items() if k != "view.json"}}, ["unreadable_attachment"]
    yield "files/no_format", {"files": lambda f: {k: w for k, w in f.items() if k != "FORMAT.txt"}}, []
    yield "seal/fold_zero", {"seal.map": lambda v: {**v, "fold": 0}}, []
    yield "seal/fold_largest", {"seal.map": lambda v: {**v, "fold": (1 << 64) - 1}}, []
    yield "seal/other_length_of_a_photograph", {"seal.map": lambda v: {**v, "attachments": [{**one, "length": 1} for one in v["attachments"]]}}, ["altered_attachment"]
    receipt = lambda change: {"receipt.map": lambda v: {**v, **change(v)}}
    yield "receipt/of_none", {"receipt.map": lambda v: {**v, "entries": []}, "head.payload": lambda raw: raw}, ["forged_receipt"]
    yield "receipt/one_twice", receipt(lambda v: {"entries": v["entries"] + v["entries"][:1]}), ["forged_receipt"]
    yield "receipt/turned", receipt(lambda v: {"entries": v["entries"][::-1]}), ["forged_receipt"]
    yield "receipt/more_beside", receipt(lambda v: {"more": 1}), ["forged_receipt"]
    import cbor2

    def told(change):
        def at(raw):
            value = cbor2.loads(raw)
            change(value)
            return pack(value)
        return {"head.payload": at}
    yield "receipt/r_for_d", told(lambda v: v.update(r=v.pop("d"))), []
    yield "receipt/r_null_beside_d", told(lambda v: v.update(r=None)), []
    yield "receipt/r_another_beside_d", told(lambda v: v.update(r=bytes(32))), []
    yield "receipt/r_short_beside_d", told(lambda v: v.update(r=bytes(31))), ["forged_receipt"]
    yield "receipt/d_as_text", told(lambda v: v.update(d=v["d"].hex())), ["forged_receipt"]
    yield "receipt/neither", told(lambda v: v.pop("d")), ["forged_receipt"]
    yield "receipt/no_time", told(lambda v: v.pop("t")), ["forged_receipt"]
    yield "receipt/time_as_a_float", told(lambda v: v.update(t=float(v["t"]))), ["forged_receipt"]
    yield "receipt/time_too_large", told(lambda v: v.update(t=1 << 63)), ["forged_receipt"]
    for name in "qsnc":
        yield f"receipt/without_{name}", told(lambda v, n=name: v.pop(n)), ["forged_receipt"]
        yield f"receipt/another_{name}", told(lambda v, n=name: v.update({n: "x"})), ["forged_receipt"]
    none = sha256(b"")
    yield "receipt/of_none_that_holds", {"receipt.map": lambda v: {**v, "entries": []}, **told(lambda v: v.update(d=none))}, ["forged_receipt"]
    body = lambda **more: {"certificate.body": lambda v: {**v, **more}}
    yield "certificate/of_another_organisation", body(organisation=bytes(16)), []
    yield "certificate/no_sites", body(sites=[]), []
    yield "certificate/no_rights", body(rights=[]), []
    yield "certificate/right_twice", body(rights=["record", "record"]), []
    yield "certificate/last_not_revoked", {"certificate.body": lambda v: {k: w for k, w in v.items() if k != "revoked_at"}}, ["forged_device"]
    yield "certificate/revoked_without_last", {"certificate.body": lambda v: {k: w for k, w in v.items() if k != "last"}}, []
    yield "certificate/last_null_not_revoked", {"certificate.body": lambda v: {**{k: w for k, w in v.items() if k != "revoked_at"}, "last": None}}, []
    yield "certificate/issuer_null", {"certificate.body": lambda v: {**v, "issuer": None}}, ["forged_device"]
    yield "certificate/role_unknown", body(role="king"), ["forged_device"]
    yield "certificate/earlier_empty", body(earlier=[]), []
    yield "certificate/earlier_role_unknown", body(earlier=[{"role": "king", "last": {"seq": 1, "entry": bytes(32)}}]), ["forged_device"]
    yield "certificate/earlier_with_more", body(earlier=[{"role": "office", "last": {"seq": 1, "entry": bytes(32), "x": 1}, "more": 1}]), []
    yield "certificate/earlier_out_of_order", body(earlier=[{"role": "office", "last": {"seq": n, "entry": bytes(32)}} for n in (5, 1)]), []
    yield "certificate/valid_until_before_issued", body(valid_until=0), []
    yield "certificate/same_twice", {"certificates.map": lambda v: {"certificates": v["certificates"] * 2}}, []
    yield "certificate/none", {"certificates.map": lambda v: {"certificates": []}}, []
    yield "certificate/one_empty", {"certificates.map": lambda v: {"certificates": v["certificates"] + [b""]}}, ["forged_device"]
    yield "entries/one_empty", {"entries.map": lambda v: {**v, "car": v["car"] + [b""]}}, ["altered_entry", "altered_seal"]
    yield "entries/one_twice", {"entries.map": lambda v: {**v, "car": v["car"] * 2}}, ["reordered_entries", "altered_seal"]
    yield "entries/no_stay", {"entries.map": lambda v: {**v, "stay": []}}, ["foreign_entry", "altered_seal"]
    yield "entries/stay_twice", {"entries.map": lambda v: {**v, "stay": v["stay"] * 2}}, ["altered_seal"]
    yield "entries/another_format", {"entries.map": lambda v: {**v, "format": "farsiding packet 2"}}, ["unreadable_attachment"]
    yield "records/several_unreadable", {"log.cbor": lambda raw: b"", "receipts.cbor": lambda raw: b""}, ["unreadable_attachment"]
    yield "records/receipts_and_an_entry", {"receipts.cbor": lambda raw: b"", "odd": lambda raw: b""}, ["unreadable_attachment"]
