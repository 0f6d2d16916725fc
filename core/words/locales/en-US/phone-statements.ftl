### Words on the phone for papers, seals, defects, holds, photographs and handovers.

## Tools and fittings out

phone-tally-title = Not returned
phone-tally-none = Nothing out
phone-tally-back = Returned
phone-tally-for = In place of: { $fitting }
phone-tally-add = Record it as out
phone-tally-name = What is out?
phone-tally-out = Out

## Seals

phone-seal-number = Number
phone-seal-again = Number again
phone-seal-scan = Scan
phone-number-shown = The photo shows the number
phone-seal-same = Same both times
phone-seal-different = The two differ
phone-seal-kind = Kind
phone-seal-place = Place
phone-seal-record = Record seal
phone-seal-plastic = Plastic
phone-seal-metal_strap = Strap
phone-seal-cable = Cable
phone-seal-bolt = Bolt
phone-seal-housing_pin = Pin
phone-seal-housing_lug = Lug
phone-seal-gauging_device = Gauge
phone-seal-elsewhere = Other
phone-seal-empty = No seal there? Leave both empty.
phone-seal-whole = Intact
phone-seal-broken = Broken
phone-seal-lacks = Missing: { $what }

## Defects and approvals

phone-defect-title = Defect
phone-defect-threads = Full threads engaged
phone-defect-told = Reported by phone to
phone-defect-record = Record defect
phone-defect-approval = Needs an approval to move
phone-defect-car = This car
phone-defect-rule = Do not change the plug, valve or flange. Report it.
phone-defect-what = What is wrong?
phone-defects-title = Defects
phone-defects-none = No defect recorded
phone-defects-new = New defect
phone-defects-not_told = Not reported yet
phone-defects-told = { $to }, { $how }
phone-defects-no_authority = No approval yet
phone-forwarded-to = Reported to
phone-forwarded-how = How?
phone-authority-note = A verbal approval must follow in writing.
phone-authority-by = Who gave it?
phone-authority-reference = Its number
phone-authority-spoken = Verbal
phone-authority-written = In writing
phone-authority-due = in writing by { $at }
phone-resolved-how = How was it repaired?

## Entries that differ

phone-differ-look = Go and look. Then record what you see.
phone-differ-saw = I looked. Record what I saw
phone-differ-later = Cannot look now
phone-differ-why = Both entries stay in the record.
phone-differ-agree = Keep this one
phone-differ-none = No entries differ

## Photographs

phone-photo-take = Take a photo
phone-photo-keeping = Saving…
phone-photo-elsewhere = On another phone
phone-photo-many =
    { $n ->
        [one] 1 photo
       *[other] { $n } photos
    }
phone-photo-none = No photo yet
phone-photo-of = Photo: { $what }

## The shipping paper and due dates

phone-test-due = Due: year-month, as 2031-05
phone-paper-note = Leave empty what the paper does not say.
phone-paper-car = Car on the paper
phone-paper-un_number = UN number
phone-paper-same_car = The same: { $car }
phone-paper-other_car = Another car number
phone-paper-un = UN number, as UN1075
phone-paper-un_other = Other UN number
phone-paper-product = Proper shipping name
phone-paper-billed = Billed quantity
phone-paper-odorised = Odorized?
phone-paper-silent = Not said
phone-paper-relative_density = Relative density
phone-paper-number = Number of the paper
phone-paper-shipper = Shipper
phone-again-note = Read it from the car. Do not look at what was typed.

## Holds and handovers

phone-hold-note = Do not move the car or open anything until the hold is lifted.
phone-hold-do = Put on hold
phone-hold-lift = Lift the hold
phone-hold-stands = On hold
phone-check_in-title = All well?
phone-check_in-overdue = Overdue: all well?
phone-check_in-well = All well
phone-check_in-last = Last heard { $time }. Asked every { $minutes } minutes while you have the car.
phone-check_in-no_rescue = This is no rescue device. Without signal nobody sees your word, or that it is missing. Arrange that somebody knows where you are and when to look for you.
phone-remind-reading = Reading due
phone-remind-hold = Pressure hold over
phone-remind-watch = Who has the car?
phone-remind-word = All well?
phone-hold-none = No hold
phone-hold-was_lifted = Lifted

