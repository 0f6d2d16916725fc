### Why a typed text is not an amount, for whoever typed it.
units-nothing-typed = Nothing was typed.
units-not-a-number = “{ $text }” is not a number.
units-behind-number = “{ $text }” has something after the number that is not a unit.
units-two-readings = “{ $text }” can be { $decimal } or { $thousands }. Write which.
units-cannot-be = “{ $text }” is more or less than is possible in { $unit }.
units-other-kind = { $typed } is not the kind of unit asked for here, such as { $asked }.
units-other-number = “{ $text }” in { $unit } comes with the number { $number }. Type it again.
units-no-number = “{ $text }” in { $unit } comes without its number. Type it again.
units-unknown = “{ $text }” is not a unit known here. Write one of: { $known }
