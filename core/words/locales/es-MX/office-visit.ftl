### The page of a visit: state, differing entries, open items, readings, event log, links, and what is done there.

office-visit-not-here = Aquí no hay tal expediente. No se conoce lo que los teléfonos aún no envían.
office-visit-car-unknown = Carro desconocido
office-visit-car = El carro
office-visit-receiver = a: { $receiver }
office-visit-product = { $product } (según el documento de transporte)
office-visit-since =
    { $count ->
        [one] Desde { $since }. { $count } registro. Horas en { $zone }.
       *[other] Desde { $since }. { $count } registros. Horas en { $zone }.
    }
office-visit-joined = Varios expedientes de una misma estadía, unidos.
office-visit-procedure = Procedimiento: { $procedure }.
office-visit-refresh = Actualizar
office-visit-packet = Expediente de evidencia
office-visit-by = { $name }, { $time }, en { $device }
office-visit-released-residue = Liberado como remanente
office-visit-released-not-residue = Liberado, no como remanente
office-visit-out = Sin devolver: { $items }
office-visit-hold = RETENIDO: { $because }
office-visit-next-time = De la visita anterior: { $what }
office-visit-see-other = Verlo
office-visit-differ = Discrepancia entre registros: { $about }
office-visit-received-at = recibido { $time }
office-visit-because = motivo: { $why }
office-visit-reopened = Resuelta antes y reabierta
office-visit-why-stands = Por qué conservar este registro
office-visit-settle-note = Ambos registros quedan en el expediente. La clave de la oficina firma su elección a nombre de usted, y se envía a los teléfonos.
office-visit-settle = Conservar este
office-visit-notices = Avisos
office-visit-alarm = Alarma:
office-visit-check = Revisar:
office-visit-fittings = Accesorios
office-visit-fitting = Accesorio
office-visit-valve = Válvula
office-visit-closure = Cierre
office-visit-heard = Se escuchó
office-visit-line = Línea
office-visit-entries-differ = (discrepancia)
office-visit-not-recorded = sin registrar
office-visit-engaged = Roscas enganchadas: { $threads }
office-visit-after-shut = después de cerrar la válvula
office-visit-line-on = conectada
office-visit-line-off = desconectada
office-visit-cover = Tapa de la caja protectora
office-visit-cover-state =
    { $closed ->
        [yes] cerrada
       *[other] abierta
    }, { $pinned ->
        [yes] pasador puesto
       *[other] sin pasador
    }, { $there } de { $wanted } pernos en su lugar
office-visit-weather = Clima
office-visit-open-at-release = Pendientes al liberar
office-visit-open-items = Pendientes antes de liberar
office-visit-items =
    { $count ->
        [one] { $count } pendiente
       *[other] { $count } pendientes
    }
office-visit-asked-by = Lo pide { $who }: { $source }
office-visit-overridden = Excepciones autorizadas, con motivo
office-visit-fallen = ya no es válida: { $why }
office-visit-seals = Sellos
office-visit-seal = { $event }: { $number }
office-visit-not-intact = NO intacto
office-visit-lacks = falta: { $what }
office-visit-no-number = sin número legible
office-visit-photographs = Fotografías
office-visit-photo-alt = Fotografía: { $of }, { $name }, { $time }
office-visit-photo-to-come = Aún no se recibe. El teléfono todavía la tiene.
office-visit-defects = Defectos
office-visit-defect-authority = El carro solo se mueve con una autorización.
office-visit-reported = Informado a { $to } ({ $how })
office-visit-answered = Autorización de { $by }, referencia { $reference }
office-visit-written-due = por escrito a más tardar { $due }
office-visit-overdue = vencida
office-visit-repaired = Reparado: { $how }
office-visit-defect-open = pendiente
office-visit-holds-over = Retenciones levantadas
office-visit-lifted = levantada: { $because }
office-visit-ended = Discrepancias y cómo se resolvieron
office-visit-agreed = conservado
office-visit-later = Después:
office-visit-devices = Dispositivos y sus registros
office-visit-device-entries =
    { $count ->
        [one] { $count } registro
       *[other] { $count } registros
    }