## Incidents, leaks, how the car is left

phone-else-title = Record something else
phone-else-stop = Stops the job
phone-else-car = The car
phone-else-more = Anything else
phone-earlier-title = Done earlier
phone-earlier-note = Every entry carries this time as well, until you end it. The log shows both times.
phone-earlier-time = Done at
phone-earlier-do = Use this time
phone-earlier-as = Entered as done { $time }
phone-earlier-change = Change the time
phone-earlier-end = Back to now
phone-incident-source = From
phone-incident-noticed = Noticed
phone-incident-injury = Anybody hurt
phone-incident-ignition = Fire
phone-incident-evacuation = Moved away
phone-incident-closed = Road, line or facility closed an hour
phone-incident-note = People first: leave the area and call. Record it when you are safe.
phone-incident-stopped = Stopped
phone-incident-loss = Estimated loss
phone-incident-minimal = Only a puff on connecting or disconnecting, no damage
phone-incident-to = Told
phone-incident-number = Report number or name
phone-incident-how = What was done
phone-incident-call = Call
phone-incident-more = Add facts
phone-incident-stop = Stopped
phone-incident-close = Close
phone-incident-due-telephone = By phone before { $time }
phone-incident-due-written = In writing before { $time }
phone-leak-at = Where
phone-leak-action = Done about it
phone-leak-fitting = At which fitting
phone-leak-note = Take the pressure off before you tighten anything. The job waits until the leak is checked tight.
phone-leak-tight = Tight now
phone-leak-how = How it was checked
phone-leak-check = Check again
phone-leak-yes = Tight
phone-leak-no = Still leaking
phone-left-connected = Unloading equipment stays on
phone-left-yes = Connected
phone-left-no = Disconnected
phone-left-conditions = Seen to
phone-left-until = Until
phone-left-note = At a fixed tank somebody stays until the lines are off. For trucks all five are asked for.
phone-moved-to = Where it stands now
phone-moved-by = Moved by
phone-moved-note = Set the protections again at the new spot, and record them.
phone-outcome-load = It goes
phone-outcome-because = Because
phone-outcome-to = Where to
phone-outcome-note = As loaded it needs no liquid-out check, but a shipping paper for the load.
phone-carried-title = From the last visit
phone-carried-none = Nothing left from earlier visits
phone-carried-more = { $n } more
phone-carried-again = Record it again
phone-next-what = What should the next person know?
phone-next-note = It is at the top of this car’s next visit until somebody says it was seen to.
phone-next-how = What was done
phone-feel-how = It turned
phone-feel-note = By hand. A torque only where a torque wrench was used.
phone-part-which = Which part
phone-part-state = Condition
phone-hose-number = Hose number
phone-hose-other = Another number
phone-hose-left = After drawing down
phone-hose-note = Plant valve closed. Read it at the hose.
phone-tank-which = Which tank
phone-tank-moment = When
phone-tank-meter = Meter
phone-truck-ticket = Ticket
phone-truck-driver = Driver
phone-truck-amount = Loaded
phone-truck-seal = Seal
phone-plan-target = Down to
phone-plan-swept = Compressor sweeps
phone-plan-efficiency = Its efficiency
phone-plan-price = Price of a gallon
phone-plan-cost = Cost of an hour
phone-plan-note = The time and the economic stop are under More. With liquid left both are too short.
phone-inspection-by = Who inspected
phone-inspection-looked = Looked at
phone-inspection-found = Something to put right?
phone-inspection-finding = Finding
phone-inspection-copy = Copy left?
phone-else-fitting = Fittings
phone-else-transfer = Transfer
phone-paper-grade = Grade
phone-paper-billed_by = Billed by
phone-paper-winter = Filled to winter limits?
phone-fittings-gauging = Gauging device
phone-fittings-vapor = Vapor valve
phone-shell-insulation = Shell
phone-seal-where = Where it is
phone-seal-because = Why replaced or removed
phone-note = Note
phone-handover-give = Hand over
phone-handover-take = Take over
phone-handover-note = It counts when the other person takes over.
phone-handover-to = To whom?
phone-handover-from = From { $name }
