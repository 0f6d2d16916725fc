### The packet: the words of its pages, and of its first page's facts.

## Pieces

packet-parts = { $parts }
packet-page = page { $page } of { $pages }
packet-title = Evidence packet, car { $car }
packet-title-not-known = Evidence packet, car not known
packet-subject = The record of a tank car's stay at a siding, with its proof attached
packet-author = Organization with the public key { $key }
packet-kind = Evidence packet: the record of a tank car's stay
packet-car = Car { $car }
packet-car-not-known = Car not known
packet-proved = What is proved, by whom, and what rests on the organization's word alone
packet-cited = { $text } ({ $numbers })
packet-number = No. { $number }
packet-numbers = No. { $numbers }
packet-numbers-more = No. { $numbers } and { $more } more
packet-other-record = of another record
packet-and-more = { $named }; and { $more } more
packet-not-in-log = not in the log
packet-by = { $who }, on { $device }, { $entry }
packet-by-known = { $who }, on { $device }, { $known }, { $entry }
packet-by-short = { $who }, { $at } ({ $known })
packet-by-disputed = { $by } – DISPUTED, see Disagreements
packet-is-disputed = { $text }, DISPUTED
packet-disputed = DISPUTED
packet-plus-minus = ± { $value }
packet-amount-typed = { $amount } (typed "{ $typed }")
packet-reason = Reason given: { $why }
packet-reason-given = reason given: { $why }
packet-no-reason = no reason was given
packet-fate-because = { $fate }: { $why }
packet-not-recorded = not recorded
packet-not-recorded-strong = NOT RECORDED
packet-none-recorded = none recorded
packet-not-known = not known
packet-no-number = no readable number
packet-document = Document { $document }

## The first page: notices. FORMAT.md lists their digests: they change with the layout alone.

packet-notice-what = This is what people recorded while a pressure tank car stood at a siding. The organization named below keeps the record and sealed this file.
packet-notice-not = It does not prove that a scene was as claimed, that a photograph shows the car it is said to show, or that a time claimed by a device is true. Those are the words of whoever made the entry. No file can show what the organization left out of its record.
packet-notice-never = Farsiding records and computes. It never declares a car safe, empty or fit to move. Local codes, the owner's instructions and licensed practice come first.

## The first page: labels. They stand at the beginning of a row.

packet-label-organisation = Organization
packet-label-car = Car
packet-label-site = Site
packet-label-product = Product
packet-label-procedure = Procedure
packet-label-dates = Dates
packet-label-people = People
packet-label-seals = Seals
packet-label-pressure = Final pressure
packet-label-gallons = Gallons, computed
packet-label-alarms = ALARMS
packet-label-holds = Holds
packet-label-overrides = OVERRIDES
packet-label-missing = Missing
packet-label-differ = Disagreements
packet-label-release = Release
packet-label-aside = Not counted
packet-label-device = Device's signature
packet-label-person = Person
packet-label-log = Log
packet-label-receipts = Receipts
packet-label-times = Times
packet-label-witness = Witness
packet-label-whole = Completeness

## The first page: facts

packet-organisation-named = { $name }, as recorded for the site; { $key }
packet-public-key = public key { $key }
packet-car-typed = { $car } (typed { $typed })
packet-car-again-same = read again as { $typed } ({ $read }), the same
packet-car-again-other = read again as { $typed } ({ $read }), ANOTHER NUMBER
packet-site = { $place }; times are shown in { $zone } and in UTC
packet-site-not-known = not known
packet-procedure-named = { $title }; SHA-256 of its text { $digest }
packet-procedure-not-held = its text is not held here; SHA-256 { $digest }
packet-into-tank = unloaded into a fixed tank
packet-into-trucks = unloaded into trucks
packet-into-unknown = what it was unloaded into is not recorded
packet-no-paper = no shipping paper is recorded
packet-paper-number = paper { $number }
packet-paper-from = from { $shipper }
packet-paper-billed = billed { $amount }
packet-paper-compared = read by the office from { $file }, line { $line }, and compared with the paper in hand
packet-placed = placed { $at }
packet-pulled = pulled { $at }
packet-first-entry = first entry { $at }
packet-last-entry = last { $at }
packet-last-received = last entry received { $at }
packet-person =
    { $name }, { $count ->
         [one] { $count } entry
        *[other] { $count } entries
    }
