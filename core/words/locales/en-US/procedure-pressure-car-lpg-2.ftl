### The sentences of the procedure pressure-car-lpg, edition 2. Its steps and rules are in core/procedures.

procedure-pressure-car-lpg-2 = Unloading a pressure tank car of LPG
    .note = Common practice in outline; local codes, the owner's instructions and licensed practice come first, and nothing here declares a car safe.

## Cautions

procedure-pressure-car-lpg-2-caution-three_points = Keep three points of contact on the ladder; ice and oil make the rungs slippery.
procedure-pressure-car-lpg-2-caution-no_ignition = Keep every ignition source away: no engine, no smoking, no phone that is not rated for the area.
procedure-pressure-car-lpg-2-caution-leave = If a leak grows, leave upwind and call from a safe distance.
procedure-pressure-car-lpg-2-caution-listen_first = Listen and watch the gas detector before you lean over the open housing.
procedure-pressure-car-lpg-2-caution-cover_fingers = Keep your fingers out from under the cover; wind can throw it shut.
procedure-pressure-car-lpg-2-caution-turn_nothing = Turn nothing yet: the plug may be all that holds the pressure.
procedure-pressure-car-lpg-2-caution-slip_tube = A slip tube vents: never face it, and keep hands and head out of its line.
procedure-pressure-car-lpg-2-caution-line_of_fire = Stand out of line of the plug or coupling.
procedure-pressure-car-lpg-2-caution-cold_burns = Liquid burns by cold: wear gloves and face shield.
procedure-pressure-car-lpg-2-caution-carry = Carry it close, mind where you stand and what you hold, and never step back on the platform.
procedure-pressure-car-lpg-2-caution-footing = Mind your footing on ice and snow.
procedure-pressure-car-lpg-2-caution-locked_liquid = Liquid locked between two closed valves expands and bursts hoses: never close the second valve on liquid.
procedure-pressure-car-lpg-2-caution-leak_stop = A leak means stop: close the valve, take the pressure off, then repair; never strike a leaking joint.
procedure-pressure-car-lpg-2-caution-owner_limit = Never tighten under pressure beyond the owner's limit.
procedure-pressure-car-lpg-2-caution-frost_stop = A frost ring on the shell, or frost where there was none: stop and find out why.
procedure-pressure-car-lpg-2-caution-from_the_side = Never look into an outlet: watch it from the side, at arm's length.
procedure-pressure-car-lpg-2-caution-liquid_may_spit = Liquid may spit from the bleed: stand upwind and to the side.
procedure-pressure-car-lpg-2-caution-carrier_track = On a carrier's track LPG is piped straight to permanent storage: do not load trucks there before you asked.
procedure-pressure-car-lpg-2-caution-gauge_range = Know that the pressure is below the gauge's range before you put the gauge on.

## Stage: receive

procedure-pressure-car-lpg-2-open_visit = Car number
    .do = Read the reporting mark and number from the stencil on the car, not from the paper.
    .why = Everything is filed under this number, and it has no check digit.

procedure-pressure-car-lpg-2-number_again = Photo of the car number
    .do = Photograph the stencil and compare it with the number entered; read it again where they differ.
    .why = A wrong car is found by a second look or not at all.

procedure-pressure-car-lpg-2-paper = Shipping paper
    .do = Compare the shipping paper with the car: number, UN number, product, odorized or not, quantity; leave empty what it does not say.
    .why = The load is received against this paper.

procedure-pressure-car-lpg-2-placement = Placement
    .do = Enter when the car was placed, when the arrival notice came, and any constructive placement.
    .why = Demurrage is billed from these times.

procedure-pressure-car-lpg-2-track_secured = Track secured
    .do = Lock the derail on, or line and lock the switch against the track.
    .why = No other car may roll into one that has hoses on it.

procedure-pressure-car-lpg-2-hand_brake = Hand brake
    .do = Set the hand brake and see that the shoes bear on the wheels.
    .why = The car must not move while anything is connected.

procedure-pressure-car-lpg-2-chocks = Wheels blocked
    .do = Block wheels at both ends of the car, against motion in both directions.
    .why = A hand brake alone has let cars go.

