### The page of instruments and hoses.

office-instruments-title = Instrumentos y mangueras
office-instruments-described =
    { $count ->
        [one] Los sitios describen { $count }.
       *[other] Los sitios describen { $count }.
    }
office-instruments-none-late = Ninguno está vencido.
office-instruments-late =
    { $count ->
        [one] { $count } vencido.
       *[other] { $count } vencidos.
    }
office-instruments-twice = Las lecturas de un instrumento vencido cuentan con el doble de su ±.
office-instruments-name = Nombre
office-instruments-what = Qué es
office-instruments-site = Sitio
office-instruments-due = Vencimiento
office-instruments-used = Usado estando vencido
office-instruments-hose = manguera: { $service }
office-instruments-gauge = { $measures }, { $span }
office-instruments-graded = { $measures }, { $span }, grado { $grade }
office-instruments-no-date = sin fecha registrada
office-instruments-overdue = vencido desde { $day }
office-instruments-more = y { $count } más
office-instruments-unknown = Nombrados en expedientes, sin descripción de un sitio
office-instruments-stays =
    { $count ->
        [one] { $count } estadía
       *[other] { $count } estadías
    }
