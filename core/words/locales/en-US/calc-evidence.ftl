### The evidence of whether the liquid is out: each piece, and what to do next.
calc-empty-caution = Model, not field-tested. It weighs what was recorded and does not know the car. A person decides and signs; a car shipped as residue with liquid in it hurts the next person who opens it.

## Pieces

calc-empty-rod-bottom = The rod is at its bottom: no liquid as high as it reaches. A heel under its end, or away from it on a slope, is not seen.
calc-empty-rod-liquid = The rod finds liquid.
calc-empty-valve-vapor = Vapor at the liquid valve: no liquid as high as the end of the pipe. What lies below it cannot come.
calc-empty-valve-liquid = Liquid comes from the liquid valve.
calc-empty-above-liquid = { $read } against { $condenses }, at which { $product } condenses at { $low }: { $margin }. It is even above the { $highest } of liquid there; dry vapor cannot be so high. Liquid somewhere warmer, inert gas, or a wrong reading.
calc-empty-at-saturation = { $read } against { $condenses }, at which { $product } condenses at { $low }: { $margin }. At or above it within the readings, as in a car with liquid.
calc-empty-below-saturation = { $read } against { $condenses }, at which { $product } condenses at { $low }: { $margin }. Below it: possible for dry vapor, and for liquid that is colder elsewhere.
calc-empty-wet = { $low } low in the tank less { $condenses }, at which { $product } condenses at { $pressure }, is { $superheat } of superheat. Under { $bound }, as in a wet tank.
calc-empty-near-outside = { $low } low in the tank less { $condenses }, at which { $product } condenses at { $pressure }, is { $superheat } of superheat. But that pressure saturates within { $bound } of the { $outside } outside: it cannot tell wet from dry.
calc-empty-no-outside = { $low } low in the tank less { $condenses }, at which { $product } condenses at { $pressure }, is { $superheat } of superheat. Without the outside temperature it is not known whether this can tell wet from dry.
calc-empty-dry = { $low } low in the tank less { $condenses }, at which { $product } condenses at { $pressure }, is { $superheat } of superheat. Over { $bound }, as in a dry tank of the model.
calc-empty-composition = { $low } low in the tank less { $condenses }, at which { $product } condenses at { $pressure }, is { $superheat } of superheat. For { $other } it would be { $most }: find out the composition.
calc-empty-between = { $low } low in the tank less { $condenses }, at which { $product } condenses at { $pressure }, is { $superheat } of superheat. Between wet and dry, or too uncertain to tell.
calc-empty-rebound = The pressure changed by { $change } in { $minutes }. More than { $bound }: liquid boils in the car.
calc-empty-no-rebound = The pressure changed by { $change } in { $minutes }. No large rise; that proves nothing: a heel that has warmed, or a slow compressor before, shows none either.

## What to do next

calc-next-liquid-off = Go back to taking liquid off, then to recovery; do not disconnect as empty.
calc-next-again = Then take fresh readings and weigh again.
calc-next-pressure = Read the pressure at the car on a low-range gauge.
calc-next-low-temperature = Read the temperature low in the tank, in the well or under the shell, out of the sun.
calc-next-outside = Record the outside temperature in the shade.
calc-next-liquid-valve = Crack a liquid valve through the line and see what comes: vapor or liquid.
calc-next-rod = Lower the gauging rod to the bottom.
calc-next-hold = Stop the compressor, block in the car and hold 15 min: a large rise means liquid; no rise proves nothing.
calc-next-draw-down = Draw the pressure further down and read pressure and low temperature again: superheat tells more at a lower pressure.
calc-next-decide = Whoever signs looks at each piece above and decides.
