### What formulas point out about their results.

## Pressures in words

calc-pressure = { $pressure }
calc-pressure-both = { $gauge } ({ $absolute })
calc-pressure-between = { $low } to { $high }

## Limits that nobody stated

calc-presumed = The ± rests on limits that nobody stated: { $limits }.
calc-presumed-limits = { $input } ±{ $half_width }
calc-presumed-gauge = { $input }: a gauge of grade { $grade }, span { $span }
calc-presumed-efficiency = compressor efficiency presumed { $efficiency }
calc-presumed-as-car = tank temperature as the car’s ±{ $half_width }
calc-calibration-overdue = The instrument that read the { $input } is past its calibration date: its limits were doubled.
calc-gauge-low = { $reading } is in the lowest tenth of a { $span } gauge: ±{ $half_width }. Use a gauge of lower range.

## Arrival

calc-arrival-fits = Read { $read } ± { $spread }; { $product } at { $temperature } saturates at { $saturation }. They fit.
calc-arrival-above = Read { $read } ± { $spread }; { $product } at { $temperature } saturates at { $saturation }. Too high: air or nitrogen in the vapor, another product, or a bad reading.
calc-arrival-below = Read { $read } ± { $spread }; { $product } at { $temperature } saturates at { $saturation }. Too low: a bad reading, another product, or liquid and vapor not at one temperature.
calc-nearly-full = The shell is { $share } % liquid: hardly any room is left for the liquid to warm up.
calc-overfilled = { $net } net at 60 °F become { $warm } at { $reference } in a shell of { $shell }: outage { $outage }, at least { $least } required. Overfilled: do not let it warm up, tell the shipper, keep people away.
calc-not-overfilled = { $net } net at 60 °F become { $warm } at { $reference } in a shell of { $shell }: outage { $outage }, at least { $least } required.
calc-fill-ask-insulation = At { $reference } the outage would be { $outage }; at least { $least } is required at 115 °F, 110 °F or 105 °F by the car’s insulation (49 CFR 173.314(c), note 9, read). Record how the car is insulated; nothing is judged until then.
calc-fill-ask-winter = At { $reference } the outage would be { $outage }, at least { $least } required; by winter limits it is enough (49 CFR 173.314(c), note 10, read). Was the car filled to winter limits? Look for the shipper’s notice.
calc-fill-winter = Filled to winter limits: outage { $outage } at { $reference }, at least { $least } required (49 CFR 173.314(c), note 10, read). Keep the shipper’s notice; unload as soon as possible after March.
calc-fill-not-checked = The fill was not checked: { $why }
calc-vapor-saturated = The pressure read, { $read }, is not below saturation, { $saturation }; the vapor was taken as saturated.
calc-estimated-pair = The interaction of propylene with n-butane is estimated, not published.
calc-density-ratio-used = The correction is the density ratio of the equation of state, not Table 24E.
calc-table-coarse = Rows are up to { $apart } apart. Between them the table is read along a smooth curve; a straight line would be off by up to { $bow }. Ask the owner for a table by the inch or less.
calc-table-odd-row = At { $outage } the table says { $volume }; its neighbors suggest { $expected }. Is it mistyped?

## Bill

calc-bill-agrees = Gauged { $found }, billed { $billed }: the difference of { $difference } ({ $percent } %) is within measurement.
calc-bill-over = Gauged { $found }, billed { $billed }: over by { $difference } ({ $percent } %).
calc-bill-short = Gauged { $found }, billed { $billed }: short by { $difference } ({ $percent } %).
calc-bill-heel = Billed by scale: the heel before loading belongs to neither side and is not known yet. It is taken off once the final pressure is recorded.
calc-credit = Residue as vapor: { $gallons } net at 60 °F, { $pounds } in vacuum, { $percent } % of { $billed } billed.

## Receiving tank

