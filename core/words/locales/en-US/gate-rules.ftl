### What the rules of the two gates say while something is missing, and what is said of what is there.

gate-unload = Fit to unload
gate-release = Fit to release
gate-nothing-open = Nothing is missing, or all of it was overridden with a reason.
gate-signed = Signed: { $who }.
gate-not-signed = Not signed.
gate-signed-and-open = { $signed } Open: { $items }
gate-there = There: { $count }
gate-met-by = { $what } ({ $who })
gate-number-read-once = Car number read only once, without a photograph. Read it again from the stencil, or photograph the stencil.
gate-paper-missing = Shipping paper not recorded. Compare it with the car and record it.
gate-paper-without-car = The shipping paper as recorded names no car. Enter the car number on the paper.
gate-product-not-taken = This procedure is not for { $number }. Stop and call the office.
gate-product-not-named = The product is not recorded. Enter the UN number on the shipping paper.
gate-protection-not-set = Not recorded as set: { $protection }. Set it and record it.
gate-shut-off-not-tried = Emergency shut-off not recorded as tried. Try it and record it.
gate-weather-missing = Weather and wind not recorded. Record them.
gate-escape-route-open = Escape route not confirmed. Walk it and record it.
gate-step-open = Step not done: { $step }. Do it and record it.
gate-seals-not-found = Seals as found not recorded. Look at each seal and record it.
gate-fittings-not-found = Closures as found not recorded: { $fittings }. Look at each closure and record it.
gate-arrival-pressure-missing = Arrival pressure not read at the car. Read it and record it.
gate-arrival-pressure-not-a-number = The arrival pressure cannot be read as a number. Read and enter it again.
gate-finding-stands = { $finding } Find the cause first.
gate-tank-level-missing = Level of the receiving tank not read. Read it and record it.
gate-tank-level-not-a-number = The level of the receiving tank cannot be read as a number. Read and enter it again.
gate-check-missing = Check not recorded, or not since the last line came off: { $check }. Make it and record it.
gate-overfilled = The car seems overfilled. { $alarm }
gate-last-round-missing = Closures not gone over since the last work on the car: { $fittings }. Put a hand on each closure, listen, and record the last round.
gate-liquid-sign = A sign of liquid stands in the record ({ $sign }). Get the liquid out, look again and record what you see.
gate-final-pressure-early = The final pressure was read before the last line came off. Read it again at the car.
gate-final-pressure-off-scale = The final pressure lies outside the scale of its gauge. Read it on a gauge that fits.
gate-final-pressure-span = The scale of gauge { $instrument } ({ $span }) is too wide for the final pressure. Read it on a low-range gauge.
gate-final-pressure-span-unknown = Gauge { $instrument } is not on the site’s list, so its scale is not known. Read the final pressure on a listed low-range gauge.
gate-photo-missing = Photograph missing: { $photo }. Take it.
gate-sign-down-while-connected = A line was on while the blue sign was not up: { $entry }
gate-unloading-not-cleared = Unloading began before anybody signed “fit to unload”: { $entry }
gate-protection-out-of-order =
    Recorded out of order: { $protection }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Repair it, try it again and record it.
gate-check-not-right =
    Check recorded not right: { $check }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Correct it, check again and record it.
gate-step-not-right =
    Step recorded not right: { $step }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Correct it, do the step again and record it.
gate-alarm-unanswered = Alarm not answered. { $alarm }

## What is there

gate_met-line_connected = Every line disconnected
gate_met-valve_not_shut = Every valve closed
gate_met-listen_missing = Listened after each valve was closed
gate_met-hiss_heard = No leak heard
gate_met-closure_not_tool_tight = Every closure tool-tight
gate_met-threads_one_or_less = Threads engaged, or reported
gate_met-unreadable_entries = Every entry can be read
gate_met-not_opened = Record opened for this car
gate_met-empty_not_accepted = Liquid-out check accepted
gate_met-empty_contradicted = No sign of liquid
gate_met-final_pressure_missing = Final pressure read at the car
gate_met-final_pressure_doubtful = Final pressure read last, on a gauge that fits
gate_met-item_out = Everything returned
gate_met-cover_not_closed = Housing cover closed after the last work
gate_met-cover_not_pinned = Housing pin in
gate_met-cover_bolts = Cover bolts all in place
gate_met-seal_incomplete = Seal record complete
gate_met-seal_missing = Seal applied, or a reason given
gate_met-blue_sign_down_early = Blue sign up until every closure was secured
gate_met-hold_open = No hold
gate_met-disagreement = No entries differ
gate_met-authority_missing = No approval missing
gate_met-alarm = No alarm unanswered
gate_met-doubt = Readings fit each other
gate_met-number_not_checked = Car number read twice or photographed
gate_met-paper_not_compared = Shipping paper compared with the car
gate_met-product_not_taken = Product is one that is taken
gate_met-protection_not_set = Set: { $of }
gate_met-protection_out_of_order = No protection out of order
gate_met-not_recorded_as_found = Recorded as found: { $of }
gate_met-check_missing = Checked: { $of }
gate_met-check_not_right = No check recorded not right
gate_met-step_open = Step done: { $of }
gate_met-step_not_right = No step recorded not right
gate_met-reading_missing = Read: { $of }
gate_met-photo_missing = Photographed: { $of }
gate_met-last_round_missing = Last round of all closures done
gate_met-sign_down_while_connected = Blue sign up whenever a line was on
gate_met-incident_open = No incident open
gate_met-leak_open = No leak open
gate_met-outcome_unexplained = How the car goes away is explained

## What an item is about

gate_of-overfilled = overfilled
gate_of-unloading_not_cleared = unloading not cleared
gate_of-unloaded_over_open_items = unloaded over open items
gate_of-weather = weather
gate_of-seals = seals
gate_of-housing = closures under the cover
gate_of-arrival_pressure = arrival pressure
gate_of-tank_level = tank level
gate_of-escape_way = escape route
gate_of-car_number_differs = car number differs
gate_of-paper_for_another_car = paper for another car
gate_of-not_odorised = not odorized
gate_of-procedure_unknown = procedure not here yet
gate_of-unreadable_entries = entries that cannot be read
gate_of-known_defect = known defect
gate_of-blue_sign_not_up = blue sign not up
gate_of-frost_ring = frost ring
gate_of-empty_against_evidence = readings show liquid
gate_of-attendance_gap = attendance gap
gate_of-does_not_fit = no room in the tank
gate_of-liquid_full_when_warm = tank full when warm
gate_of-pressure_above_saturation = arrival pressure too high
gate_of-pressure_below_saturation = arrival pressure too low
