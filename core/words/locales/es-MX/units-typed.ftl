### Why a typed text is not an amount, for whoever typed it.
units-nothing-typed = No se escribió nada.
units-not-a-number = “{ $text }” no es un número.
units-behind-number = “{ $text }” tiene algo después del número que no es una unidad.
units-two-readings = “{ $text }” puede ser { $decimal } o { $thousands }. Escriba cuál.
units-cannot-be = “{ $text }” es más o menos de lo posible en { $unit }.
units-other-kind = { $typed } no es el tipo de unidad que se pide aquí, como { $asked }.
units-other-number = “{ $text }” en { $unit } viene con el número { $number }. Escríbalo otra vez.
units-no-number = “{ $text }” en { $unit } viene sin su número. Escríbalo otra vez.
units-unknown = “{ $text }” no es una unidad que se conozca aquí. Escriba una de: { $known }
