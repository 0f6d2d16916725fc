### Words about what protects this phone and its records: keys, PINs, the lock.

## A person’s PIN

phone-pin-title = Su NIP
phone-pin-head = NIP
phone-pin-typed = { $n } de 6 dígitos
phone-pin-act = Firma lo que está por anotar.
phone-pin-shift = Firma por usted hasta el fin del turno.
phone-pin-checking = Un momento
phone-pin-without = Seguir sin firmar
phone-pin-forgotten = Lo olvidé
phone-pin-wrong =
    { $n ->
        [one] NIP incorrecto. Queda 1 intento; después se borra la clave de este teléfono.
       *[other] NIP incorrecto. Quedan { $n } intentos.
    }
phone-pin-waits = Demasiados intentos. Intente de nuevo a las { $at } o siga sin firmar.
phone-pin-locked = Su clave de este teléfono se borró después de diez intentos. Avise a la oficina y cree otro NIP. Lo firmado sigue firmado.
phone-pin-ended = La oficina dio de baja su clave de este teléfono. Cree otro NIP.
phone-pin-weak = Este NIP es muy fácil de adivinar. Elija otro.
phone-pin-make = Crear su NIP
phone-pin-choose = Elija seis dígitos que nadie adivine: ni cumpleaños ni teclas en fila.
phone-pin-six = Seis dígitos
phone-pin-again = Otra vez
phone-pin-old = Su NIP actual
phone-pin-two_differ = No eran iguales. Elija de nuevo.
phone-pin-none = Sin su firma
phone-pin-why = Lo que anota aquí lleva su nombre por el teléfono, no su firma. Con su propio NIP usted lo firma.
phone-pin-alone = Solo usted lo sabe, ni siquiera la oficina. No lo diga a nadie.
phone-pin-short = Para firmar usted lo que le obliga
phone-pin-have = Con su firma
phone-pin-confirmed = La oficina confirmó su clave.
phone-pin-not_confirmed = La oficina le pedirá estos dígitos por teléfono. No son secretos.
phone-pin-digits = Su clave
phone-pin-change = Cambiar el NIP
phone-pin-forgotten_title = ¿Olvidó el NIP?
phone-pin-forgotten_why = Nadie puede devolverlo. Su clave de este teléfono se borra y usted crea otra. Avise a la oficina para dar de baja la anterior. Lo firmado sigue firmado.
phone-pin-drop = Borrar la clave
phone-pin-later = Más tarde
phone-pin-lock = Bloquear ya: fin del turno
phone-pin-holds = { $name } tiene este teléfono hasta las { $at }
phone-pin-held = lo tiene { $name }
phone-pin-unsigned = Con su nombre por el teléfono, sin su firma.
phone-pin-needed = Su organización solo lo cuenta con su propia firma.

## How this phone is protected

phone-guard-title = Protección de este teléfono
phone-guard-key = La clave de este teléfono
phone-guard-records = Registros y fotos en él
phone-guard-wrapped = La guarda el navegador; ninguna página puede leerla.
phone-guard-sealed = Cifrados. Una copia de los archivos sola no se puede leer.
phone-guard-open = Quien copie los archivos de este teléfono puede leerlo.
phone-guard-aside = No se pueden leer registros anteriores
phone-guard-aside_why = El navegador perdió su clave. Quedan como están. Lo enviado vuelve de la oficina.
phone-guard-short = Su clave, sus registros, su bloqueo
phone-lock-on = Se abre con un NIP
phone-lock-on_why = Adivinar el NIP de un teléfono copiado toma días. Los números de emergencia, carros, posiciones y precauciones quedan a la vista.
phone-lock-off = Se abre sin NIP
phone-lock-off_why = Quien tenga el teléfono, o una copia de todos sus archivos con los del navegador, tiene los registros.
phone-lock-cannot = Un bloqueo taparía la pantalla sin proteger nada; por eso aquí no hay.
phone-lock-make = Elegir el NIP del teléfono
phone-lock-old = El NIP actual del teléfono
phone-lock-end = Abrir sin NIP
phone-lock-now = Bloquear ahora
phone-lock-after = Se bloquea después de
phone-lock-title = Bloqueado
phone-lock-asks = El NIP del teléfono
phone-lock-cars =
    { $n ->
        [one] Precaución en 1 carro
       *[other] Precaución en { $n } carros
    }
phone-lock-wrong = NIP incorrecto. Intente de nuevo.
phone-lock-waits = Demasiados intentos. Intente de nuevo a las { $at }.
phone-lock-waits_a_while = Demasiados intentos. Espere un rato.
phone-lock-failed = No funcionó. Nada cambió.
phone-lock-forgotten = ¿Olvidó el NIP?
phone-lock-forgotten_why = Nadie puede devolverlo, ni la oficina. Pregunte a quien más usó este teléfono. Lo enviado está en la oficina. Lo demás queda cifrado en este teléfono y nunca se borra.
phone-lost-title = Se perdió la clave de este teléfono
phone-lost-why = El navegador la perdió. Los registros quedan en este teléfono, pero aquí no se pueden leer. Lo enviado está en la oficina. Avise a la oficina antes de borrar nada.