procedure-pressure-car-lpg-2-blue_sign_up = Blue sign up
    .do = Put up the blue STOP sign with Tank Car Connected where a crew from any open end sees it; it stays until every closure is secured.
    .why = It tells the crew not to touch the car.

procedure-pressure-car-lpg-2-gas_detector = Gas detector
    .do = Switch the gas detector on, let it pass its own test, and wear it.
    .why = Odorant can fade, and a cold nose smells little.

procedure-pressure-car-lpg-2-weather = Weather and wind
    .do = Note what falls, the air temperature and where the wind comes from.
    .why = It decides where you stand and how closures and liquid behave.

procedure-pressure-car-lpg-2-escape_way = Escape route
    .do = Walk the escape route, upwind and crosswind, and know who to call.
    .why = There is no time to look for it later.

procedure-pressure-car-lpg-2-emergency_shut_off = Emergency shutdown tried at the panel
    .do = Trip the emergency shutdown from where you would stand and see the plant valves close.
    .why = An excess-flow valve alone has failed to stop a broken line.

procedure-pressure-car-lpg-2-hoses_fit = Hoses and gaskets
    .do = Read the service and test date marked on each hose, and look at its cover, couplings and gaskets.
    .why = Hoses of the wrong material and hoses past their date have burst.
    .now = Put the hose out of use and take another.

procedure-pressure-car-lpg-2-look_round = Look around the car
    .do = Walk around: shell, placards, marks, ladder, platform, housing; note damage, frost and stains.
    .why = What is noted now cannot be blamed on you later.
    .now = Record the defect with a photo, and ask the office before you unload.

procedure-pressure-car-lpg-2-test_dates = Test dates
    .do = Read the tank, relief valve and service equipment dates from the stencil.
    .why = An overdue car may leave empty but may not be filled, so the owner must know.

procedure-pressure-car-lpg-2-capacity = Capacity
    .do = Enter the shell capacity from the stencil, and the owner's outage table where there is one.
    .why = The quantity is computed from them, and the owner's table rules.

procedure-pressure-car-lpg-2-seals_found = Seals as found
    .do = Photograph each seal before you touch it, and enter number, kind, place and whether it is intact, or that there is none.
    .why = After it is cut, only the photo tells what it was.

procedure-pressure-car-lpg-2-fittings = Under the housing
    .do = Open the cover from upwind, all the way back on its stop; look at hinge, lug and pin, and enter which valves and openings the car has.
    .why = What is there must be closed again before release.

procedure-pressure-car-lpg-2-line_as_found = Valve and plug as found
    .do = See that the valve is closed and the plug tool-tight, and listen; they are two things and two entries.
    .why = Valves have been found open behind tight plugs.
    .now = Leave the plug in, tell the office, and put a hold on the car until the valve is closed and quiet.

procedure-pressure-car-lpg-2-opening_as_found = Small opening as found
    .do = Look at its cover, cap, needle valve or plug: in place, tight, no leak heard.
    .why = It was under pressure all the way here.
    .now = Put a hold on the car and tell the office; tighten nothing that leaks beyond the owner's limit.

## Stage: gauge

procedure-pressure-car-lpg-2-arrival_pressure = Car pressure
    .do = Read the pressure at the car on its own fitting, and name the gauge.
    .why = The gauge at the car rules.

procedure-pressure-car-lpg-2-arrival_temperature = Liquid temperature
    .do = Lower the thermometer into the thermowell, wait until it settles, and read it.
    .why = A gallon is a gallon only at its temperature.

procedure-pressure-car-lpg-2-arrival_outage = Outage
    .do = Take the outage twice with the car's gauging device and enter it when both agree.
    .why = It tells how much is in the car and whether it was overfilled.

procedure-pressure-car-lpg-2-relative_density = Relative density
    .do = Enter the relative density at 60 °F from the shipping paper or a sample, and say which.
    .why = Net gallons need it.

procedure-pressure-car-lpg-2-odorant = Odorant
    .do = Check by the site's own test that the product is odorized as the shipping paper says, never by nose alone.
    .why = Odorant can fade, most of all in new steel.
    .now = Do not unload into a system that needs odorized product; ask the office.

