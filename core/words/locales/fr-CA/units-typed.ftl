### Why a typed text is not an amount, for whoever typed it.
units-nothing-typed = Rien n’a été saisi.
units-not-a-number = « { $text } » n’est pas un nombre.
units-behind-number = « { $text } » a quelque chose après le nombre qui n’est pas une unité.
units-two-readings = « { $text } » peut être { $decimal } ou { $thousands }. Écrire lequel.
units-cannot-be = « { $text } » est plus ou moins que le possible en { $unit }.
units-other-kind = { $typed } n’est pas le genre d’unité demandé ici, comme { $asked }.
units-other-number = « { $text } » en { $unit } vient avec le nombre { $number }. Le saisir de nouveau.
units-no-number = « { $text } » en { $unit } vient sans son nombre. Le saisir de nouveau.
units-unknown = « { $text } » n’est pas une unité connue ici. Écrire une de : { $known }
