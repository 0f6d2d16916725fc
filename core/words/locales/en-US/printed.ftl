### A visit as plain text, for a terminal or a printer.

## Pieces

printed-parts = { $parts }
printed-said = { $what } — { $by }
printed-by = { $who }, on { $device }
printed-by-unsent = { $who }, on { $device } · unsent
printed-settled-by = { $kept }; settled by { $by }
printed-because = { $what } ({ $why })
printed-disputed = { $what } — DISPUTED
printed-also =
    { $count ->
        [one] { $what } (one more says so)
       *[other] { $what } ({ $count } more say so)
    }
printed-named = { $what }: { $value }
printed-about = { $about }:
printed-why = because: { $why }

## Head

printed-car-not-known = car not known
printed-into-tank = into a fixed tank
printed-into-trucks = into trucks
printed-product = { $product } (from the paper)
printed-procedure = By: { $title }
printed-procedure-stand-in = By: { $title }, shown in place of one not known here
printed-times = Times in { $zone }. Since { $since }. { $entries } entries, { $unsent } not yet at the office.
printed-local-rules = First of all: { $rules }
printed-joined = Joined with visit { $visit }.

## Where it stands

printed-heading-state = Where it stands
printed-hold = HOLD: { $because }
printed-goes = Goes { $load }: { $because }
printed-released-residue = Released as residue
printed-released-not-residue = Released not as residue
printed-stage = Stage: { $stage }
printed-progress = { $stage } { $closed }
printed-tally-none = Tally: nothing is out.
printed-out = OUT: { $item }
printed-offer = { $says } (visit { $visit })

## Disagreements

printed-heading-disagreements = Disagreements
printed-heading-ended = Disagreements that ended
printed-settled = settled: { $says }
printed-moved-on = moved on: { $says }

## What comes next

printed-heading-next = Next
printed-heading-again = Asked again, since the car was left or moved
printed-heading-left-behind = Left behind in earlier stages
printed-step = { $title } [{ $id }] — { $status }
printed-step-why = Why: { $why } ({ $asked_by }: { $source })
printed-caution = CAUTION: { $caution }

## The gates

printed-signed-by = signed by { $by }
printed-not-signed = not signed
printed-missing = MISSING: { $what } [{ $code }]
printed-asked-by = asked for by { $asked_by }: { $source }
printed-there = there: { $what }
printed-nothing-missing = Nothing that this record looks for is missing, or all of it was overridden.
printed-still-open = still open: { $what }
printed-overridden = OVERRIDDEN: { $what }
printed-overridden-fallen = OVERRIDDEN: { $what } — does not stand: { $why }

## Notices

printed-heading-notices = Notices
printed-alarm = ALARM: { $what }
printed-check = Check: { $what }

## Fittings

printed-heading-fittings = Fittings
printed-fitting = { $fitting }: { $parts }
printed-valve = valve { $state }
printed-valve-not-recorded = valve not recorded
printed-closure = closure { $state }
printed-closure-not-recorded = closure not recorded
printed-heard-since-shut = { $state } after it was closed
printed-line-on = LINE ON
printed-line-on-hose = LINE ON (hose { $hose })
printed-line-off = line off
printed-line-off-hose = line off (hose { $hose })
printed-engaged = { $threads } engaged
printed-cover-closed-pin-in = housing cover: closed, pin in, { $here } of { $all } bolts in place
printed-cover-closed-pin-out = housing cover: closed, pin out, { $here } of { $all } bolts in place
printed-cover-open-pin-in = housing cover: open, pin in, { $here } of { $all } bolts in place
printed-cover-open-pin-out = housing cover: open, pin out, { $here } of { $all } bolts in place
printed-protections = protections: { $what }
printed-protection-set = { $what } set
printed-protection-away = { $what } away

## Readings and what was computed

printed-heading-readings = Readings
printed-reading = { $title }: { $amount }, on { $name }
printed-reading-no-instrument = { $title }: { $amount }, instrument not named
printed-nothing-stands = { $title }: nothing stands
printed-before = before
printed-point = { $at } { $amount }
printed-heading-computed = Computed from the record
printed-largest = most of the ± comes from { $input }
printed-heading-empty = Is the liquid out?
printed-yes = yes
printed-no = no
printed-speaks-for-liquid = { $says } — speaks for liquid
printed-weighed-liquid = weighed: what was recorded indicates LIQUID
printed-weighed-no-liquid = weighed: what was recorded indicates no liquid
printed-weighed-not-enough = weighed: what was recorded is not enough to tell
printed-next = next: { $step }
printed-not-weighed = not weighed: { $why }
printed-taken-as-empty = taken as empty: { $grounds }
printed-not-taken-as-empty = NOT taken as empty: { $grounds }
printed-heading-received = What received the cargo
printed-trucks-together = together { $total } as entered

## Seals, photographs, checks

printed-heading-seals = Seals
printed-seal-found = { $place } found: { $says }
printed-seal-now = { $place } now: { $says }
printed-no-number = no number
printed-kind-not-said = kind not said
printed-seal-whole = whole
printed-seal-not-whole = NOT whole
printed-heading-photographs = Photographs
printed-photograph = { $of } — { $bytes } bytes, { $digest }
printed-heading-checks = Checks and weather
printed-right = { $what }: right
printed-not-right = { $what }: NOT right

## Defects

printed-heading-defects = Defects
printed-earlier-visit = { $what } (earlier visit)
printed-forwarded = reported to { $to } ({ $how })
printed-answered = answered by { $by }, reference { $reference }
printed-due = { $says }, in writing due { $due }
printed-due-past = { $says }, in writing due { $due }, PAST
printed-needs-authority = moves only with an authority's approval: none recorded
printed-repaired = repaired: { $how }
printed-heading-carried = Left for the next visit

## People, devices, entries

printed-heading-people = People, devices, times
printed-gap = GAP: { $says }
printed-name-removed = { $name } (name removed at the office)
printed-entries =
    { $count ->
        [one] { $name }: { $count } entry
       *[other] { $name }: { $count } entries
    }
printed-responsible = { $says }, responsible now
printed-handover = handover { $from } to { $to }: signed by both
printed-handover-one-sided = handover { $from } to { $to }: signed by one side only
printed-heading-history = Everything, in order
printed-entry = { $at } { $name }: { $says }
printed-entry-binding = { $at } { $name }, { $named }: { $says }
printed-fate = { $says } [{ $fate }]
