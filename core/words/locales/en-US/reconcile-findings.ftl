### What comparing many cars finds, and why a comparison cannot be made.

## What is compared

reconcile-compared-found = gauged on arrival less billed
reconcile-compared-received = received and residue less billed

## Kinds of findings

reconcile_kind-biased_gauge = a gauge reads one way
reconcile_kind-drift = a gauge drifts
reconcile_kind-biased_shipper = a shipper’s cars differ one way
reconcile_kind-biased_site = a site’s cars differ one way
reconcile_kind-car_short = a car is short
reconcile_kind-car_over = a car is over
reconcile_kind-overfilled = a car came overfilled
reconcile_kind-near_number = two numbers for one car
reconcile_kind-other_car = the paper is another car’s
reconcile_kind-seal_on_two_cars = one seal on two cars
reconcile_kind-lost_entry = an entry is missing
reconcile_kind-broken_chain = a device’s entries contradict each other

## Findings

reconcile-group-less = { $about }: over { $count } cars, { $compared } is { $mean } a car less on average (standard error { $error }); chance and what the instruments may repeat (standard { $shared }) explain up to { $limit }.
reconcile-group-less-after-others = { $about }: over { $count } cars, { $compared } is { $mean } a car less on average (standard error { $error }); chance and what the instruments may repeat (standard { $shared }) explain up to { $limit }. What was already explained is taken off.
reconcile-group-more = { $about }: over { $count } cars, { $compared } is { $mean } a car more on average (standard error { $error }); chance and what the instruments may repeat (standard { $shared }) explain up to { $limit }.
reconcile-group-more-after-others = { $about }: over { $count } cars, { $compared } is { $mean } a car more on average (standard error { $error }); chance and what the instruments may repeat (standard { $shared }) explain up to { $limit }. What was already explained is taken off.
reconcile-car-short = { $car }, { $compared }: short by { $rest } ({ $percent } % of billed). Up to { $limit } either way would be within measurement ({ $factor } times its standard uncertainty).
reconcile-car-short-after-others = { $car }, { $compared }: short by { $rest } ({ $percent } % of billed), after { $explained } that others explain. Up to { $limit } either way would be within measurement ({ $factor } times its standard uncertainty).
reconcile-car-over = { $car }, { $compared }: over by { $rest } ({ $percent } % of billed). Up to { $limit } either way would be within measurement ({ $factor } times its standard uncertainty).
reconcile-car-over-after-others = { $car }, { $compared }: over by { $rest } ({ $percent } % of billed), after { $explained } that others explain. Up to { $limit } either way would be within measurement ({ $factor } times its standard uncertainty).
reconcile-drift = { $gauge }: the cumulative sum of { $compared } passes its decision interval ({ $interval }) at { $first }; { $reference } a car are allowed. Have the gauge checked from there on.
reconcile-overfilled = { $car }: at { $reference } the outage would be { $outage }, at least { $least } required ({ $source }). Too little, beyond measurement.
reconcile-fill-in-doubt = { $car }: at { $reference } the outage would be { $outage }, at least { $least } required ({ $source }). Measurement may explain it.
reconcile-gap-in-stays = { $gap } Stays here in which it took part: { $count }.
reconcile-seal-on-two-cars = Seal { $seal } is in the records of { $count } cars: { $uses }.
reconcile-seal-found = found on { $car } ({ $site }, { $day })
reconcile-seal-applied = applied to { $car } ({ $site }, { $day })
reconcile-seal-removed = removed from { $car } ({ $site }, { $day })
reconcile-paper-near-car = The visit is of { $car }; its paper ({ $paper }) names { $other }, one slip apart. Read the photograph of the stencil.
reconcile-paper-other-car = The visit is of { $car }; its paper ({ $paper }) names { $other }.
reconcile-read-again = { $car } was read as { $again } the second time.
reconcile-paper-without-record = No paper names { $car }; paper { $paper } names { $other }, of which there is no record, one slip apart.

## Notices

reconcile-same-stay = Two records of { $car } at { $site } in these days. Are they one stay?
reconcile-joined = { $car }: records joined into one stay: { $count }.
reconcile-incomplete = { $car }: { $lacks }
reconcile-lacks-release = no release, and nothing recorded for more than { $count } days
reconcile-lacks-closing = released with open items: { $count }
reconcile-lacks-agreement = entries differ on { $about }

