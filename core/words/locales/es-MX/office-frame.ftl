### The frame of every page: navigation, times, and the choice of a language.

office-frame-window = { $title } · Farsiding, oficina
office-frame-skip = Ir al contenido
office-frame-home = { $name }: ir a Hoy
office-frame-places = Páginas
office-frame-today = Hoy
office-frame-inquiry = Consulta
office-frame-reconcile = Conciliación
office-frame-seals = Sellos
office-frame-defects = Defectos
office-frame-instruments = Instrumentos
office-frame-procedures = Procedimientos
office-frame-papers = Documentos
office-frame-devices = Dispositivos
office-frame-account = Su cuenta
office-frame-one-record = un expediente
office-frame-sign-out = Cerrar sesión
office-frame-behind =
    { $count ->
        [one] La página se está actualizando: falta { $count } registro.
       *[other] La página se está actualizando: faltan { $count } registros.
    }

## The choice of a language. A language names itself in its own words

office-language-name = Español (México)
office-language-choice = Idioma

## How long, and how long ago

office-time-now = ahora
office-time-just-now = hace un momento
office-time-minutes = { $count } min
office-time-hours = { $count } h
office-time-days =
    { $count ->
        [one] { $count } día
       *[other] { $count } días
    }
office-time-ago = hace { $stretch }
office-time-ahead = { $stretch } de adelanto
office-time-behind = { $stretch } de atraso
