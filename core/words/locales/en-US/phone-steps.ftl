### Words on the phone for steps, what they ask for, and open items before release.

## Steps

phone-step-done = Done
phone-step-later = Not now
phone-step-skip = Skip, with a reason
phone-step-none = No open step
phone-step-skip_short = Skip
phone-step-other = Other answer
phone-steps-title = All steps
phone-steps-left =
    { $n ->
        [one] 1 step left
       *[other] { $n } steps left
    }
phone-truck-which = Which truck?
phone-caution = Caution
phone-local_first = Local codes and the owner’s instructions come first.

## The transfer that goes on

phone-running-title = Transfer running
phone-running-next =
    { $n ->
        [one] Next reading in 1 minute
       *[other] Next reading in { $n } minutes
    }
phone-running-over = Transfer is over

## Steps that one key records

phone-together-all =
    { $n ->
        [one] Done as listed
       *[other] All { $n } as listed
    }
phone-together-read_on = Read on
phone-together-not = Not so
phone-together-to =
    { $n ->
        [0] Answer this step
        [one] Record 1 as listed, then answer this
       *[other] Record { $n } as listed, then answer this
    }
phone-together-type =
    { $n ->
        [one] Type the reading
       *[other] Type { $n } readings
    }

## Open items and release

phone-gate-short =
    { $n ->
        [one] open
       *[other] open
    }
phone-gate-next = Next
phone-gate-in_way = Open item
phone-gate-open =
    { $n ->
        [one] open item
       *[other] open items
    }
phone-gate-none = No open items in the record
phone-gate-holding = Keep holding
phone-gate-tap = Cannot hold? Tap twice
phone-gate-tap_again = Tap again to sign
phone-gate-note = This is what people recorded. It does not declare the car safe.
phone-gate-missing =
    { $n ->
        [one] 1 open item
       *[other] { $n } open items
    }
phone-gate-passed = Overridden by { $name }: { $why }
phone-released = Released
phone-blocker-pass = Override, with a reason
phone-blocker-note = The record keeps your name and reason. The item opens again if the record changes.
phone-blocker-go = Go and do it
phone-blocker-gone = No longer open
phone-join-do = Same stay
phone-join-not = Not the same
phone-join-note = Joined records show as one. Both stay complete.

## What a step asks for

phone-protection-set = In place
phone-protection-away = Not in place
phone-presence-here = I have the car
phone-presence-away = I am leaving
phone-what-seen = What did you see?
phone-ask-opened = Car number
phone-ask-car_number_again = Car number again
phone-ask-paper = Shipping paper
phone-ask-cover = Cover
phone-ask-weather = Weather
phone-ask-empty_decision = Liquid out?
phone-ask-truck_load = Truck load
phone-ask-car_fittings = Fittings under the housing
phone-ask-car_capacity = Shell capacity
phone-ask-car_diameter = Inside diameter
phone-ask-outage_table = Outage table
phone-ask-released = Release
phone-ask-defect = Defect
phone-ask-forwarded = Reported
phone-ask-authority = Approval
phone-ask-resolved = Repaired
phone-ask-hold = Hold
phone-ask-incident = Incident
phone-ask-incident_stopped = Incident stopped
phone-ask-incident_call = Call or report
phone-ask-incident_closed = Incident closed
phone-ask-leak = Leak found
phone-ask-leak_checked = Leak checked again
phone-ask-car_left = Car left
phone-ask-car_moved = Car moved
phone-ask-outcome = How the car goes away
phone-ask-next_time = Note for next time
phone-ask-next_time_done = Seen to
phone-ask-valve_feel = How the valve turned
phone-ask-plug_condition = Plug and square
phone-ask-cover_condition = Pin, lug, hinge
phone-ask-hose_pressure = Pressure left in the hose
phone-steps-again = Asked again: the car was left or moved.
phone-ask-tank_gauged = Receiving tank
phone-ask-recovery_planned = Recovery plan
phone-ask-inspection = Inspection
phone-ask-remark = Remark
phone-ask-attendance = Attendance
phone-ask-valve = Valve
phone-ask-closure = Plug
phone-ask-listen = Leak check by ear
phone-ask-line = Hose
phone-ask-threads = Threads engaged
phone-ask-effort = Torque
phone-ask-office = Done at the office
