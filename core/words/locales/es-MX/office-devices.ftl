### Devices: what they may do, codes for new ones, revoked ones, and their late entries.

office-devices-title = Dispositivos
office-devices-people = Personas y claves
office-devices-refresh = Actualizar
office-devices-enroll = Dar de alta un dispositivo
office-devices-name = Nombre del dispositivo
office-devices-role = Rol
office-devices-role-operator = registrar, resolver y liberar en sus sitios
office-devices-role-office = todo lo que puede la oficina
office-devices-role-inspector = leer los sitios que se le asignen, nada más
office-devices-grant = Sitios, derechos y último día: todos los sitios, todos los derechos de su rol, hasta revocarlo
office-devices-make-code = Generar un código de un solo uso
office-devices-late-waiting =
    { $count ->
        [one] { $count } registro tardío de un dispositivo revocado por revisar:
       *[other] { $count } registros tardíos de dispositivos revocados por revisar:
    }
office-devices-late = Registros tardíos
office-devices-enrolled = Dispositivos dados de alta
office-devices-refused = Datos rechazados
office-devices-none = Aún no hay dispositivos dados de alta.
office-devices-device = Dispositivo
office-devices-grants = Sitios, derechos, vigencia
office-devices-heard = Última sincronización
office-devices-clock = Reloj
office-devices-unsent = Sin enviar entonces
office-devices-chain = Numeración
office-devices-change = Cambiar
office-devices-own-name = se llama { $name }
office-devices-ended = terminó: { $until }
office-devices-never = nunca
office-devices-clock-right = correcto
office-devices-no-gap = sin huecos
office-devices-revoked = revocado
office-devices-change-of = Cambiar o revocar { $name }
office-devices-say-role = Elija qué puede hacer el dispositivo.
office-devices-enroll-of = Dar de alta { $name }
office-devices-how = Escanee la imagen con el teléfono, o escriba el código en la aplicación.
office-devices-good-for = Válido para
office-devices-one-until = un dispositivo, hasta { $time }
office-devices-sites = Sitios
office-devices-rights = Derechos
office-devices-certificate = Certificado
office-devices-valid = válido { $until }
office-devices-server = Servidor
office-devices-server-key = Clave del servidor
office-devices-replaces = El código anterior para este nombre ya no es válido.
office-devices-once = El código solo se muestra ahora. Quien lo use primero da de alta su dispositivo. Si se pierde, genere otro.
office-devices-back = Ir a los dispositivos
office-devices-picture = El código como imagen. Las letras están al lado.
office-devices-no-such = No existe tal dispositivo.
office-devices-revoke-title = Revocar un dispositivo
office-devices-revoke-question = ¿Revocar { $name }?
office-devices-revoke-lead = La revocación surte efecto ahora y no se puede deshacer. Lo que el dispositivo envió queda en el expediente. Lo que aún envíe se conserva y solo cuenta si la oficina lo admite. Ya no recibe nada.
office-devices-revoke-sure = El dispositivo se perdió, fue robado o ya no se usa
office-devices-revoke-of = Revocar { $name }
office-devices-leave = Cancelar
office-devices-sure = Marque la casilla para confirmar. No se revocó nada.
office-devices-key = Clave
office-devices-issued = Emitido
office-devices-renewed = { $issued }, renovado { $renewed }
office-devices-over = Está vencido.
office-devices-revoked-head = Revocado
office-devices-revoked-after = después de su registro número { $number }
office-devices-revoked-before = antes de que llegara algún registro suyo
office-devices-stays-revoked = Un dispositivo revocado queda revocado. Lo que envió después:
office-devices-renew = Cambiar o renovar
office-devices-renew-note = El dispositivo recibe el nuevo certificado en su siguiente sincronización. Lo que registró antes cuenta igual.
office-devices-issue = Emitir un certificado nuevo
office-devices-lost = Perdido, robado o fuera de uso
office-devices-all-sites = Todos, incluso los que se agreguen después
office-devices-these = Estos:
office-devices-no-site = Aquí aún no se conoce ningún sitio.
office-devices-site = sitio { $site }
office-devices-all-rights = Todos los derechos de su rol
office-devices-these-rights = Estos, en lugar de los de su rol:
office-devices-until = Último día (UTC). Vacío: hasta revocarlo
office-devices-ticked-all = Hay sitios o derechos marcados, pero arriba se eligió “Todos”. Elija “Estos” o no marque ninguno.
office-devices-tick-sites = Marque los sitios o elija todos.
office-devices-tick-rights = Marque los derechos o elija todos los de su rol.
office-devices-say-grant = Elija los sitios y los derechos.
office-devices-bad-name = Un dispositivo necesita un nombre de 1 a 64 caracteres en una línea.
office-devices-name-taken = Otro dispositivo se llama “{ $name }” ({ $device }). Elija otro nombre, como “{ $free }”.
office-devices-desk = Escritorio de la oficina
office-devices-office-name = “{ $name }” es el nombre del dispositivo de la oficina. Elija otro nombre.
office-devices-is-revoked = Este dispositivo fue revocado y así queda. Configúrelo de nuevo y genere otro código.

