### What a record says about itself: lists, likenesses, chains, quantities and what they rest on.

## One line in a list of cars

list-on-hold = On hold: { $because }
list-incident = incident, { $source }
list-leak = leak, { $at }
list-released-open =
    { $count ->
        [one] Released, 1 open item
       *[other] Released, { $count } open items
    }
list-differ = Two entries differ: { $about }
list-next = Next: { $step }
list-missing-and-more = { $first } And { $count } more.
list-before-unloading = Before unloading ({ $count } open): { $first }

## Records that may be of one stay

near-same-car = Another record of { $car } at this site in these days. Is it the same stay?
near-number = { $theirs } is at this site in these days too, one character from { $ours }. Is one number mistyped?

## Chains of devices

chain-missing-one = Entry { $entry } of { $device } is not here.
chain-missing = Entries { $from } to { $to } of { $device } are not here.
chain-doubled = { $count } different entries of { $device } have number { $entry }: the device was copied or restored from a backup.
chain-broken = Entry { $entry } of { $device } names another predecessor than the one that is here.
chain-not-arrived-one = Entry { $entry } of { $device } has not been received.
chain-not-arrived = Entries { $from } to { $to } of { $device } have not been received.
chain-doubled-at-office = Different entries of { $device } have number { $entry }: the device was copied or restored from a backup.

## What the record of a seal lacks

seal-lacks-number = its number
seal-lacks-kind = its kind
seal-lacks-place = its place in words
seal-lacks-photo = a photograph in place, or why there is none
seal-lacks-intact = being intact

## Quantities

quantity_title-gross_volume = Liquid as gauged, at its own temperature
quantity_title-net_volume = Liquid as gauged, net at 60 °F
quantity_title-against_paper = Over/(short) vs. bill, billed taken as net at 60 °F or as weight in vacuum
quantity_title-weight_in_vacuum = Weight in vacuum
quantity_title-weight_in_air = Weight in air
quantity_title-vapor_volume = Vapor in the car, liquid equivalent at 60 °F
quantity_title-receiver_room = Room in the receiving tank, net at 60 °F
quantity_title-residue = Residue as vapor, liquid equivalent at 60 °F
quantity_title-recovery_time = Time to the planned pressure
quantity_title-economic_stop = Economic stop, pressure in the car
quantity-value = { $value }
quantity-between = { $low } to { $high }
quantity-missing = { $title }: { $why }
quantity-cannot = Cannot be calculated: { $why }
quantity-entries-differ = entries differ ({ $what })
quantity-not-recorded = not recorded ({ $what })
quantity-not-known = not known ({ $what })
quantity-not-a-number = “{ $text }” is not a number
quantity-no-paper = no shipping paper says what the product is
quantity-no-un-number = the shipping paper has no UN number
quantity-unknown-product = { $product } is not a product that formulas are known for
quantity-no-composition = the product has no known composition
quantity-no-elevation = the elevation of the site is not known here
quantity-no-relative-density = no relative density was read or stands on the shipping paper
quantity-no-billed = the shipping paper has no quantity
quantity-scale-needs-vapor = billed by scale, and the vapor in the car cannot be calculated
quantity-no-final-temperature = the final temperature in the car was not recorded
quantity-no-tank = no receiving tank of this site is known here
quantity-no-swept = the volume that the compressor sweeps is not recorded
quantity-which-tank = the site has { $count } tanks, and the receiving one is not recorded

## The uncertainty of a reading

uncertainty-not-a-number = not a number
uncertainty-presumed = ±{ $half_width } presumed
uncertainty-absolute-gauge = ± of an absolute pressure gauge is not known
uncertainty-gauge = grade { $grade }, span { $span }
uncertainty-usual-gauge = a usual gauge presumed, grade { $grade }, span { $span }
uncertainty-not-known = ± not known
