### The plan of the fittings under the housing, drawn alike on the phone and at the office: labels of a small drawing, with a capital where a line begins.

plan-fitting-liquid_a = Liquid A
plan-fitting-liquid_b = Liquid B
plan-fitting-vapour = Vapor
plan-fitting-vapour_two = Vapor 2
plan-fitting-gauging_device = Gauging device
plan-fitting-thermometer_well = Thermowell
plan-fitting-sample_line = Sample line
plan-fitting-relief_device = Relief valve
plan-valve-open = Open
plan-valve-shut = Closed
plan-closure-tool_tight = tight
plan-closure-hand_tight = hand-tight
plan-closure-open = removed
plan-hose = hose
plan-leaking = Leaking by
plan-differ = entries differ
plan-label = Plan of the fittings under the housing. The list of fittings says the same in words.
plan-a-end = A end
plan-b-end = B end
plan-foot = 1 foot
plan-typical = typical layout
plan-cover-unknown = Cover: ?
plan-cover-open = Cover open
plan-cover-closed = Cover closed
plan-pin-out = Pin out
plan-bolts = { $there } of { $wanted } bolts
