### The state of the server: what was checked, what was found, and what to do.

office-state-title = Estado del servidor
office-state-refresh = Actualizar
office-state-well = Todas las revisiones están bien.
office-state-unwell = Una revisión falló. Lo que debe hacer está al lado.
office-state-now = Ahora
office-state-full = Revisión completa
office-state-last = Última vez { $time }, y una vez al día: cada registro, fotografía y resumen de la bitácora.
office-state-never = Aún no se hace. El servidor la hace diez minutos después de arrancar y luego una vez al día.
office-state-check-now = Hacer la revisión completa ahora
office-state-what = Revisión
office-state-is = Estado
office-state-found = Resultado
office-state-good = Bien
office-state-bad = Mal

## The checks

office-part-folder = Carpeta de datos
office-part-room = Espacio en disco
office-part-organisation_key = Clave de la organización
office-part-signing_key = Clave de firma
office-part-desk_key = Clave del dispositivo de la oficina
office-part-clock = Reloj de esta máquina
office-part-backup = Copias de seguridad
office-part-ledger = Expedientes (ledger.db)
office-part-log = Bitácora de los expedientes
office-part-photographs = Fotografías
office-part-register = Cuentas, dispositivos, documentos (server.db)
office-part-audit = Cadena de auditoría
office-part-index = Índice de estadías (index.db)
office-part-witness = Testigo
office-part-time_stamp = Marcas de fecha y hora

## Folder, disk and keys

office-found-no-answer = El disco de la carpeta no responde.
office-found-writable = Se puede escribir en ella.
office-found-disk-full = El disco está lleno; no se puede aceptar nada de los teléfonos. Libere espacio. Los teléfonos conservan sus registros hasta entonces.
office-found-not-writable = No se puede escribir en ella: { $why }. No se puede aceptar nada de los teléfonos. Revise de quién es la carpeta y si el disco está montado solo para lectura.
office-found-room-unknown = No se puede medir: { $why }.
office-found-room-unmeasured = No se mide en este sistema.
office-found-room = { $room } libres.
office-found-little-room = { $room } libres: las fotografías de un día podrían no caber. Libere espacio.
office-found-key-unusable = No se puede usar organisation.key: { $why }. El servidor sigue hasta que se detenga y no volverá a arrancar.
office-found-other-key = organisation.key no es la clave con la que arrancó este servidor. Reponga la correcta desde su copia segura.
office-found-key = La clave es { $key } …
office-found-desk-key = La clave del dispositivo { $key }.
office-found-desk-key-unusable = No se puede usar desk.key: { $why }.
office-found-key-is-root = Firma la clave raíz. Para quitar la raíz de este servidor: farsiding key offline.
office-found-key-works = Firma por la clave raíz.
office-found-key-works-until = Firma por la clave raíz hasta { $until }.
office-found-key-not-yet = La clave de firma { $key } comienza { $from }. Revise el reloj de esta máquina.
office-found-key-ended = La clave de firma { $key } terminó { $until }. Nombre otra con la clave raíz: farsiding key renew (o key request, sign, take).
office-found-key-withdrawn = La clave de firma { $key } se retiró como { $why } { $at }. Nombre otra con la clave raíz: farsiding key renew (o key request, sign, take).
office-found-key-unknown = La clave raíz no nombró la clave de firma { $key }. Nombre otra con la clave raíz: farsiding key renew (o key request, sign, take).
office-found-key-ends-soon = La clave de firma termina { $until }. Hasta entonces responde a los teléfonos. Nombre la siguiente con la clave raíz: farsiding key renew, o key request, sign y take.
office-withdrawn-replaced = reemplazada
office-withdrawn-lost = perdida
office-withdrawn-stolen = robada

## Clock and backups