office-visit-device-clock = su reloj: { $off }
office-visit-chains-whole = Cada dispositivo numera sus registros en todos los expedientes. No falta ninguno anterior al más reciente de aquí.
office-visit-log = Bitácora de eventos
office-visit-log-note = Declarada: según el reloj del dispositivo. Si ese reloj estaba mal al compararlo, abajo va la hora corregida. Recibida: según el reloj de este servidor.
office-visit-claimed = Declarada
office-visit-received = Recibida
office-visit-cargo = Lo que recibió la carga
office-visit-recorded = Lo registrado
office-visit-who = Quién, en qué
office-visit-clock-about = su reloj: { $off }; aproximadamente { $time }
office-visit-why-kept = por qué se conservó: { $why }
office-visit-why-gone = por qué ya no está vigente: { $why }
office-visit-inspector = Permitir que un inspector lea este expediente
office-visit-link-note = Un enlace abre este expediente y su expediente de evidencia a quien lo tenga, hasta que venza.
office-visit-link-for = Para quién
office-visit-link-days = Por cuántos días
office-visit-link-make = Crear un enlace
office-visit-link-right = Crear un enlace requiere el derecho de resolver discrepancias. Aquí están los enlaces creados hasta ahora.
office-visit-link-made = { $label }, creado por { $by }
office-visit-link-revoked = revocado { $time }
office-visit-link-good = válido hasta { $time }
office-visit-link-expired = vencido { $time }
office-visit-link-revoke = Revocar
office-visit-link-revoke-of = Revocar el enlace para { $label }
office-visit-looked = Quién consultó este expediente
office-visit-nobody = Nadie antes que usted.
office-visit-readings = Lecturas
office-visit-readings-note = Tal como se leyó, con el ± del manómetro según su grado si el sitio lo registró
office-visit-reading = Lectura
office-visit-value = Valor
office-visit-instrument = Instrumento
office-visit-who-when = Quién y cuándo
office-visit-disputed = discrepancia
office-visit-no-instrument = instrumento sin nombre
office-visit-computed = Calculado a partir del expediente
office-visit-computed-label = Cantidades calculadas
office-visit-computed-note = ± es la mitad del intervalo de 95%. Nada de esto se guarda: se calcula cada vez a partir de los registros.
office-visit-quantity = Cantidad
office-visit-method = Método y fuente
office-visit-for-product = para { $product }
office-visit-largest = mayor parte del ±: { $largest }
office-visit-reopen = Reabrir
office-visit-reopen-why = Por qué se reabre
office-visit-reopen-note = La resolución queda en el expediente con el motivo. Los registros vuelven a tener discrepancia.
office-visit-choose-settlement = Elija qué resolución reabrir.
office-visit-reopen-reason = Escriba por qué se reabre, en 1000 caracteres como máximo. El expediente conserva el motivo.
office-visit-no-record = No existe tal expediente.
office-visit-no-settlement = No existe tal resolución.
office-visit-choose-entry = Elija qué registro conservar.
office-visit-settle-reason = Escriba por qué se conserva este registro, en 1000 caracteres como máximo. El expediente conserva el motivo.
office-visit-changed = El expediente cambió desde que lo consultó: llegaron otros registros o ya se resolvió la discrepancia. Actualice antes de elegir.
office-visit-link-1-90 = Un enlace es válido de 1 a 90 días.
office-visit-link-label = Escriba para quién es el enlace, en 64 caracteres como máximo.
office-visit-link-title = Un enlace
office-visit-link-title-for = Un enlace para { $label }
office-visit-link-once = Abre un expediente y su expediente de evidencia hasta { $time }. Se muestra una sola vez y no se guarda aquí: cópielo ahora.
office-visit-back = Volver al expediente
office-visit-no-photo = Esta fotografía no está aquí.
office-visit-amount = { $amount }
office-visit-amount-within = { $amount } ± { $half_width } { $unit }
