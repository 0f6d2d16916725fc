### Words about this phone: its settings, what is only on it, sending and transfer files.

## Only on this phone

phone-here-title = Solo en este teléfono
phone-here-entries =
    { $n ->
        [one] entrada
       *[other] entradas
    }
phone-here-photos =
    { $n ->
        [one] foto
       *[other] fotos
    }
phone-here-count =
    { $n ->
        [one] 1 entrada
       *[other] { $n } entradas
    }
phone-here-free = Más de { $size } libres
phone-here-gigabytes = { $n } GB
phone-here-megabytes = { $n } MB
phone-here-no_room = No queda espacio en este teléfono
phone-here-send = Enviar ahora
phone-here-carry = Archivo de traslado
phone-here-only = solo aquí
phone-here-little = Queda poco espacio. Envíe fotos o libere espacio.
phone-here-not_kept = Este teléfono puede borrar registros
phone-here-ask_keep = El navegador puede borrarlos. Pídale conservarlos.
phone-here-damaged =
    { $n ->
        [one] 1 fila dañada en este teléfono
       *[other] { $n } filas dañadas en este teléfono
    }
phone-here-put_off = Por ahora la oficina no recibe más de este teléfono. Lo demás queda aquí y se envía después.
phone-here-differing =
    { $n ->
        [one] 1 registro difiere del de la oficina
       *[other] { $n } registros difieren de los de la oficina
    }
phone-here-differing_do = Aquí no se perdió nada. Envíe otra vez. Si sigue así, avise a la oficina.
phone-here-left =
    { $n ->
        [one] 1 registro retirado de este teléfono
       *[other] { $n } registros retirados de este teléfono
    }
phone-here-left_where = Este teléfono ya no tiene ese sitio. La oficina los tiene.
phone-here-aside =
    { $n ->
        [one] 1 elemento rechazado y apartado
       *[other] { $n } elementos rechazados y apartados
    }

## Sending

phone-sync-idle = Aún sin enviar
phone-sync-running = Enviando
phone-sync-met = Enviado a la oficina a las { $at }
phone-sync-no_office = Oficina fuera de alcance a las { $at }
phone-sync-not_enrolled = Sin alta: no se envía nada
phone-sync-answered = La oficina contestó con el error { $status }.

## Settings

phone-setup-title = Este teléfono
phone-setup-operator = Operador de descarga
phone-setup-site = Sitio
phone-setup-text = Tamaño de letra
phone-setup-look = Pantalla
phone-setup-day = Día
phone-setup-night = Noche
phone-setup-auto = Auto
phone-setup-lang = Idioma
phone-setup-pressure = Presión
phone-setup-temperature = Temperatura
phone-setup-volume = Volumen
phone-setup-torque = Torque
phone-setup-enrol = Dar de alta con un código
phone-setup-enrolled = Dado de alta
phone-setup-keep = Listo
phone-setup-coming = Cargando de la oficina
phone-setup-photo_place = ¿Conservar el lugar dentro de las fotos?
phone-setup-reminders = Sonido cuando toca una lectura o un aviso
phone-setup-position = ¿Anotar dónde se hacen las entradas?
phone-setup-key = clave { $key }

## The language

phone-language-yours = { $name } lee este idioma en este teléfono.
phone-language-phone = El idioma de este teléfono, hasta que alguien diga quién es.
phone-language-not_read = Traducido sin revisión de un hablante nativo
phone-language-not_here = Este idioma necesita señal una vez. Intente de nuevo con señal.

## Transfer files

phone-carry-title = Archivo de traslado
phone-carry-out = Exportar archivo
phone-carry-in = Importar archivo
phone-carry-note = Para dos teléfonos sin señal. El archivo va firmado e importarlo dos veces no hace daño. Las fotos van también mientras quepan.
phone-carry-made =
    { $n ->
        [one] 1 carro
       *[other] { $n } carros
    }, { $photos ->
        [one] 1 foto
       *[other] { $photos } fotos
    } en el archivo
phone-carry-took =
    Entradas nuevas: { $n } de { $of }, { $photos ->
        [one] 1 foto
       *[other] { $photos } fotos
    }
phone-carry-made_some =
    { $n ->
        [one] 1 carro
       *[other] { $n } carros
    }, { $photos ->
        [one] 1 foto
       *[other] { $photos } fotos
    } en el archivo; fotos que no cupieron: { $left }

## Enrolling, who, where

phone-enrol-why = Con el código de un solo uso de la oficina
phone-enrol-note = La oficina da un código de un solo uso. Péguelo, escríbalo o escanéelo.
phone-enrol-code = Código
phone-enrol-name = Nombre de este teléfono
phone-enrol-do = Dar de alta el teléfono
phone-enrol-other_server = Contestó otro servidor que el que dio el código. Pregunte a la oficina.
phone-who-title = ¿Quién es usted?
phone-who-why = Su nombre queda con todo lo que anote.
phone-who-code = Su código corto
phone-who-me = Soy yo
phone-where-title = ¿Cuál sitio?
phone-where-none = No se conoce ningún sitio. Dé de alta el teléfono o importe un archivo de traslado.

## When nothing can be recorded

phone-refused-title = Aquí no se puede anotar
phone-refused-why = Esta ventana del navegador olvida todo al cerrarse. Abra la aplicación desde la pantalla de inicio, no en una ventana privada.
phone-refused-help = La ayuda sí funciona
phone-waiting-title = Abierto en otra ventana
phone-waiting-why = Solo una ventana puede anotar. Vaya a la otra o siga aquí.
phone-waiting-take = Seguir aquí
phone-broken-title = Error de la aplicación, sus entradas están guardadas
phone-broken-why = Inicie de nuevo la aplicación. Lo confirmado está en este teléfono.
phone-broken-again = Iniciar de nuevo
phone-trouble-full = No queda espacio en este teléfono. Esto NO se anotó. Libere espacio e intente de nuevo.
phone-trouble-why = Primero diga por qué, arriba
phone-trouble-code = No se pudo leer ningún código. Escríbalo.
phone-trouble-no_network = No se alcanza la oficina. Revise la señal e intente de nuevo.
phone-trouble-read = Entendido
phone-trouble-not_lasting = Este navegador puede borrar lo anotado. Esto NO se anotó. Ponga la aplicación en la pantalla de inicio y ábrala desde allí, no en una ventana privada.
phone-trouble-no_picture = La foto está vacía. Tómela de nuevo.
phone-lasting-do = Ponga primero la aplicación en la pantalla de inicio: este navegador puede borrar lo anotado.
phone-update-ready = Hay una versión nueva
phone-update-take = Actualizar ahora
phone-starting = Abriendo los registros
phone-opening = Abriendo el carro