packet-name-removed = { $code } (name removed at the office)
packet-person-code =
    { $name } ({ $code }), { $count ->
         [one] { $count } entry
        *[other] { $count } entries
    }
packet-seal-event = { $event } { $number }
packet-seal-event-broken = { $event } { $number }, NOT INTACT
packet-seal-at = { $place }: { $events }
packet-more-places =
    { $count ->
         [one] and one more place
        *[other] and { $count } more places
    }
packet-pressure = { $amount } { $worth } ({ $by })
packet-pressure-not-known = { $amount }, ± not known
packet-as-settled = { $text }, as settled
packet-named = { $what }: { $value }
packet-trucks-loaded = Loaded into trucks: { $value }
packet-no-gallons = nothing could be computed; see Values
packet-no-alarms = None pointed out by the program.
packet-counted = { $count }: { $named }
packet-none = None.
packet-holds-called = { $count } called: { $named }
packet-passed-over = { $count } passed over with a reason: { $named }
packet-hold-short-open = { $because } (NOT LIFTED)
packet-hold-short-lifted = { $because } (lifted: { $lifted })
packet-missing-nothing = Nothing that this record looks for, except what was passed over.
packet-none-open = None is open
packet-open-disagreements = { $count } NOT SETTLED
packet-differ = { $open }; settled or moved on: { $ended }. Entries corrected, withdrawn or settled otherwise: { $corrected }.
packet-not-released = Not released; stage: { $stage }
packet-released-see = Released, as entries say; see the entries
packet-released-residue = Released as residue by { $by }
packet-released-not-residue = Released not as residue by { $by }
packet-aside =
    { $count ->
         [one] { $count } entry is kept and does not count; its reason is under Corrections
        *[other] { $count } entries are kept and do not count; their reasons are under Corrections
    }

## The first page: whose word it is

packet-said-devices = Each of the stay's { $entries } entries is signed by the device it was made on. Devices with this organization's certificate: { $devices }. Who held a device is another question.
packet-said-people = Entries that count: { $people }.
packet-said-nobody = Entries that count: none.
packet-named-own-hand = { $count } signed with the person's own confirmed key
packet-named-held = { $count } made on a phone the person had signed to hold
packet-named-by-phone = { $count } in which the phone alone names the person
packet-named-not-confirmed = { $count } signed with a key nobody confirmed
packet-named-not-theirs = { $count } signed with a key that is not theirs
packet-said-no-checkpoint = No checkpoint of the log holds.
packet-said-log = The organization signed that its log had { $count } entries, each of these at its place. It cannot change or move them without contradicting that signature.
packet-said-no-receipts = None is attached.
packet-said-receipts = { $count } signed by the organization when devices synced. They cover { $entries } of the stay's entries.
packet-said-times-alone = A time “claimed” is a device's clock. A time “received” is the organization's clock and rests on its word alone: no time stamp of a third party is attached.
packet-said-times-stamped = A time “claimed” is a device's clock. A time “received” is the organization's clock. A third party's time stamp (RFC 3161) on the log is attached. Whoever trusts and checks it knows that the entries existed by then. Earlier times rest on the organization's word.
packet-said-no-witness = No witness signed the attached checkpoint of the log.
packet-said-witness = Others signed the checkpoint of the log too. Get their keys from them.
packet-said-gaps = Numbers are MISSING in a device's chain, see Devices.
packet-said-whole = All { $entries } entries that the log of { $count } entries held of this stay are attached: its checkpoint commits to their number. What never came to the log, and that there is one log only, rests on the organization's word.
packet-said-chains-whole = Between a device's first and last entry here none is missing. Whether other devices' entries, or later ones, were left out rests on the organization's word.
packet-said-not-whole = Whether more was left out rests on the organization's word.

