### The words of the trade, as they stand in the middle of a sentence.

## Fittings under the housing

fitting-liquid_a = liquid valve A
fitting-liquid_b = liquid valve B
fitting-vapour = vapor valve
fitting-vapour_two = second vapor valve
fitting-gauging_device = gauging device
fitting-thermometer_well = thermowell
fitting-sample_line = sample line
fitting-relief_device = relief valve

## Valves, closures, what is heard

valve_position-open = open
valve_position-shut = closed
closure-open = removed
closure-hand_tight = hand-tight
closure-tool_tight = tool-tight
heard-quiet = no leak heard
heard-hiss = leaking by
part-valve = valve stem
part-closure = closure

## What is measured, where and for what

measured-pressure = pressure
measured-temperature = temperature
measured-outage = outage
measured-level = level
measured-relative_density = relative density
measured-volume = volume
measured-rate = flow rate
place-car = car
place-car_low = car, low
place-liquid_line = liquid line
place-vapour_line = vapor line
place-compressor = compressor
place-compressor_suction = compressor suction
place-compressor_discharge = compressor discharge
place-shut_off_panel = emergency shutdown panel
place-storage_tank = storage tank
place-truck = truck
place-air = air
purpose-arrival = arrival
purpose-leak_test = leak test
purpose-transfer = transfer
purpose-recovery = vapor recovery
purpose-hold_test = pressure hold
purpose-empty_proof = liquid-out check
purpose-final = final
receiver-fixed_tank = fixed tank
receiver-truck = tank trucks

## Seals and photographs

seal_place-housing_pin = housing pin
seal_place-housing_lug = housing lug
seal_place-gauging_device = gauging device cover
seal_place-elsewhere = elsewhere
seal_event-found = found
seal_event-applied = applied
seal_event-removed = removed
seal_kind-plastic = plastic
seal_kind-metal_strap = metal strap
seal_kind-cable = cable
seal_kind-bolt = bolt
seal_note-no_seal_found = no seal found
override_reason-done_not_recorded = done, but no entry was made at the time
override_reason-not_here = this car or site does not have it
override_reason-other_means = shown by other means
override_reason-owner_says_so = owner or shipper said to go on
override_reason-reported = cannot be done now; reported, and somebody else takes it over
photo_of-car_number = car number
photo_of-seal = seal in place
photo_of-threads = threads engaged
photo_of-defect = defect
photo_of-instrument = instrument face
photo_of-housing = open housing
photo_of-paper = shipping paper
photo_of-other = other

## Protections: their names, and how they stand

protection-blue_sign = blue sign
protection-hand_brake = hand brake
protection-chocks = wheel blocks
protection-track_secured = derail or switch
protection-emergency_shut_off = emergency shutdown
protection-gas_detector = gas detector
protection_set-blue_sign = up
protection_set-hand_brake = applied
protection_set-chocks = in place
protection_set-track_secured = set and locked
protection_set-emergency_shut_off = tried, works
protection_set-gas_detector = on and checked
protection_away-blue_sign = taken down
protection_away-hand_brake = released
protection_away-chocks = removed
protection_away-track_secured = removed
protection_away-emergency_shut_off = out of order
protection_away-gas_detector = off

## Times of the car, weather, people

clock_event-notice = arrival notice
clock_event-constructive_placement = constructively placed
clock_event-ordered_in = ordered in
clock_event-actual_placement = actually placed
clock_event-carrier_told = released to carrier
clock_event-pulled = pulled
precipitation-dry = dry
precipitation-rain = rain
precipitation-freezing_rain = freezing rain
precipitation-snow = snow
precipitation-frost = frost
wind_from-n = N
wind_from-ne = NE
wind_from-e = E
wind_from-se = SE
wind_from-s = S
wind_from-sw = SW
wind_from-w = W
wind_from-nw = NW
wind_force-still = calm
wind_force-light = light
wind_force-fresh = fresh
wind_force-strong = strong
wind-both = { $from }, { $force }
presence-here = with the car
presence-away = left the car
told-voice = by phone or in person
told-writing = by e-mail or in writing
contact_role-emergency = emergency
contact_role-carrier = carrier
contact_role-office = office
named-by_phone = named by the phone
named-held = named by the phone they had signed for
named-own_hand = signed with their own PIN
named-hand_not_confirmed = signed with a PIN key that the office has not confirmed
named-hand_not_theirs = signed with a key that is not theirs or had ended

