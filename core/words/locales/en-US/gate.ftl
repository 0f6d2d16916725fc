### What is open before a car may be released, and what overrides it.

gate-note = Farsiding records what people did and said. It does not declare the car safe. Local codes, the owner’s instructions and licensed practice come first.
gate-code = { $kind } ({ $of })

## At a fitting

gate-line-connected = Line not recorded as disconnected ({ $fitting }). Disconnect it and record it.
gate-valve-open = Valve recorded open ({ $fitting }). Close it and record it.
gate-valve-not-recorded = Valve not recorded as closed ({ $fitting }). Close it and record it; a tight plug says nothing about the valve behind it.
gate-listen-missing = Nobody listened after the valve was last closed ({ $fitting }). Listen and record what you hear.
gate-leak-heard = Valve leaking by ({ $fitting }). Stop and find the cause.
gate-closure-not-recorded = Closure not recorded as tool-tight ({ $fitting }). Tighten it with a tool and record it.
gate-closure-hand-tight = Closure only hand-tight ({ $fitting }). Tighten it with a tool.
gate-closure-removed = Closure recorded as removed ({ $fitting }). Put it back and tighten it with a tool.
gate-closure-disputed = Entries differ on whether the closure is tool-tight ({ $fitting }). Check it, then keep one entry.
gate-threads = { $count } engaged ({ $fitting }); more than one full turn is needed. Missing: { $lacks }.
gate-threads-lacks-defect = a defect entry
gate-threads-lacks-photo = a photograph
gate-threads-lacks-report = a report to the owner or the office

## Of the whole car

gate-hold-open = The car is on hold: { $because }. Lift the hold first.
gate-incident-open = An incident is open: { $incident }. Make the car safe, make the calls, and close the incident first.
gate-leak-open = A leak is not checked tight: { $leak }. Repair it, check it again and record it.
gate-outcome-unexplained = The record does not say why the car goes this way ({ $because }). For bad order record the defect; else give the reason.
gate-protect-again = Not recorded as set again since the car was moved or left: { $protection }. Set it and record it.
gate-disagreement = Two entries differ: { $about }. Keep one, with a reason.
gate-authority-missing = “{ $defect }”: the car moves only with an approval. Record who gave it and when.
gate-not-opened = The entry that opened this record is not here, so the car is not known. Sync first.
gate-empty-not-decided = Nobody decided that the liquid is out. Weigh the signs and decide.
gate-empty-not-accepted = The liquid-out check was not accepted. Get the liquid out, then decide again.
gate-empty-contradicted = A sign of liquid was recorded after the decision ({ $sign }). Decide again.
gate-final-pressure-missing = Final pressure not read at the car. Read it on a low-range gauge.
gate-final-pressure-elsewhere = Final pressure read only here: { $places }. Read it at the car.
gate-final-pressure-without-gauge = The final pressure does not name its gauge. Name the gauge.
gate-final-pressure-not-a-number = The final pressure cannot be read as a number. Read and enter it again.
gate-item-out = Not returned: { $item }. Return it and record it.
gate-item-out-by = Not returned: { $item } (out: { $who }). Return it and record it.
gate-cover-not-recorded = Housing cover not recorded as closed. Close it and record it.
gate-cover-open = Housing cover recorded open. Close it and record it.
gate-cover-before-work = The housing cover was recorded closed before the last work under it: { $work } Record it again.
gate-cover-not-pinned = The housing pin is not in. Put it in and record it.
gate-cover-bolts-not-counted = Cover bolts not counted. Count them and record the number.
gate-cover-bolts = { $count } of { $of } cover bolts in place. Install the others and record it.
gate-seal-incomplete = Seal record incomplete ({ $place }). Missing: { $lacks }.
gate-seal-missing = No seal applied and no reason given. Apply a seal, or skip the step with a reason.
gate-blue-sign-down-early = The blue sign came down before a closure was secured ({ $fitting }). Put it up again until every closure is secured.

## Why an override does not stand

gate-override-voided = the override was voided
gate-override-without-reason = no reason was given
gate-override-overtaken = the record has changed since; look again