## Why a comparison cannot be made

reconcile-not-compared = { $compared }: { $why }
reconcile-missing-billed = billed: { $why }
reconcile-missing-found = gauged: { $why }
reconcile-missing-received = received: { $why }
reconcile-missing-left = residue: { $why }
reconcile-not-recorded = not recorded
reconcile-no-numbers = the quantities are not numbers
reconcile-weight-without-gauging = billed by weight, and the weight of a gallon is not known without gauging
reconcile-nothing-gauged = nothing was gauged on arrival
reconcile-not-at-60 = the liquid was gauged, but not brought to 60 °F
reconcile-no-paper = no shipping paper was recorded
reconcile-papers-differ = the entries on the paper differ
reconcile-paper-no-quantity = the paper has no quantity
reconcile-no-quantity = { $amount } is no quantity of a car
reconcile-truck-unreadable = a truck’s load is no volume that can be read
reconcile-meter-no-volume = the meter’s “{ $text }” is no volume
reconcile-meter-lower = the meter is lower at the end than on arrival
reconcile-nothing-received = no meter, no truck and no pair of tank levels was recorded
reconcile-which-tank = it is not recorded which of the site’s tanks took it
reconcile-level-no-percentage = a tank level is not a percentage
reconcile-no-tank-temperature = the tank’s temperature was not recorded

## What a quantity and its uncertainty rest on

reconcile-how-gauged = liquid as gauged on arrival, net at 60 °F
reconcile-how-billed = billed, taken as net at 60 °F or as weight in vacuum
reconcile-how-office-paper = billed by paper { $paper } as the office holds it
reconcile-how-trucks = loaded into trucks
reconcile-how-meter = by meter, taken as net at 60 °F
reconcile-how-levels = from the tank’s level before and after, net at 60 °F
reconcile-how-left = left as vapor, liquid equivalent
reconcile-from-by = { $from } by { $name }
reconcile-from-shipper = the shipper’s measure
reconcile-from-rest = the rest
reconcile-from-grade = the product is known by its grade only
reconcile-from-outage = outage and table
reconcile-from-density = relative density
reconcile-from-paper-density = relative density on the paper
reconcile-from-temperature = temperature
reconcile-from-trucks = the trucks’ own measure
reconcile-from-meter = meter
reconcile-from-level = level
reconcile-from-final = final pressure and temperature

## How a bill was measured, and what it is held against

reconcile-basis-unknown = how the bill was measured is not recorded
reconcile-scale-needs-vapor = billed by scale, and the vapor above the liquid is not known
reconcile-how-vapor = vapor above the liquid on arrival, liquid equivalent
reconcile-from-vapor = vapor above the liquid
reconcile-from-shipper-density = relative density with which the shipper turned weight into gallons
reconcile-method-liquid = liquid against liquid (billed by { $basis })
reconcile-method-liquid-weight = liquid against liquid (billed by { $basis } as a weight, turned into gallons by the density gauged)
reconcile-method-scale = by { $basis }: difference of weights, turned into gallons by the density gauged, against liquid and vapor less the heel
reconcile-method-scale-gallons = by { $basis }: difference of weights, billed as gallons, against liquid and vapor less the heel
reconcile-method-scale-received = by { $basis }: difference of weights, turned into gallons by the density gauged, against what was received and the vapor that came above the liquid; the heel is on neither side
reconcile-method-scale-received-gallons = by { $basis }: difference of weights, billed as gallons, against what was received and the vapor that came above the liquid; the heel is on neither side

## Clocks and tariffs

reconcile-no-tariff = there is no tariff for this site
reconcile-no-event = { $events } was not recorded
reconcile-no-calendar = the time of the event is in no calendar
reconcile-free-time-never-ends = free time never ends under this tariff
reconcile-tariff-unusable = the tariff cannot be used: { $why }
reconcile-tariff-events = Say from which event to which the clock runs.
reconcile-tariff-time = “{ $text }” is not a time of day (HH:MM).
reconcile-tariff-day = “{ $text }” is not a day (YYYY-MM-DD).
reconcile-tariff-amount = “{ $text }” is not an amount.
reconcile-tariff-free-time = More than a year of free time is a mistake.
reconcile-no-supplier-tariff = there is no tariff of this car’s supplier
reconcile-days-backward = the days end ({ $until }) before they begin ({ $from })