procedure-pressure-car-lpg-2-room_in_tank = Room in the tank
    .do = Read the level of the receiving tank and compare the room in it with what is in the car.
    .why = The tank must not pass its filling limit with the car half full.

procedure-pressure-car-lpg-2-room_in_truck = Room in the truck
    .do = Agree with the driver how much the truck takes and who watches its level.
    .why = The truck must not pass its filling limit.
    .now = Do not load this truck.

procedure-pressure-car-lpg-2-against_paper = Gauged against billed
    .do = Compare the gauged quantity with the billed one, and tell the office at once when they differ by more than the uncertainty.
    .why = A shortage reported the same day is believed.

procedure-pressure-car-lpg-2-fit_to_unload = Fit to unload
    .do = Look at what is still open, and sign that the first closure may come out.
    .why = Once a closure is out, what was missed on arrival cannot be seen any more.

## Stage: connect

procedure-pressure-car-lpg-2-open_closure = Plug out
    .do = Listen, then turn the plug out slowly, standing to the side and ready to turn it back.
    .why = If the valve leaks by, there is pressure behind the plug.

procedure-pressure-car-lpg-2-threads_inspected = Threads and gasket
    .do = Look at threads and gasket of valve and plug, and at the plug's square: sound, rounded or seized.
    .why = Worn threads and old gaskets have let go.
    .now = Photograph the defect, report it to the owner, and do not connect here.

procedure-pressure-car-lpg-2-adapter_in = Adapter in
    .do = Put the adapter in and count it as out until it is returned.
    .why = What goes into the car's valve must come out of it again.

procedure-pressure-car-lpg-2-hose_on = Hose on
    .do = Couple the hose, enter its number, and lead it without a sharp bend and without its weight on the valve.
    .why = A hose left on and pulled is the worst accident: the record must know it is there.

procedure-pressure-car-lpg-2-shut_off_line_on = Emergency valve air connected
    .do = Connect the air or control line of this hose's car-side emergency valve.
    .why = It closes the valve when nobody can go near.

procedure-pressure-car-lpg-2-esv_proved = Emergency valve proved
    .do = Open and close the car-side emergency valve by its own line and see it move, before the car's valve is opened.
    .why = A valve that was never seen to close is not a shut-off.
    .now = Keep the car's valve closed and change or repair the emergency valve.

procedure-pressure-car-lpg-2-vapor_test = Soap test with vapor
    .do = Let vapor or nitrogen into the hose first, soap every joint, and record whether it is tight.
    .why = A leak of vapor is small and a leak of liquid is not.
    .now = Take the pressure off, repair the joint, and test again from the start.

procedure-pressure-car-lpg-2-open_valve = Valve open, slowly
    .do = Open the car's valve slowly, standing to the side.
    .why = Opened fast, the excess-flow valve closes and the hose takes a blow.

procedure-pressure-car-lpg-2-leak_check = Leak check at full pressure
    .do = Check every joint again with soap or detector at full pressure, and record whether it is tight.
    .why = A joint tight on vapor can leak at full pressure.
    .now = Close the car's valve, take the pressure off, repair, and start the soap test again.

## Stage: transfer

procedure-pressure-car-lpg-2-attend = Attend the car
    .do = Enter that you have the car, from the first connection to the last; hand over or end it when you go.
    .why = A connected car is attended.

procedure-pressure-car-lpg-2-transfer_readings = Transfer readings
    .do = Read the car pressure when the reading is due, and walk the hoses each time.
    .why = A slow change shows only in a series.

procedure-pressure-car-lpg-2-tank_level = Tank level
    .do = Read the level of the receiving tank with each car pressure.
    .why = The tank's filling limit comes before the end of the car.

procedure-pressure-car-lpg-2-truck_loads = Truck loads
    .do = Block the truck's wheels while it is connected, and enter what went into it before it drives off.
    .why = What left in trucks must add up to what was in the car.

## Stage: recover

