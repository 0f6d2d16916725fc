### Words on the phone for fittings under the housing: names where room is short, and the keys of a fitting.

## Names where room is short

phone-fitting-liquid_a = Liquid A
phone-fitting-liquid_b = Liquid B
phone-fitting-vapour = Vapor
phone-fitting-vapour_two = Vapor 2
phone-fitting-gauging_device = Gauging device
phone-fitting-thermometer_well = Thermowell
phone-fitting-sample_line = Sample line
phone-fitting-relief_device = Relief valve
phone-fitting-cover = Cover

## The cover

phone-cover-open = Open
phone-cover-closed = Closed
phone-cover-pin_in = Pin in
phone-cover-pin_out = Pin out
phone-cover-record = Record: { $what }
phone-cover-no_bolts = No bolts, pin only
phone-cover-count = { $n } of { $of } bolts
phone-cover-bolts = Bolts in place
phone-cover-should = Bolts required
phone-cover-more = { $what }: one more
phone-cover-fewer = { $what }: one fewer

## The keys of a fitting

phone-effort-none = Torque
phone-effort-valve = Valve torque
phone-effort-closure = Plug torque
phone-effort-high = High torque: close it snug and report it
phone-threads-word =
    { $n ->
        [one] thread
       *[other] threads
    }
phone-threads-none = Threads
phone-threads-other = Other
phone-look-right = Looks right
phone-look-wrong = Not right
phone-line-put_on = Connect
phone-line-take_off = Disconnect
phone-line-on = Hose connected
phone-line-off = Hose disconnected
phone-listen-due = Closed since; listen again
phone-fittings-there = Fittings on this car