office-found-clock-good = Coincide con la bitácora.
office-found-clock-note = Con { $size } registros alguien declaró que había estado mal: fechado { $held }, mostraba { $clock }. “{ $why }”
office-found-clock-behind = El reloj de esta máquina está { $stretch } atrás de su propia bitácora desde { $since }. Lo que llega se fecha { $held } hasta que el reloj la alcance. Si el reloj está mal ahora, corríjalo. Si estuvo mal antes, no haga nada.
office-found-clock-jumped = El reloj de esta máquina saltó { $stretch } hacia adelante { $at }. Si está mal ahora, corríjalo antes de que lleguen más registros: las horas de la bitácora no retroceden.
office-found-clock-ahead-of =
    { $count ->
        [one] El reloj de este servidor estaba { $count } min adelante del de allá. Corríjalo.
       *[other] El reloj de este servidor estaba { $count } min adelante del de allá. Corríjalo.
    }
office-found-clock-behind-of =
    { $count ->
        [one] El reloj de este servidor estaba { $count } min atrás del de allá. Corríjalo.
       *[other] El reloj de este servidor estaba { $count } min atrás del de allá. Corríjalo.
    }
office-found-backup-last = Última copia buena: { $at } ({ $file }, { $bytes } bytes).
office-found-backup-none = Aún no se ha hecho ninguna copia.
office-found-backup-unplanned = { $last } Este servidor no hace ninguna por sí solo (--backup-to).
office-found-backup-failed = El último intento falló: { $why }. { $last }
office-found-backup-damaged =
    { $count ->
        [one] { $last } { $count } fila estaba dañada al hacerla; por eso se conservan las anteriores. Ejecute farsiding check.
       *[other] { $last } { $count } filas estaban dañadas al hacerla; por eso se conservan las anteriores. Ejecute farsiding check.
    }
office-found-backup-overdue = Falta hacer una copia. { $last }

## The full check

office-found-records = { $entries } registros, { $changes } cambios, { $receipts } acuses de recibo, { $certificates } certificados: todo como se firmó o escribió.
office-found-leaves = { $leaves } hojas, y cada resumen sobre ellas es correcto.
office-found-photographs = { $count } fotografías, { $bytes } bytes: todo como se recibió.
office-found-audit = { $rows } filas, y cada una concuerda con la anterior.
office-found-whole = Sin daños.
office-found-damaged-rows =
    { $count ->
        [one] { $count } fila dañada. La primera: { $part } { $row }: { $why }. { $advice }
       *[other] { $count } filas dañadas. La primera: { $part } { $row }: { $why }. { $advice }
    }
office-found-check-advice = Ejecute farsiding check --data en esta carpeta: nombra cada fila y, con --mend, repara registros. De lo contrario conserve la carpeta como está y restaure la copia más reciente en otra nueva. Los teléfonos devuelven lo que falte.
office-found-index-advice = Es derivado. Detenga el servidor, borre index.db y arranque de nuevo.
office-found-damaged = Dañado: { $why }. { $advice }
office-found-unreadable = No se puede leer: { $why }. { $advice }
office-found-check-failed = La revisión falló: { $why }.

## Witnesses and time stamps

office-found-tries =
    { $count ->
        [one] desde { $since }: { $why }
       *[other] desde { $since }, { $count } intentos: { $why }
    }
office-found-of = { $name }: { $found }
office-found-all = { $items }
office-found-two = { $first } { $second }
office-found-signed =
    { $count ->
        [one] Firmó la bitácora de { $count } registro { $at }.
       *[other] Firmó la bitácora de { $count } registros { $at }.
    }
office-found-signed-nothing = Aún no ha firmado nada.
office-found-refuses = Se niega a firmar, { $told }. { $signed } Si se restauró una copia, declárelo (farsiding restored). De lo contrario alguien cambió la bitácora: conserve la carpeta como está.
office-found-does-not-sign = No firma, { $told }. { $signed }
office-found-stamped =
    { $count ->
        [one] La bitácora de { $count } registro se fechó { $at } por { $authority }.
       *[other] La bitácora de { $count } registros se fechó { $at } por { $authority }.
    }
office-found-stamped-no-root =
    { $count ->
        [one] La bitácora de { $count } registro se fechó { $at } por { $authority } (no se verificó quién la certifica: no se dio una raíz).
       *[other] La bitácora de { $count } registros se fechó { $at } por { $authority } (no se verificó quién la certifica: no se dio una raíz).
    }
office-found-stamped-nothing = Aún no se ha fechado nada.
office-found-no-stamp = { $authority } no da ninguna marca de fecha y hora, { $told }. { $last }