procedure-pressure-car-lpg-2-liquid_closed = Liquid valves closed, trap drained
    .do = Draw the liquid hose down, close the liquid valves at car and tank, and drain the trap before the compressor turns to recovery.
    .why = Liquid drawn into a compressor breaks it.
    .now = Do not start recovery until the liquid valves are closed and the trap is drained.

procedure-pressure-car-lpg-2-recovery_readings = Vapor recovery
    .do = Recover vapor with the compressor and follow the car pressure down.
    .why = Vapor left in the car is product not received.

procedure-pressure-car-lpg-2-planned_stop = Planned stop reached
    .do = Stop recovery at the planned pressure, and give the reason when you stop elsewhere.
    .why = A car is residue only when it was unloaded as far as practicable.

procedure-pressure-car-lpg-2-pressure_hold = Pressure hold
    .do = Stop the compressor, block in, and read the pressure twice some minutes apart.
    .why = Pressure that climbs by itself is liquid boiling.

## Stage: prove_empty

procedure-pressure-car-lpg-2-rod = Gauging device at bottom
    .do = Take the gauging device down and see whether it stands at its bottom.
    .why = A rod that floats shows liquid; one at bottom shows only that little is left.
    .now = Go back to recovery, then take the gauging device again.

procedure-pressure-car-lpg-2-liquid_valve_vapour = Vapor at the liquid line
    .do = See what comes at the liquid line: vapor, or liquid still.
    .why = The dip tube ends above the bottom, so vapor here is needed but not enough.
    .now = Go back to transfer until vapor comes.

procedure-pressure-car-lpg-2-frost_ring = Frost ring
    .do = Look along the lower shell for a line of frost or wet; on a jacketed or insulated car skip it as not visible.
    .why = It marks liquid boiling inside.
    .now = Go back to recovery until the ring is gone.

procedure-pressure-car-lpg-2-low_temperature = Low temperature and pressure
    .do = Read the temperature low in the car and the car pressure together; skip it as not readable on a jacketed or insulated car.
    .why = Pressure at saturation for that temperature means liquid.

procedure-pressure-car-lpg-2-plant_signs = Signs at the plant
    .do = Check that the sight glass shows vapor, the compressor's pressure difference has collapsed, and the tank level has stopped.
    .why = Signs away from the car tell the same story or warn you.
    .now = Go back to transfer and check again.

procedure-pressure-car-lpg-2-empty_decision = Liquid out?
    .do = Weigh the signs and decide under your name; in doubt the answer is no.
    .why = A car called empty that still holds liquid is the classic mistake.
    .now = Go back to recovery, take the signs again, and decide again.

## Stage: disconnect

procedure-pressure-car-lpg-2-shut_valve = Close the valve
    .do = Close the car's valve to its seat, snug, and stop; keep the emergency valve open.
    .why = It is the first of two barriers, and closed down harder it only wears.

procedure-pressure-car-lpg-2-draw_down = Draw the hose down
    .do = Draw the hose down through the plant, close the plant valve, and read the hose gauge.
    .why = 5 to 15 psi is usual here in common practice; more, or a rise, means a valve leaks by.
    .now = Do not bleed: find out which valve leaks by while the hose is still on.

procedure-pressure-car-lpg-2-bleed = Bleed the hose
    .do = Bleed off what is left slowly, downwind, until the gauge stands at zero.
    .why = A hose opened with pressure in it whips.

procedure-pressure-car-lpg-2-listen = Listen, still coupled
    .do = Listen at the bleed with the emergency valve still open and the hose still on.
    .why = Closed, the emergency valve hides a leaking car valve and locks liquid in between.
    .now = Snug the car's valve once and listen again; if it still leaks by, leave the hose on and put a hold on the car.

procedure-pressure-car-lpg-2-break_coupling = Break the coupling
    .do = Break the coupling slowly, standing to the side, and let it drain.
    .why = The last pressure leaves while the thread still holds.

procedure-pressure-car-lpg-2-listen_open = Listen at the open coupling
    .do = Listen at the open coupling before the adapter turns.
    .why = It is the last moment at which the adapter still holds a leaking valve.
    .now = Leave the adapter in, snug the valve once, and put a hold on the car if it still leaks by.