## Checks and tests

checked-relief_device = relief valve
checked-hoses_service_and_test_date = hoses: service and test date
checked-outside_of_the_car = outside of the car
checked-odorant = odorant
checked-room_in_the_truck = room in the truck
checked-no_tools_under_the_housing = no tools under the housing
checked-lines_clear_of_the_car = lines clear of the car
checked-outside_of_the_car_before_it_is_offered = outside of the car, before it is offered
checked-residue_paper_made_out = residue shipping paper prepared
checked-loaded_paper = shipping paper for the load prepared
checked-placards_in_place = placards in place
checked-plant_signs = signs of liquid out at the plant
checked-plant_closed = plant valves closed, hoses put away
checked-platform_up = platform up, nothing left on the car
checked-trap_drained = liquid trap drained
checked-number_as_on_paper = number read on the car, the same as on the office's paper
test_date-tank_qualification = tank qualification
test_date-relief_device = relief valve test
test_date-service_equipment = service equipment
empty_sign-rod_at_bottom = gauge rod at its bottom
empty_sign-vapour_at_liquid_valve = vapor only at the liquid valve
empty_sign-liquid_at_closure = liquid seen at a liquid closure
empty_sign-frost_ring = frost ring on the shell
item-adapter = adapter
item-at = { $item } ({ $fitting })

## Incidents, leaks, how a car is left

incident_source-fitting = valve or opening of the car
incident_source-hose = hose or arm
incident_source-coupling = coupling or adapter
incident_source-plant = plant piping, compressor or tank
incident_source-relief_device = relief valve
incident_source-tank = tank of the car
incident_source-truck = truck
injury-none = nobody hurt
injury-first_aid = first aid
injury-hospital = admitted to a hospital
injury-death = death
evacuation-none = nobody moved away
evacuation-site = people of the site
evacuation-public = public, less than an hour
evacuation-public_hour = public, an hour or more
called-emergency = local emergency number
called-response_center = National Response Center
called-canutec = CANUTEC, by phone
called-written_report = written incident report sent
called-carrier = carrier
called-shipper = shipper
called-owner = owner of the car
called-office = own office
leak_at-coupling = coupling or adapter
leak_at-hose = hose or arm
leak_at-packing = packing or stem
leak_at-plug = plug or cap
leak_at-gasket = flange or gasket
leak_at-relief_device = relief valve
leak_at-plant = plant piping
leak-at-fitting = { $at } ({ $fitting })
incident-named = { $source }, noticed { $noticed }
left_condition-designated = person on the site designated, knows the product and the emergency procedure
left_condition-monitored = alarm system watches, or somebody checks it every hour
left_condition-valves_closed = valves of car and plant closed and secured
left_condition-brakes_blocked = brake set, wheels blocked
left_condition-track_secured = access to the track secured
car_load-residue = as residue
car_load-part_loaded = part-loaded
car_load-loaded = loaded
feel-easy = easily
feel-normal = as usual
feel-hard = hard
plug_state-sound = sound
plug_state-rounded = square rounded
plug_state-seized = seized
cover_part-pin = pin
cover_part-lug = lug
cover_part-hinge = hinge
part_state-sound = sound
part_state-worn = worn
part_state-bent = bent
part_state-broken = cracked or broken
part_state-missing = missing
tank_moment-before = before
tank_moment-after = after
gauging_kind-rod = rod or magnetic
gauging_kind-slip_tube = slip tube
gauging_kind-other = another kind
car_end-a = toward the A end
car_end-b = toward the B end
leaves_as-unloaded = unloaded
leaves_as-bad_order = bad order
leaves_as-refused = refused
leaves_as-diverted = diverted

