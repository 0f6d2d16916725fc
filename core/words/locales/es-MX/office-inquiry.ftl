### The page of inquiry: one box for a number, a seal, a date or a place.

office-inquiry-title = Consulta
office-inquiry-asked = Número del carro, sello, fecha o lugar
office-inquiry-find = Buscar
office-inquiry-how = Los espacios, guiones y mayúsculas no importan. Escriba la fecha como 2026-11-09, 11/9/2026 (primero el mes) o 9 Nov 2026. Agréguela a un número o a un lugar para acotar.
office-inquiry-none = Nada encontrado para «{ $asked }»
office-inquiry-none-on = Nada encontrado para «{ $asked }» el { $day }
office-inquiry-not-sent = Aquí no se conoce lo que los teléfonos aún no envían.
office-inquiry-records =
    { $count ->
        [one] { $count } expediente
       *[other] { $count } expedientes
    }
office-inquiry-records-on =
    { $count ->
        [one] { $count } expediente el { $day }
       *[other] { $count } expedientes el { $day }
    }
office-inquiry-more = Hay más. Agregue una fecha o un lugar.
office-inquiry-near = Un carácter de diferencia
office-inquiry-span = { $from } a { $to }
office-inquiry-released = liberado
office-inquiry-differ = discrepancia
office-inquiry-record = Expediente
office-inquiry-packet = Expediente de evidencia
office-inquiry-record-of = Expediente de { $car }, { $day }
office-inquiry-packet-of = Expediente de evidencia de { $car }, { $day }
office-inquiry-why-number = número del carro
office-inquiry-why-begins = el número del carro empieza así
office-inquiry-why-at = en { $site }
office-inquiry-why-day = presente el { $day }
office-inquiry-why-near = un carácter de diferencia: { $said }