procedure-pressure-car-lpg-2-adapter_out = Adapter out, in view
    .do = Take the adapter out and lay it where you see it; it still counts as out.
    .why = It is put away only when the plug is back in.

procedure-pressure-car-lpg-2-look_for_liquid = Liquid at the outlet?
    .do = Watch the outlet from the side, at arm's length: mist, drip, frost or hiss means the valve leaks by or liquid is left.
    .why = It is the one moment at which the outlet is seen.
    .now = Put the plug in, put a hold on the car, and prove the liquid out again.

procedure-pressure-car-lpg-2-closure_tight = Plug in, tool-tight
    .do = Turn the plug in by hand, then tool-tight with a wrench; never crank it.
    .why = Hand-tight for now is forgotten by evening.
    .now = Take the wrench and make the plug tool-tight now.

procedure-pressure-car-lpg-2-threads = Threads engaged
    .do = Count the full turns engaged when the plug bottomed.
    .why = A plug with one thread or less does not hold.
    .now = Record the defect, photograph it and report it; only the owner or a shop may change plug or flange.

procedure-pressure-car-lpg-2-adapter_away = Adapter returned
    .do = Put the adapter back in its box only now, and count it as returned.
    .why = The tool count must come back to nothing out.

procedure-pressure-car-lpg-2-hose_capped = Cap and hang the hose
    .do = Cap the hose loosely enough to come off by hand and hang it end down; in frost oil the shoulder and the male thread, never the female.
    .why = The cap keeps weather out, and a frozen one cannot be taken off.

procedure-pressure-car-lpg-2-shut_off_line_off = Emergency valve air disconnected
    .do = Disconnect the emergency valve's air line and turn its end from the weather.
    .why = Water in it freezes, and then it closes nothing.

## Stage: final_pressure

procedure-pressure-car-lpg-2-final_pressure = Final pressure
    .do = Put the low-range gauge on at the car after the last line is off, open the small valve by hand, read, close, and put its plug back with the wrench.
    .why = The compressor's gauge and the panel's read a hose, not the car.

procedure-pressure-car-lpg-2-final_temperature = Final temperature
    .do = Read the temperature in the car with the final pressure.
    .why = What is left in the car is computed from the two.

## Stage: close

procedure-pressure-car-lpg-2-last_round = Last round
    .do = Put a hand on it as the last thing before the cover goes down: valve closed, plug or cap tight by wrench, cover or needle valve by its own kind, no leak heard.
    .why = What was entered on arrival does not count: a closure found loose later is presumed never checked.
    .now = Close it, make it tool-tight and listen again; if it still leaks by, put a hold on the car.

procedure-pressure-car-lpg-2-tools_look = Last look for tools
    .do = Look under the housing for tools, rags, adapters and plugs, and photograph it open.
    .why = A wrench under the cover travels with the car.
    .now = Take it out and look again.

procedure-pressure-car-lpg-2-cover_down = Cover down and secured
    .do = Lower the cover and secure it as this car has it: the pin, or all its bolts counted; look at lug, hinge and pin.
    .why = Covers have traveled loose, and a pin can shake out.

procedure-pressure-car-lpg-2-seal = Seal
    .do = Apply the seal through pin or lug, with a chain where the hole is too far, and photograph it in place.
    .why = No rule read asks for it on an empty car; it protects whoever released it and never replaces a closure check.

procedure-pressure-car-lpg-2-number_last = Number and seal in one photo
    .do = Photograph the car number once more with the closed cover.
    .why = It ties the seal to this car.

## Stage: release

procedure-pressure-car-lpg-2-lines_clear = Lines clear
    .do = Walk around the car once: no hose, line or cable touches it.
    .why = The crew pulls what it is given.
    .now = Clear the line and walk around again.

procedure-pressure-car-lpg-2-plant_closed = Plant valves closed, hoses put away
    .do = Close the plant valves and put the hoses away.
    .why = An open plant valve behind a hose waits for the next mistake.
    .now = Close the valves and put the hoses away now.

procedure-pressure-car-lpg-2-platform_up = Platform up, nothing left on the car
    .do = Raise platform and ladder, and leave no tool and no phone on the car.
    .why = A platform left down is struck by the moving car.
    .now = Raise it and clear the car now.

