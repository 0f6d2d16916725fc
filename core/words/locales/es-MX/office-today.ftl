### The page of today: every car at every site, and what phones have not sent.

office-today-title = Hoy
office-today-refresh = Actualizar
office-today-cars =
    { $count ->
        [one] { $count } carro
       *[other] { $count } carros
    }
office-today-sites =
    { $count ->
        [one] { $count } sitio
       *[other] { $count } sitios
    }
office-today-count = { $cars } en { $sites }.
office-today-held =
    { $count ->
        [one] { $count } carro retenido.
       *[other] { $count } carros retenidos.
    }
office-today-differ =
    { $count ->
        [one] { $count } carro con discrepancias.
       *[other] { $count } carros con discrepancias.
    }
office-today-device = dispositivo { $device }
office-today-all-in = Llegó todo lo que los teléfonos reportaron. Aquí no se sabe lo que registraron después de su última sincronización.
office-today-behind = Por recibir
office-today-sent-all = Informó que envió todo
office-today-unsent = Sin enviar: { $what }
office-today-heard = Última sincronización: { $ago }
office-today-never = nunca
office-today-photos =
    { $count ->
        [one] { $count } fotografía anunciada, archivo por recibir
       *[other] { $count } fotografías anunciadas, archivos por recibir
    }
office-today-site-unknown = Sitio aún desconocido
office-today-no-site = Aún no se conoce ningún sitio. El primer teléfono que sincronice envía el suyo.
office-today-no-car = Ningún carro en este sitio.
office-today-since-placement = desde la colocación
office-today-since-entry = desde el primer registro
office-today-number-unknown = número desconocido
office-today-alarm = Alarma: consulte el registro
office-today-nothing = Sin pendientes
office-today-leaving = Liberados, sin retiro registrado
office-today-released-cars = Carros liberados
office-today-car = Carro
office-today-site = Sitio
office-today-released = Liberado
office-today-notices = Avisos
office-today-entries =
    { $count ->
        [one] { $count } registro
       *[other] { $count } registros
    }
office-today-photographs =
    { $count ->
        [one] { $count } fotografía
       *[other] { $count } fotografías
    }
office-today-nothing-unsent = nada
office-today-items = { $items }

## Quién tiene un carro y lleva retraso

office-overdue-title =
    { $count ->
        [one] 1 persona lleva retraso
       *[other] { $count } personas llevan retraso
    }
office-overdue-signal = Tienen un carro y no han dicho nada desde entonces. El silencio puede ser solo falta de señal: llámeles, y luego a quien esté cerca. Esto no es un equipo de rescate.
office-overdue-since = Con retraso de { $since }: último aviso { $last }, se pide cada { $minutes } minutos.
