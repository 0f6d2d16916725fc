### Why a formula has no result, and the limits of its inputs.

## Errors

calc-error-missing = { $input } is missing; give it in { $wanted }.
calc-error-not-a-number = { $input } is not a number: { $found }
calc-error-out-of-range = { $input } is { $value }; the limits are { $low } to { $high }
calc-error-because = { $said } ({ $why })
calc-error-above-saturation = { $pressure } is not below { $saturation }, at which vapor condenses at { $temperature }: liquid is present, or a reading is wrong.
calc-error-wrong-unit = { $input } is in { $found }; it must be convertible to { $wanted }.
calc-error-not-converged = No solution found for { $what }. Check the inputs; do not use an estimate instead.

## What was solved for

calc-solved-saturation = the saturation of { $mix }
calc-solved-boiling = the boiling temperature
calc-solved-density = the vapor density
calc-solved-formula = the formula

## Limits

calc-limits-tool = limits of this tool
calc-limits-sidings = no siding lies outside them
calc-limits-scale = the scale of the gauge
calc-limits-half-diameter = at most half the diameter
calc-limits-diameter = 0 to the inside diameter
calc-limits-hold = how long a hold may last
calc-limits-plus-minus = ± at 95 %, not negative
calc-limits-rows = the rows of the table
calc-limits-base-density = densities at 60 °F of 0.3500 to 0.6880, API MPMS 11.2.4
calc-limits-metric = API MPMS 11.2.4 / GPA TP-27; limits from memory and equal to those of Table 24E
calc-limits-critical = at that density the liquid ends at its pseudo-critical temperature
calc-limits-boiling = between −80 °F and the highest temperature covered for { $mix }
calc-limits-near-critical = too near the critical point of { $mix }

## Inputs that contradict each other

calc-plus-minus-too-wide = The ± of { $input } is wider than the formula covers. State it better.
calc-heads-hold-more = The heads of a { $diameter } shell alone hold { $heads }, more than the { $total } given for all of it.
calc-liquid-over-capacity = { $liquid } of liquid do not fit a capacity of { $capacity }.
calc-net-over-shell = { $net } net never fitted a shell of { $shell }, however cold it was loaded.
calc-slope-points = { $count } points give no slope here (2 to 2,000).
calc-slope-one-place = All points are at the same place: no slope.
calc-torque-band = A range from { $low } to { $high } is empty.
calc-level-times = The times of the level readings do not rise, or by less than a second.
calc-recovery-end = The end, { $end }, is not below the start, { $start }.
calc-recovery-never-pays = An hour of recovery costs more than it brings, even at the start.
calc-recovery-always-pays = An hour of recovery still pays at 1 psia: something else sets the stop.
calc-mix-twice = { $fluid } is twice in the mix.
calc-mix-sum = The mole fractions of the mix sum to { $sum }; they must sum to 1.
calc-no-composition = No composition is known for the grade.
calc-not-for-propylene = Table 24E is not valid for propylene ({ $mix }): it is off by −1.7 % at −40 °F to +3.0 % at 130 °F. Use the density ratio of the equation of state (density_ratio).

## Outage tables

calc-table-not-a-row = Line { $line }: “{ $text }” is not an outage and a volume.
calc-table-not-monotone = Line { $line }: at an outage of { $outage } the volume { $volume } does not follow from the row before. One of them is mistyped.
calc-table-repeated = Line { $line }: outage { $outage } is there twice.
calc-table-too-few = An outage table needs four rows or more; this one has { $count }.
calc-table-impossible = Line { $line }: { $text } cannot be an outage and a volume of a car.
calc-table-units = An outage table is in a length and a volume, not in { $outage } and { $volume }.
calc-table-needs-total = A table of outage volumes needs the shell’s total volume.