procedure-pressure-car-lpg-2-look_round_again = Inspect before offering
    .do = Inspect the whole car: shell and heads, piping and gaskets, bolts, closures, housing, relief valve, protection systems, marks and dates.
    .why = A car with residue is offered like a loaded one, and whoever offers it determines that it is in proper condition.
    .now = Record the defect, put a hold on the car, and ask the owner.

procedure-pressure-car-lpg-2-residue_paper = Residue shipping paper
    .do = Prepare the shipping paper with RESIDUE: LAST CONTAINED and the basic description; a car left part-loaded is released as loaded.
    .why = Residue ships like the full load did.
    .now = Correct the shipping paper before the carrier is told.

procedure-pressure-car-lpg-2-loaded_paper = Shipping paper for the load
    .do = Prepare the shipping paper for what the car holds: UN number, name, class and quantity.
    .why = A car that keeps its load or a part of it is offered as loaded, not as residue.
    .now = Correct the shipping paper before the carrier is told.

procedure-pressure-car-lpg-2-placards_stay = Placards stay
    .do = See that the placards are on and legible on both sides and both ends.
    .why = An empty car still holds flammable vapor.
    .now = Replace the placard before the car is offered.

procedure-pressure-car-lpg-2-chocks_away = Wheel blocks away
    .do = Take the wheel blocks away only with the hand brake set.
    .why = A forgotten block derails the car.

procedure-pressure-car-lpg-2-brake_left_set = Hand brake left set
    .do = Leave the hand brake set and tell the carrier so.
    .why = A free car rolls, and a crew that does not know drags a set brake.
    .now = Set the hand brake again, or agree with the carrier in writing that it is off.

procedure-pressure-car-lpg-2-track_open = Derail away
    .do = Take the derail off, or line the switch back, as the carrier asks.
    .why = The track is handed back as it was given.

procedure-pressure-car-lpg-2-blue_sign_down = Blue sign down, last
    .do = Take the blue sign down last, when every closure is secured and everybody is clear.
    .why = As long as it is up the crew leaves the car alone.

procedure-pressure-car-lpg-2-carrier_told = Released to carrier
    .do = Tell the carrier together with the release, not before, and enter when.
    .why = The demurrage clock stops when the carrier knows, and a crew may come at once.

procedure-pressure-car-lpg-2-release = Release
    .do = Read the open items, close them or override them with a reason, then release under your name.
    .why = The record shows what was recorded and what was overridden; it does not declare the car safe.

## Steps that one key records

procedure-pressure-car-lpg-2-together-protections = Protect the track and the car
    .do = Do each of these and look at each of these.
procedure-pressure-car-lpg-2-together-stencil = Stencil as last time
    .do = Look at the stencil: is each of these still so?
procedure-pressure-car-lpg-2-together-as_found = Closures as found
    .do = Go round the housing: valves closed, plugs and caps tight, no leak heard.
procedure-pressure-car-lpg-2-together-arrival = Arrival readings
    .do = Read each at the car and at the tank, and type them one after another.
procedure-pressure-car-lpg-2-together-cargo = Cargo against paper
    .do = Check each of these before you sign fit to unload.
procedure-pressure-car-lpg-2-together-line_on = Put the line on
    .do = Do these in order; stop at the first that is not right.
procedure-pressure-car-lpg-2-together-line_open = Open the valve
    .do = Open slowly, then check every joint again.
procedure-pressure-car-lpg-2-together-round = Round of readings
    .do = Read each now, and walk the hoses.
procedure-pressure-car-lpg-2-together-signs = Signs that the liquid is out
    .do = Look for each sign; one that says otherwise has its own key.
procedure-pressure-car-lpg-2-together-line_shut = Close, draw down, bleed, listen
    .do = Do these in order; the hose stays on until nothing is heard.
procedure-pressure-car-lpg-2-together-line_off = Take the line off
    .do = Do these in order, this line alone, until its plug is tool-tight.
procedure-pressure-car-lpg-2-together-clear = Clear the car and the track
    .do = Walk around once more and do these in order; the blue sign comes down last.