## Headings

packet-heading-defects = 1  Defects and holds
packet-heading-disagreements = 2  Disagreements
packet-heading-corrections = 3  Corrections, and what does not count
packet-heading-not-counted = Entries that are kept and do not count
packet-heading-passed-over = 4  Before release: what was missing, what was passed over
packet-heading-passed = Passed over
packet-heading-findings = 5  What the program points out
packet-heading-fittings = 6  Fittings, closures and cover at the end of the record
packet-heading-readings = 7  Readings
packet-heading-received = Tanks, trucks, hoses, inspections
packet-told-by = { $text } ({ $by })
packet-heading-empty = Was the liquid out? What was recorded
packet-heading-seals = 8  Seals
packet-heading-photographs = 9  Photographs
packet-heading-check = 10  How to check this file
packet-annex-story = Annex A  Every entry of the stay, in time order
packet-annex-others = Annex B  What was known of car, site and people
packet-annex-series = Annex C  Series of readings
packet-annex-values = Annex D  Values computed from the record
packet-annex-devices = Annex E  Devices, their certificates and chains
packet-annex-receipts = Annex F  Receipts and log
packet-annex-files = Annex G  Attached files
packet-heading-responsible = Who was responsible
packet-heading-attendance = Times without a sign of attendance while a line was on

## Columns and rows. They stand at the top of a column or at the beginning of a row.

packet-column-number = No.
packet-column-of = Of the
packet-column-about = About
packet-column-who-device = Who, on what
packet-column-received = Received
packet-column-said = What was said
packet-column-by-when = By whom, when
packet-column-first = What was said first
packet-column-stands = What stands in its place, by whom
packet-column-reason = Reason given
packet-column-why-not = Why it does not count
packet-column-missing = Missing
packet-column-asked = Asked for by
packet-column-what = What
packet-column-reason-by = Reason given, by whom
packet-column-reading = Reading
packet-column-plus-minus = ±
packet-column-method = Instrument and method
packet-column-who-when = Who, when
packet-column-who = Who
packet-column-claimed = Claimed
packet-column-when = When
packet-column-value = Value
packet-column-result = Result
packet-column-formula = Formula and version
packet-column-source = Source
packet-column-fitting = Fitting
packet-column-valve = Valve
packet-column-closure = Plug, cap or cover
packet-column-besides = Besides
packet-column-where = Where
packet-column-found = Found on arrival
packet-column-at-end = At the end
packet-column-device = Device
packet-column-key = Public key (Ed25519)
packet-column-standing = Standing
packet-column-clock = Entries, clock
packet-column-signed-at = Signed at
packet-column-covered = Entries covered
packet-column-digest = Its SHA-256 begins
packet-column-file = Attached file
packet-column-bytes = Bytes
packet-column-file-what = What it is
packet-column-recorded = What was recorded
packet-row-noted = Noted
packet-row-movement = Movement
packet-row-reported = Reported
packet-row-authority = Authority
packet-row-put-right = Put right
packet-row-photograph = Photograph
packet-row-checkpoint = Checkpoint
packet-row-log = Log
packet-row-places = Places

## Defects, holds, disagreements, corrections

