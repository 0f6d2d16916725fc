### Words on the phone that every screen shares, and those of the screens that lead to a car.

phone-yes = Sí
phone-no = No
phone-why = ¿Por qué?
phone-when = Cuándo
phone-now = Ahora
phone-this_phone = este teléfono
phone-optional = opcional
phone-photo = Foto
phone-nav-back = Atrás
phone-nav-help = Ayuda
phone-nav-plan = Plano
phone-nav-cars = Carros
phone-nav-more = Más
phone-form-next = Más { $at }/{ $of }
phone-only-none = todo enviado
phone-only-short = solo aquí

## Cars

phone-cars-title = Carros aquí
phone-cars-new = Carro nuevo
phone-cars-find = Buscar
phone-cars-clear = Sin puntos pendientes
phone-cars-setup = Perfil
phone-cars-none = Aún no hay carros
phone-cars-who = { $name } tiene este teléfono
phone-cars-gone =
    { $n ->
        [one] 1 liberado
       *[other] { $n } liberados
    }
phone-cars-more = { $n } más
phone-cars-look =
    { $n ->
        [one] 1 alarma
       *[other] { $n } alarmas
    }

## This car

phone-more-title = Este carro
phone-more-proof = Comprobar vaciado
phone-more-tally = Herramienta y piezas fuera
phone-more-seal = Sello
phone-more-defect = Defectos
phone-more-differ = Dos entradas difieren
phone-more-reading = Lectura
phone-more-protections = Protecciones
phone-more-pointed =
    { $n ->
        [one] 1 aviso
       *[other] { $n } avisos
    }
phone-more-left =
    { $n ->
        [one] falta 1
       *[other] faltan { $n }
    }

## A new car, and finding one

phone-new-title = Carro nuevo
phone-new-mark = Inicial
phone-new-number = Número
phone-new-again = Número otra vez
phone-new-photo = Foto del rótulo
phone-new-receiver = Se descarga a
phone-new-open = Abrir este carro
phone-new-differ = Los números no coinciden
phone-new-same = Igual las dos veces
phone-new-whole = Inicial y número
phone-new-spot = Vía y posición
phone-new-here = { $car } ya está aquí
phone-find-title = Buscar un carro
phone-find-type = Número de carro o sello
phone-find-none = No hay ese número aquí

## The emergency card

phone-help-title = Llame primero, anote después
phone-help-guide = Guía
phone-help-leave = Si aumenta, retírese. Vaya contra el viento y lejos de zonas bajas.
phone-help-look_up = Búsquelo en la guía
phone-help-local = Número de emergencia
phone-help-no_contacts = No se conoce ningún sitio: estos son los números públicos.
phone-help-usual = Gas LP, si el documento de transporte no dice otra cosa
phone-help-paper = según el documento de transporte
