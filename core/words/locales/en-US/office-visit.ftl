### The page of a visit: state, differing entries, open items, readings, event log, links, and what is done there.

office-visit-not-here = No such record here. What phones have not sent yet is not known here.
office-visit-car-unknown = Car not known
office-visit-car = The car
office-visit-receiver = into: { $receiver }
office-visit-product = { $product } (from the shipping paper)
office-visit-since =
    { $count ->
        [one] Since { $since }. { $count } entry. Times in { $zone }.
       *[other] Since { $since }. { $count } entries. Times in { $zone }.
    }
office-visit-joined = Several records of one stay, joined.
office-visit-procedure = Procedure: { $procedure }.
office-visit-refresh = Refresh
office-visit-packet = Packet
office-visit-by = { $name }, { $time }, on { $device }
office-visit-released-residue = Released as residue
office-visit-released-not-residue = Released, not as residue
office-visit-out = Not returned: { $items }
office-visit-hold = HOLD: { $because }
office-visit-next-time = From the last visit: { $what }
office-visit-see-other = See it
office-visit-differ = Two entries differ: { $about }
office-visit-received-at = received { $time }
office-visit-because = reason: { $why }
office-visit-reopened = Resolved earlier, then reopened
office-visit-why-stands = Why keep this entry
office-visit-settle-note = Both entries stay in the record. The office’s key signs your choice under your name, and it goes to the phones.
office-visit-settle = Keep this one
office-visit-notices = Notices
office-visit-alarm = Alarm:
office-visit-check = Check:
office-visit-fittings = Fittings
office-visit-fitting = Fitting
office-visit-valve = Valve
office-visit-closure = Closure
office-visit-heard = Listened
office-visit-line = Line
office-visit-entries-differ = (entries differ)
office-visit-not-recorded = not recorded
office-visit-engaged = Threads engaged: { $threads }
office-visit-after-shut = after the valve was closed
office-visit-line-on = connected
office-visit-line-off = disconnected
office-visit-cover = Housing cover
office-visit-cover-state =
    { $closed ->
        [yes] closed
       *[other] open
    }, { $pinned ->
        [yes] pin in
       *[other] pin out
    }, { $there } of { $wanted } bolts in place
office-visit-weather = Weather
office-visit-open-at-release = Open items at release
office-visit-open-items = Open items before release
office-visit-items =
    { $count ->
        [one] { $count } item
       *[other] { $count } items
    }
office-visit-asked-by = Required by { $who }: { $source }
office-visit-overridden = Overridden, with a reason
office-visit-fallen = no longer valid: { $why }
office-visit-seals = Seals
office-visit-seal = { $event }: { $number }
office-visit-not-intact = NOT intact
office-visit-lacks = missing: { $what }
office-visit-no-number = without a readable number
office-visit-photographs = Photographs
office-visit-photo-alt = Photograph: { $of }, { $name }, { $time }
office-visit-photo-to-come = Not received yet. The phone still has it.
office-visit-defects = Defects
office-visit-defect-authority = The car moves only with an approval.
office-visit-reported = Reported to { $to } ({ $how })
office-visit-answered = Approval by { $by }, reference { $reference }
office-visit-written-due = in writing by { $due }
office-visit-overdue = overdue
office-visit-repaired = Repaired: { $how }
office-visit-defect-open = open
office-visit-holds-over = Holds that were lifted
office-visit-lifted = lifted: { $because }
office-visit-ended = Entries that differed, and how that was resolved
office-visit-agreed = kept
office-visit-later = Later:
office-visit-devices = Devices and their entries
office-visit-device-entries =
    { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }
office-visit-device-clock = its clock: { $off }
office-visit-chains-whole = Each device numbers its entries over all records. None before the newest here is missing.
office-visit-log = Event log
office-visit-log-note = Claimed: by the device’s clock. If that clock was wrong when compared, the corrected time is shown below. Received: by this server’s clock.
office-visit-claimed = Claimed
office-visit-received = Received
office-visit-cargo = What received the cargo
office-visit-recorded = What was recorded
office-visit-who = Who, on what
office-visit-clock-about = its clock: { $off }; about { $time }
office-visit-why-kept = why it was kept: { $why }
office-visit-why-gone = why it is no longer current: { $why }
office-visit-inspector = Let an inspector read this record
office-visit-link-note = A link opens this one record and its packet to whoever has the link, until it expires.
office-visit-link-for = For whom
office-visit-link-days = For how many days
office-visit-link-make = Make a link
office-visit-link-right = Making a link needs the right to resolve differences. The links made so far are listed here.
office-visit-link-made = { $label }, made by { $by }
office-visit-link-revoked = revoked { $time }
office-visit-link-good = valid until { $time }
office-visit-link-expired = expired { $time }
office-visit-link-revoke = Revoke
office-visit-link-revoke-of = Revoke the link for { $label }
office-visit-looked = Who looked at this record
office-visit-nobody = Nobody before you.
office-visit-readings = Readings
office-visit-readings-note = As read, with the ± of the gauge by its grade where the site has recorded it
office-visit-reading = Reading
office-visit-value = Value
office-visit-instrument = Instrument
office-visit-who-when = Who and when
office-visit-disputed = entries differ
office-visit-no-instrument = instrument not named
office-visit-computed = Calculated from the record
office-visit-computed-label = Calculated quantities
office-visit-computed-note = ± is half the width of the 95% interval. Nothing here is stored: it is calculated from the entries each time.
office-visit-quantity = Quantity
office-visit-method = Method and source
office-visit-for-product = for { $product }
office-visit-largest = largest part of the ±: { $largest }
office-visit-reopen = Reopen
office-visit-reopen-why = Why reopen it
office-visit-reopen-note = The resolution stays in the record with your reason. The entries differ again.
office-visit-choose-settlement = Choose which resolution to reopen.
office-visit-reopen-reason = Enter why it is reopened, in up to 1000 characters. The record keeps the reason.
office-visit-no-record = There is no such record.
office-visit-no-settlement = There is no such resolution.
office-visit-choose-entry = Choose which entry to keep.
office-visit-settle-reason = Enter why to keep this entry, in up to 1000 characters. The record keeps the reason.
office-visit-changed = The record has changed since you looked: other entries came in, or the difference was resolved. Refresh before you choose.
office-visit-link-1-90 = A link is valid for 1 to 90 days.
office-visit-link-label = Enter for whom the link is, in up to 64 characters.
office-visit-link-title = A link
office-visit-link-title-for = A link for { $label }
office-visit-link-once = It opens one record and its packet until { $time }. It is shown only once and not kept here: copy it now.
office-visit-back = Back to the record
office-visit-no-photo = This photograph is not here.
office-visit-amount = { $amount }
office-visit-amount-within = { $amount } ± { $half_width } { $unit }