packet-no-defects = No defect and no hold is recorded.
packet-defect = Defect: { $what }
packet-defect-at = Defect ({ $fitting }): { $what }
packet-defect-earlier = Defect: { $what } (noted at an earlier stay, visit { $visit })
packet-defect-at-earlier = Defect ({ $fitting }): { $what } (noted at an earlier stay, visit { $visit })
packet-noted-received = { $by }; received { $received }
packet-needs-authority = said to need an authority's approval (49 CFR 174.50)
packet-reported = to { $to } ({ $how }); { $by }
packet-authority = { $by }, reference { $reference }
packet-authority-spoken = spoken { $at }
packet-authority-written = in writing { $at }
packet-authority-due = due in writing by { $due }
packet-authority-overdue = due in writing by { $due } (OVERDUE)
packet-put-right = { $how }; { $by }
packet-not-put-right = not recorded: OPEN
packet-photograph-elsewhere = named, of another stay
packet-hold-open = HOLD: { $because } ({ $by }). NOT LIFTED
packet-next-time = For the next visit: { $what } ({ $by })
packet-hold-lifted = HOLD: { $because } ({ $by }). Lifted: { $lifted } ({ $lifter })
packet-agreed-on = AGREED ON: { $sentence }
packet-no-disagreements = No two entries made apart say different things.
packet-disagreements-what = Two entries disagree when neither names the other as known and they differ. Both are kept. What a settlement agreed on stands.
packet-not-settled = NOT SETTLED: { $about }
packet-settled = Settled: { $about }
packet-moved-on = Moved on: { $about }
packet-reopened = It had been settled. The settlement was taken back by { $by } (reason given: { $why }).
packet-settled-by = Settled by { $by }: { $what } ({ $why })
packet-later-by = A later entry took its place, by { $by }: { $what } ({ $why })
packet-no-corrections = No entry was corrected or withdrawn.
packet-not-counted-what = They came to the office and are attached like all others, but whoever made them could not say this here. They are part of no state, no measurement and no list in this document.
packet-nothing-missing = Nothing that this record looks for is missing, or all of it was passed over with a reason.
packet-asked-by = { $basis }: { $source }
packet-does-not-stand = Does not stand: { $why }.
packet-nothing-found = Nothing.
packet-finding-alarm = ALARM: { $what }
packet-finding-check = Check: { $what }
packet-checked = Checked, { $what }: { $result } ({ $by })
packet-check-right = right
packet-check-wrong = NOT right
packet-unrecognised =
    { $count ->
         [one] { $count } entry is of a kind this version does not know. It is attached whole.
        *[other] { $count } entries are of a kind this version does not know. They are attached whole.
    }

## The state at the end

packet-plan-in-words = A plan of the fittings under the housing as last recorded. The table below says the same in words.
packet-plan-caption = The openings under the housing as last recorded, seen from above with the car lengthwise from left to right. The places are a usual arrangement (common practice, no source), not this car's drawing. Solid: closure tool-tight. Half: hand-tight. Empty: open. Question mark: not recorded. A bar through the stem: valve shut.
packet-plan-above = seen from above
packet-plan-valve = valve { $state }
packet-plan-valve-not-recorded = valve not recorded
packet-plan-closure = closure { $state }
packet-plan-closure-not-recorded = closure not recorded
packet-plan-cover-not-recorded = cover not recorded
packet-plan-seal = seal { $number }: { $place }
packet-cover-closed-pin-in = cover closed, pin in
packet-cover-closed-pin-out = cover closed, pin OUT
packet-cover-open-pin-in = cover OPEN, pin in
packet-cover-open-pin-out = cover OPEN, pin OUT
packet-bolts = { $here } of { $count } bolts in place
packet-has-none = has none
packet-heard = heard: { $heard }
packet-heard-since-shut = heard after it was shut: { $heard }
packet-engaged = { $threads } engaged
packet-line-on = LINE ON
packet-line-on-hose = LINE ON, hose { $hose }
packet-line-off = line off
packet-line-off-hose = line off, hose { $hose }
packet-effort = effort { $amount } ({ $at })
packet-cover = Housing: { $state }; { $by }.
packet-no-cover = The housing cover was not recorded.
packet-protection-set = { $what }: set; { $by }
packet-protection-away = { $what }: taken away; { $by }
packet-tally-none = Tally: nothing that was taken out is recorded as still out.
packet-still-out = STILL OUT: { $item }
packet-still-out-by = STILL OUT: { $item }, taken out by { $by }