## Steps and stages

step_outcome-done = done
step_outcome-not_right = not right
step_outcome-skipped = skipped
step_status-open = open
step_status-partly = partly recorded
step_status-recorded = recorded
step_status-done = done
step_status-not_right = not right
step_status-skipped = skipped
step_status-not_used = line not used
step_status-held = held by an answer
stage-receive = receive
stage-gauge = gauge
stage-connect = connect
stage-transfer = transfer
stage-recover = recover vapor
stage-prove_empty = prove empty
stage-disconnect = disconnect
stage-final_pressure = final pressure
stage-close = close
stage-release = release

## Who asks for a thing; what became of an entry; whether it counts

asked_by-law = law
asked_by-practice = practice
asked_by-this_record = this record
fate-live = current
fate-moved_on = superseded
fate-corrected = corrected
fate-withdrawn = voided
fate-withdrawal = voids another
fate-settled = resolved otherwise
fate-agreed = kept
fate-kept = kept, not counted
kept-no_device = kept, not counted: no device of this organization signed it
kept-after_revocation = kept, not counted: it came after the device was revoked
kept-expired = kept, not counted: the device’s certificate had expired
kept-other_site = kept, not counted: the device is not for this site
kept-no_right = kept, not counted: the device may not record this
kept-not_own = kept, not counted: it voids another person’s entry
kept-misplaced = kept, not counted: it does not belong in this kind of record
kept-ground_fell = kept, not counted: the entry for the other car on the track that it rests on does not hold
not_checked-no_certificate = not checked: the certificate of the signing device has not arrived here
not_checked-before_revocation_unknown = not checked: the device was revoked; whether the office had this before is not known here
not_checked-site_unknown = not checked: the site of this stay is not known here
not_checked-replaced_unknown = not checked: the entry it voids is not here
not_checked-kind_unknown = not checked: this version does not know this kind of entry
not_checked-ground_unknown = not checked: the entry for the other car that it rests on is not here
standing-before_enrolment = signed before the device was enrolled
standing-not_certified = device without a certificate
standing-revoked = device revoked

## Rights, keys

right-record = record
right-settle = resolve differences
right-lift_hold = lift holds
right-override = override
right-release = release cars
right-withdraw_others = void others’ entries
right-keep_site = keep site data
right-issue_seals = issue seals
right-keep_people = keep people
right-publish_procedures = publish procedures
right-admit = admit late entries
right-enrol = enroll devices
right-read = read
unlocking-act = for each act
unlocking-shift = once a shift
key_kept-pin = PIN
key_kept-platform = this device’s lock

## What is open before release

blocker_kind-line_connected = line connected
blocker_kind-valve_not_shut = valve not closed
blocker_kind-listen_missing = not listened
blocker_kind-hiss_heard = valve leaking by
blocker_kind-closure_not_tool_tight = closure not tool-tight
blocker_kind-threads_one_or_less = one thread or less engaged
blocker_kind-unreadable_entries = entries that cannot be read
blocker_kind-not_opened = opening entry missing
blocker_kind-empty_not_accepted = liquid-out check not accepted
blocker_kind-empty_contradicted = sign of liquid after the check
blocker_kind-final_pressure_missing = final pressure missing
blocker_kind-item_out = not returned
blocker_kind-cover_not_closed = housing cover not closed
blocker_kind-cover_not_pinned = housing pin not in
blocker_kind-cover_bolts = cover bolts
blocker_kind-seal_incomplete = seal record incomplete
blocker_kind-seal_missing = no seal
blocker_kind-blue_sign_down_early = blue sign down early
blocker_kind-hold_open = hold
blocker_kind-disagreement = two entries differ
blocker_kind-authority_missing = approval missing
blocker_kind-final_pressure_doubtful = final pressure doubtful
blocker_kind-alarm = alarm
blocker_kind-doubt = figure in doubt
blocker_kind-number_not_checked = car number read once
blocker_kind-paper_not_compared = shipping paper not compared
blocker_kind-product_not_taken = product not taken here
blocker_kind-protection_not_set = not set
blocker_kind-protection_out_of_order = out of order
blocker_kind-not_recorded_as_found = not recorded as found
blocker_kind-check_missing = check missing
blocker_kind-check_not_right = check not right
blocker_kind-step_open = step open
blocker_kind-step_not_right = step not right
blocker_kind-reading_missing = reading missing
blocker_kind-photo_missing = photograph missing
blocker_kind-last_round_missing = last round missing
blocker_kind-sign_down_while_connected = line on without the blue sign
blocker_kind-incident_open = incident open
blocker_kind-leak_open = leak not checked tight
blocker_kind-outcome_unexplained = reason for how the car goes missing