calc-room-fits = Allowed { $allowed } less held { $held } leaves room for { $room } net at 60 °F; { $coming } are to come. It fits.
calc-room-barely = Allowed { $allowed } less held { $held } leaves room for { $room } net at 60 °F; { $coming } are to come. That is within ± { $spread }: watch the tank’s own gauge and stop at its limit.
calc-room-short = Allowed { $allowed } less held { $held } leaves room for { $room } net at 60 °F; { $coming } are to come. It does not all fit.
calc-room-full-when-warm = With all of it in, the tank would be liquid full before { $warm }.
calc-room-local-code = The filling limit is a setting of this site; local code and the tank’s own plate come first.

## Transfer and recovery

calc-flow-slowing = { $moved } left the car in the last { $elapsed }; one reading is good to ±{ $limit }. That is under a fifth of the rate before: check valves, pressures and the tank.
calc-flow-stalled = { $moved } left the car in the last { $elapsed }; one reading is good to ±{ $limit }. No flow that a reading can show: an excess-flow valve may have closed, or the liquid is out.
calc-flow-reversed = { $moved } left the car in the last { $elapsed }; one reading is good to ±{ $limit }. Liquid flows back into the car: stop and find out why.
calc-recovery-isothermal = Calculated at one temperature and with no liquid left: a heel, or a car that chills, takes longer.
calc-recovery-saturated = The start, { $start }, is not below saturation, { $saturation }: liquid may be left, and the time is the least.
calc-efficiency-presumed = No volumetric efficiency was given: 1 was taken, so the time is the shortest possible.

## Leak test

calc-leak-found = From temperature alone { $expected } is expected, { $read } was read: { $change } in { $minutes }. Leak indicated: find it before you go on, and never tighten under pressure beyond the owner’s limit.
calc-leak-rose = From temperature alone { $expected } is expected, { $read } was read: { $change } in { $minutes }. Something lets gas in, liquid boils, or the temperature is not the gas’s.
calc-leak-none = From temperature alone { $expected } is expected, { $read } was read: { $change } in { $minutes }. No leak of more than { $visible } an hour; a smaller one would not show. Listen and use leak fluid too.
calc-leak-cannot-tell = From temperature alone { $expected } is expected, { $read } was read: { $change } in { $minutes }. This hold cannot tell: use a finer gauge at a steady temperature and hold again.

## Closing torque

calc-torque-high = It last took { $last } to close; { $usual } is the usual most. Expect a worn fitting: do not force it, report it.
calc-torque-low = It last took only { $last } to close; { $usual } is the usual least. Make sure that it seats, and listen.
calc-torque-rising = Closing torque rises by about { $rise } a year over { $count } visits: it is wearing out.

## Freezing

calc-freeze-flash = Liquid let down to the air chills to { $flash }: it burns skin and makes ice in a fitting in any weather, and ice can hold a valve open that feels closed. Bleed slowly, gloves and face covered, and listen again when it has thawed.
calc-freeze-threads = { $air } and { $precipitation }: oil male threads, never female ones, so that the next person can open them. Common practice, no source.
calc-freeze-covers = Leave weather covers that are not closures loose: frozen on, they get struck. Common practice, no source.
calc-freeze-point-away = Point connectors and open line ends away from the weather, so that no water stands and freezes in them.
calc-freeze-underfoot = { $air } and { $precipitation }: ladder, platform and ground may be ice. Keep three points on the ladder, carry close, step and do not twist.
calc-freeze-moisture = { $air } and { $precipitation }: moisture left in a fitting or line freezes. Blow it out or drain it before you close it.
calc-freeze-wet = It is { $air } but wet ({ $precipitation }): water on a fitting that flashes freezes at once. Dry it first.

## The residue’s paper

calc-paper-placards = Placards stay on until the car is cleaned and purged.
calc-paper-full-load = The residue ships under the rules of the full load.
calc-paper-telephone = An emergency telephone number is on the paper.
calc-paper-kept = The offeror keeps the paper two years.