## Seals and photographs

packet-seals-what = A seal found intact under its recorded number speaks against anybody having opened what it closes. It never replaces a check of the closures (common practice, no source).
packet-no-seals = No seal was recorded.
packet-kind-not-said = kind not said
packet-seal = { $number } ({ $kind }) { $event }
packet-seal-whole = intact
packet-seal-not-whole = NOT INTACT
packet-seal-lacks = lacks { $what }
packet-see-photograph = photograph { $numbers }
packet-no-photographs = No photograph is named in the record.
packet-photographs-what = As the office received them, byte for byte. The name of each attached file is the SHA-256 of its bytes, which the entry signs. What a photograph shows, and when it was taken, is the word of whoever made the entry.
packet-shows-about = { $what } ({ $about })
packet-attached-as = attached as { $name }
packet-not-at-office = NOT AT THE OFFICE when this was made; its SHA-256 is { $digest }
packet-photograph = Photograph { $number }, said to show: { $what }. { $by }; received { $received }. { $bytes } bytes, { $media }; { $place }
packet-picture-not-shown = not shown here, see the caption

## Readings and values

packet-no-instrument = instrument not named
packet-unknown-instrument = { $name } (not in the site's list)
packet-calibration-due = calibration due { $due }
packet-before = before
packet-no-readings = No single readings were recorded.
packet-readings-what = ± is half the width of the 95 % interval (JCGM 100) that the instrument leaves, by what is named beside it. A value in brackets no longer stands. Series of readings are in annex C.
packet-a-series = { $title }, a series
packet-chart-caption = { $title }, { $unit }, over time. Points are readings, bars their ±. The line only joins them.
packet-chart-in-words = A chart of { $title }. The table below has the same figures.
packet-chart-left = { $day }; { $left } of { $count } readings are of another time and not drawn
packet-all-on = All of them on { $how }; { $worth }.
packet-sign-yes = { $sign }: yes ({ $by })
packet-sign-yes-liquid = { $sign }: yes – speaks for liquid ({ $by })
packet-sign-no = { $sign }: no ({ $by })
packet-sign-no-liquid = { $sign }: no – speaks for liquid ({ $by })
packet-weighed-liquid = Weighed by a model, which decides nothing: what was recorded indicates LIQUID. { $caution }
packet-weighed-no-liquid = Weighed by a model, which decides nothing: what was recorded indicates no liquid. { $caution }
packet-weighed-not-enough = Weighed by a model, which decides nothing: what was recorded is not enough to tell. { $caution }
packet-no-grounds = no grounds given
packet-taken-as-empty = Taken as empty of liquid: { $grounds } ({ $by })
packet-not-taken-as-empty = NOT taken as empty of liquid: { $grounds } ({ $by })
packet-annex-values-what = Nobody typed these. Each was made from the readings above by the formula named. ± is half the width of the 95 % interval (JCGM 100). Where something was missing, that is said instead of a number.
packet-nothing-computed = Nothing was computed.
packet-for-product = for { $product }
packet-largest = most of the ± comes from { $input }

## The story

packet-annex-story-what = “Claimed” is the device's own time. Where its clock was found two minutes off or more, the corrected time stands beneath. “Received” is when the office's log first held the entry. Entries that no longer stand are shown with what became of them, those that do not count with the reason. How a person is known stands with acts that bind and with what was signed by hand. No. is the entry's place among those of the stay in the order of receipt. It is cited throughout. Outside this column, times of entries are corrected by the difference found when the device met the office.
packet-corrected-time = corrected: { $time }
packet-clock-never-compared = clock never compared
packet-later-changed = later changed
packet-no-part = (no part of the record) { $what }
packet-no-longer = (no longer stands) { $what }
packet-handover = { $from } handed over to { $to }, { $at }
packet-handover-one-sided = { $from } handed over to { $to }, { $at } (signed by one side only)
packet-gap = { $when } ({ $minutes } min)
packet-gap-away = somebody had written that they left
packet-gap-shut = every valve with a line recorded shut
packet-of-car = car
packet-of-site = site
packet-of-people = people
packet-annex-others-what = These entries are of other records. What counts of them went into this one. They are attached whole.

## Proofs

packet-certified = certified { $at }
packet-for-sites =
    { $count ->
         [one] for { $count } site
        *[other] for { $count } sites
    }
packet-until = until { $at }
packet-revoked = REVOKED { $at }: what came in after that is kept, its claimed time proves nothing
packet-not-certified = NOT CERTIFIED by the organization
packet-clock-never = never compared
packet-clock-against = { $seconds } s against the office's
packet-other-devices = Besides these, entries are attached of which none counts (section 3), signed with { $keys }.
packet-chains-whole = Every device numbers its entries and names in each the one before it. Between the first and the last entry of this stay no number is missing on any device. Entries of other records in between are listed by their digests.
packet-chain-elsewhere =
    { $count ->
         [one] { $count } entry of another record stands between those here. Only its digest is attached.
        *[other] { $count } entries of other records stand between those here. Only their digests are attached.
    }
packet-no-receipts = The office keeps no receipt that covers these entries. The log below says when it received each.
packet-receipts-what = The office signed these receipts when devices brought their entries:
packet-receipt-covers = { $here } of this packet, { $all } in all
packet-log-what = The office enters what it receives in one append-only log (a Merkle tree, RFC 9162). A checkpoint is its signed word on how long the log is and what stands in it. Whoever holds another checkpoint can check whether both can be of one log.
packet-checkpoint = { $count } entries, root { $root }
packet-checkpoint-stamped = time-stamped by a third party (RFC 3161), token attached
packet-checkpoint-witnessed = signed also by { $others }
packet-places = { $first } to { $last }, received { $from } to { $until }
packet-check-proof = The pages are for reading. The proof is attached inside this PDF. With the file and the organization's public key (from a source other than this file) anybody can check it without asking the organization:
packet-check-how = or with a program of your own: { $description } describes every byte. The checks: each entry in { $entries } has the signature of its device. Each device whose entries count holds a certificate of the organization. The log holds each entry at its place and time. Nothing is missing between a device's first and last entry. Each photograph is byte for byte the one signed for. { $seal } is the organization's signature over this whole file. The pages, drawn again from what is attached, are these. So not even whoever holds the organization's key can print something else unseen. A program that does not draw them again compares the first page with the entries by { $front } and says so.
packet-check-not = The file alone cannot show whether the organization withheld other records or ran its clock wrong. A checkpoint kept by somebody else, or a third party's time stamp, narrows that down.
packet-check-characters = A character that the typefaces of this document cannot show is written as { $form } with its Unicode number. The attached entries hold it as it was typed.

## What each attached file is

packet-file-entries = the signed entries, byte for byte
packet-file-certificates = the devices' certificates
packet-file-receipts = the office's receipts
packet-file-keys = what the root said of the organization's keys
packet-file-names = names of people, with the salts that prove them
packet-file-log = places in the log, checkpoints, chains
packet-file-view = the folded record, for programs
packet-file-last-entry = the last entry's place in the log, as C2SP tlog-proof
packet-file-description = description of this format, how to check
packet-file-procedure = the procedure of the stay, SHA-256 { $digest }
packet-file-procedure-words = the sentences of the procedure in this language, SHA-256 { $digest }
packet-file-front = the first page's facts and their entries, for programs
packet-file-pages = the text of every page
packet-file-seal = the organization's seal on this file
packet-file-photograph = photograph, byte for byte