## What an entry is about

slot_part-valve = valve
slot_part-closure = closure
slot_part-listen = listening
slot_part-line = line
slot_part-threads = threads engaged
slot_part-effort = torque
slot_part-feel = feel of the valve
slot_part-plug = condition of the plug
slot_part-hose_pressure = pressure left in the hose
slot-at = { $fitting }: { $part }
slot-named = { $kind } { $name }
slot-seal = seal ({ $place })
slot-seal-found = seal as found ({ $place })
slot-step = step { $step }
slot-opened = opening of the record
slot-paper = shipping paper
slot-cover = housing cover
slot-released = release
slot-fit_to_unload = fit to unload
slot-last_round = last round of all closures
slot-overridden = overridden items
slot-outcome = how the car goes away
slot-car_left = car left
slot-car_moved = car moved
slot-empty_decision = liquid-out decision
slot-car_number_again = car number, second reading
slot-car_fittings = fittings of the car
slot-car_capacity = shell capacity of the car
slot-car_diameter = inside diameter of the car
slot-outage_table = outage table of the car
slot-outage_table_or_diameter = outage table or inside diameter of the car
slot-site = site
slot-rules = rules of the organization
slot-photos = photographs
slot-handovers = handovers
slot-attendance = attendance
slot-checked_in = all well
slot-weather = weather
slot-truck_loads = truck loads
slot-remarks = remarks
slot-tanks_gauged = tanks before and after
slot-recovery_planned = planned recovery
slot-inspections = inspections
slot-defect = defect
slot-hold = hold
slot-incident = incident
slot-leak = leak
slot-next_time = note for next time
slot-expected = paper of an expected car
slot-joined = same stay or not
slot-tank = tank
slot-instrument = instrument
slot-hose = hose
slot-contact = contact
slot-seal_stock = seals issued from
slot-operator = person
reading-title = { $purpose } { $measured } ({ $place })
step-as_recorded = As recorded on { $day }: { $says }
step-as_on_track = As on { $track } at { $time }, with { $car }: still so.
step-at = { $title } · { $fitting }
step-procedure = { $title }, edition { $edition }

## Spans of time, signatures

span-minutes = { $minutes } min
span-hours = { $hours } h { $minutes } min
span-days = { $days } d { $hours } h
attribution = { $name }, { $time }
attribution-revoked = { $name }, { $time } (device revoked)
attribution-done = done { $done }, entered { $entered }

binds-unloading = every unloading
binds-transloading = transloading into trucks only
binds-fixed_tank = unloading into a fixed tank
binds-offeror = whoever offers the car
binds-paper_keeper = whoever keeps the paper
binds-possessor = whoever has the product in hand
span-between = { $from } to { $until }

## How a bill was measured, how a car is insulated

billed_by-table = outage table
billed_by-meter = meter
billed_by-scale = scale
insulation-none = not insulated
insulation-thermal_protection = thermal protection with a jacket
insulation-insulated = insulated with a jacket