## A device's grant

office-grant-all-sites = todos los sitios
office-grant-all-sites-later = todos los sitios, incluso los que se agreguen después
office-grant-no-site = ningún sitio
office-grant-list = { $items }
office-grant-all-rights = todos los derechos de su rol
office-grant-no-right = ningún derecho
office-grant-revoked = hasta revocarlo
office-grant-until = hasta el final del { $day } UTC
office-grant-no-such-site = Ningún sitio se llama “{ $text }”.
office-grant-two-sites = Varios sitios se llaman “{ $text }”.
office-grant-no-such-right = “{ $text }” no es un derecho.
office-grant-no-date = “{ $text }” no es una fecha. Escríbala como 2027-06-30.
office-grant-over = { $text } ya pasó.
office-grant-inspector = Elija qué sitios puede leer el dispositivo del inspector.
office-grant-role-operator = operador de descarga
office-grant-role-office = oficina
office-grant-role-inspector = inspector
office-grant-right-record = registrar
office-grant-right-settle = resolver discrepancias, unir expedientes
office-grant-right-lift_hold = levantar una retención
office-grant-right-override = autorizar excepciones
office-grant-right-release = liberar un carro
office-grant-right-withdraw_others = anular lo que otros registraron
office-grant-right-keep_site = cambiar sitios
office-grant-right-issue_seals = entregar sellos
office-grant-right-keep_people = cambiar la lista de personas
office-grant-right-publish_procedures = publicar procedimientos
office-grant-right-admit = admitir registros tardíos
office-grant-right-enrol = dar de alta y revocar dispositivos
office-grant-right-read = leer expedientes

## Late entries of revoked devices

office-late-title = Registros tardíos
office-late-lead = Estos registros llegaron de un dispositivo después de revocarlo. Se conservan y no cuentan, porque cualquiera que tenga el teléfono pudo hacerlos. Admita un registro solo si sabe que es verdadero. El expediente muestra entonces quién lo admitió y por qué.
office-late-none = No llegó nada de un dispositivo revocado.
office-late-revoked = revocado { $time }
office-late-count =
    { $count ->
        [one] { $count } registro tardío
       *[other] { $count } registros tardíos
    }
office-late-more = Solo se muestran los primeros { $count }. Los demás se conservan.
office-late-last = Último registro antes de revocarlo: número { $number }
office-late-why = Motivo: { $why }
office-late-by = De
office-late-claimed = según el dispositivo
office-late-came = Recibido
office-late-unknown = desconocido
office-late-about = Sobre
office-late-number = Número
office-late-before-last = anterior al último que tenía la oficina. Pudo quedarse en el teléfono.
office-late-admitted = Admitido por { $by }, { $time }: { $why }
office-late-why-back = Por qué retirar la admisión
office-late-take-back = Retirar la admisión
office-late-why-admit = Por qué el registro es verdadero
office-late-admit = Admitir
office-late-reason = Escriba un motivo de hasta 1000 caracteres. El expediente lo conserva.
office-late-already = Este registro ya fue admitido.
office-late-not-now = Este registro no está admitido ahora.
office-late-no-such = No existe tal registro tardío.
office-late-kind = Un registro del tipo “{ $kind }”
office-late-record-of = { $car }, expediente { $record }
office-late-car = datos del carro { $car }
office-late-site = sitio { $site }
office-late-people = personas de la organización
