### El expediente: las palabras de sus páginas y de los datos de la primera página.

## Pieces

packet-parts = { $parts }
packet-page = página { $page } de { $pages }
packet-title = Expediente probatorio, carro { $car }
packet-title-not-known = Expediente probatorio, carro desconocido
packet-subject = El registro de la estadía de un carro tanque en una espuela, con sus pruebas adjuntas
packet-author = Organización con la clave pública { $key }
packet-kind = Expediente probatorio: el registro de la estadía de un carro tanque
packet-car = Carro { $car }
packet-car-not-known = Carro desconocido
packet-proved = Qué está probado, por quién, y qué depende solo de la palabra de la organización
packet-cited = { $text } ({ $numbers })
packet-number = n.º { $number }
packet-numbers = n.º { $numbers }
packet-numbers-more = n.º { $numbers } y { $more } más
packet-other-record = de otro registro
packet-and-more = { $named }; y { $more } más
packet-not-in-log = no está en la bitácora
packet-by = { $who }, en { $device }, { $entry }
packet-by-known = { $who }, en { $device }, { $known }, { $entry }
packet-by-short = { $who }, { $at } ({ $known })
packet-by-disputed = { $by } – EN DISPUTA, vea Discrepancias
packet-is-disputed = { $text }, EN DISPUTA
packet-disputed = EN DISPUTA
packet-plus-minus = ± { $value }
packet-amount-typed = { $amount } (escrito "{ $typed }")
packet-reason = Motivo indicado: { $why }
packet-reason-given = motivo indicado: { $why }
packet-no-reason = no se indicó el motivo
packet-fate-because = { $fate }: { $why }
packet-not-recorded = sin registrar
packet-not-recorded-strong = SIN REGISTRAR
packet-none-recorded = ninguno registrado
packet-not-known = desconocido
packet-no-number = sin número legible
packet-document = Documento { $document }

## The first page: notices. FORMAT.md lists their digests: they change with the layout alone.

packet-notice-what = Esto es lo que se registró mientras un carro tanque a presión estuvo en una espuela. La organización indicada abajo conserva el registro y dejó sellado este archivo.
packet-notice-not = No prueba que una escena fuera como se afirma, que una fotografía muestre el carro que se dice, ni que la hora declarada por un dispositivo sea cierta. Eso es palabra de quien hizo la anotación. Ningún archivo puede mostrar lo que la organización dejó fuera de su registro.
packet-notice-never = Farsiding registra y calcula. Nunca declara que un carro sea seguro, esté vacío o pueda moverse. Los reglamentos locales, las instrucciones del propietario y la práctica autorizada van primero.

## The first page: labels. They stand at the beginning of a row.

packet-label-organisation = Organización
packet-label-car = Carro
packet-label-site = Sitio
packet-label-product = Producto
packet-label-procedure = Procedimiento
packet-label-dates = Fechas
packet-label-people = Personas
packet-label-seals = Sellos
packet-label-pressure = Presión final
packet-label-gallons = Galones, calculados
packet-label-alarms = ALARMAS
packet-label-holds = Retenciones
packet-label-overrides = EXCEPCIONES
packet-label-missing = Faltantes
packet-label-differ = Discrepancias
packet-label-release = Liberación
packet-label-aside = No cuentan
packet-label-device = Firma del dispositivo
packet-label-person = Persona
packet-label-log = Bitácora
packet-label-receipts = Acuses de recibo
packet-label-times = Horas
packet-label-witness = Testigo
packet-label-whole = Integridad

## The first page: facts

packet-organisation-named = { $name }, según se registró para el sitio; { $key }
packet-public-key = clave pública { $key }
packet-car-typed = { $car } (escrito { $typed })
packet-car-again-same = leído otra vez como { $typed } ({ $read }), el mismo
packet-car-again-other = leído otra vez como { $typed } ({ $read }), OTRO NÚMERO
packet-site = { $place }; las horas se muestran en { $zone } y en UTC
packet-site-not-known = desconocido
packet-procedure-named = { $title }; SHA-256 de su texto { $digest }
packet-procedure-not-held = aquí no se tiene su texto; SHA-256 { $digest }
packet-into-tank = descargado a un tanque fijo
packet-into-trucks = descargado a autotanques
packet-into-unknown = no se registró a dónde se descargó
packet-no-paper = no hay documento de embarque registrado
packet-paper-number = documento { $number }
packet-paper-from = de { $shipper }
packet-paper-billed = facturado { $amount }
packet-paper-compared = leído por la oficina de { $file }, línea { $line }, y comparado con el documento en la mano
packet-placed = colocado { $at }
packet-pulled = retirado { $at }
packet-first-entry = primera anotación { $at }
packet-last-entry = última { $at }
packet-last-received = última anotación recibida { $at }
packet-person =
    { $name }, { $count ->
         [one] { $count } anotación
        *[other] { $count } anotaciones
    }
packet-name-removed = { $code } (nombre eliminado en la oficina)
packet-person-code =
    { $name } ({ $code }), { $count ->
         [one] { $count } anotación
        *[other] { $count } anotaciones
    }
packet-seal-event = { $event } { $number }
packet-seal-event-broken = { $event } { $number }, NO INTACTO
packet-seal-at = { $place }: { $events }
packet-more-places =
    { $count ->
         [one] y un lugar más
        *[other] y { $count } lugares más
    }
packet-pressure = { $amount } { $worth } ({ $by })
packet-pressure-not-known = { $amount }, ± desconocido
packet-as-settled = { $text }, según lo acordado
packet-named = { $what }: { $value }
packet-trucks-loaded = Cargado en autotanques: { $value }
packet-no-gallons = no se pudo calcular nada; vea Valores
packet-no-alarms = Ninguna señalada por el programa.
packet-counted = { $count }: { $named }
packet-none = Ninguna.
packet-holds-called = { $count } en total: { $named }
packet-passed-over = { $count } con motivo: { $named }
packet-hold-short-open = { $because } (NO LEVANTADA)
packet-hold-short-lifted = { $because } (levantada: { $lifted })
packet-missing-nothing = Nada de lo que busca este registro, salvo las excepciones.
packet-none-open = Ninguna está abierta
packet-open-disagreements = { $count } SIN RESOLVER
packet-differ = { $open }; resueltas o superadas: { $ended }. Anotaciones corregidas, retiradas o resueltas de otro modo: { $corrected }.
packet-not-released = No liberado; etapa: { $stage }
packet-released-see = Liberado, según las anotaciones; véalas
packet-released-residue = Liberado con remanente por { $by }
packet-released-not-residue = Liberado sin declarar remanente por { $by }
packet-aside =
    { $count ->
         [one] { $count } anotación se conserva y no cuenta; su motivo está en Correcciones
        *[other] { $count } anotaciones se conservan y no cuentan; sus motivos están en Correcciones
    }

## The first page: whose word it is

packet-said-devices = Cada una de las { $entries } anotaciones de la estadía está firmada por el dispositivo en que se hizo. Dispositivos con certificado de esta organización: { $devices }. Quién tenía el dispositivo es otra cuestión.
packet-said-people = Anotaciones que cuentan: { $people }.
packet-said-nobody = Anotaciones que cuentan: ninguna.
packet-named-own-hand = { $count } con la clave propia y confirmada de la persona
packet-named-held = { $count } en un teléfono que la persona firmó tener
packet-named-by-phone = { $count } en que solo el teléfono nombra a la persona
packet-named-not-confirmed = { $count } con una clave que nadie confirmó
packet-named-not-theirs = { $count } con una clave que no es suya
packet-said-no-checkpoint = Ningún punto de verificación de la bitácora es válido.
packet-said-log = La organización firmó que su bitácora tenía { $count } anotaciones, cada una de estas en su lugar. No puede cambiarlas ni moverlas sin contradecir esa firma.
packet-said-no-receipts = No hay ninguno adjunto.
packet-said-receipts = { $count } firmados por la organización al sincronizar los dispositivos. Cubren { $entries } anotaciones de la estadía.
packet-said-times-alone = La hora "declarada" es la del reloj de un dispositivo. La hora "recibida" es la del reloj de la organización y depende solo de su palabra: no hay marca de fecha y hora de un tercero.
packet-said-times-stamped = La hora "declarada" es la del reloj de un dispositivo. La hora "recibida" es la del reloj de la organización. Se adjunta la marca de fecha y hora de un tercero (RFC 3161) sobre la bitácora. Quien confíe en ella y la verifique sabe que las anotaciones ya existían entonces. Las horas anteriores dependen de la palabra de la organización.
packet-said-no-witness = Ningún testigo firmó el punto de verificación adjunto de la bitácora.
packet-said-witness = Otros firmaron también el punto de verificación de la bitácora. Pídales sus claves.
packet-said-gaps = FALTAN números en la cadena de un dispositivo, vea Dispositivos.
packet-said-whole = Están adjuntas las { $entries } anotaciones de esta estadía que tenía la bitácora de { $count }: su punto de verificación fija cuántas son. Lo que nunca llegó a la bitácora, y que haya una sola, depende de la palabra de la organización.
packet-said-chains-whole = Entre la primera y la última anotación de un dispositivo no falta ninguna. Si se dejaron fuera las de otros dispositivos, o posteriores, depende de la palabra de la organización.
packet-said-not-whole = Si se dejó fuera algo más depende de la palabra de la organización.

## Headings

packet-heading-defects = 1  Defectos y retenciones
packet-heading-disagreements = 2  Discrepancias
packet-heading-corrections = 3  Correcciones, y lo que no cuenta
packet-heading-not-counted = Anotaciones que se conservan y no cuentan
packet-heading-passed-over = 4  Antes de liberar: qué faltaba y qué se exceptuó
packet-heading-passed = Exceptuado
packet-heading-findings = 5  Lo que señala el programa
packet-heading-fittings = 6  Accesorios, cierres y tapa al final del registro
packet-heading-readings = 7  Lecturas
packet-heading-received = Tanques, autotanques, mangueras, inspecciones
packet-told-by = { $text } — { $by }
packet-heading-empty = ¿Había salido el líquido? Lo que se registró
packet-heading-seals = 8  Sellos
packet-heading-photographs = 9  Fotografías
packet-heading-check = 10  Cómo verificar este archivo
packet-annex-story = Anexo A  Todas las anotaciones de la estadía, por hora
packet-annex-others = Anexo B  Lo que se sabía del carro, del sitio y de las personas
packet-annex-series = Anexo C  Series de lecturas
packet-annex-values = Anexo D  Valores calculados a partir del registro
packet-annex-devices = Anexo E  Dispositivos, sus certificados y cadenas
packet-annex-receipts = Anexo F  Acuses de recibo y bitácora
packet-annex-files = Anexo G  Archivos adjuntos
packet-heading-responsible = Quién era responsable
packet-heading-attendance = Lapsos sin señal de vigilancia con una línea conectada

## Columns and rows. They stand at the top of a column or at the beginning of a row.

packet-column-number = N.º
packet-column-of = Del/de
packet-column-about = Asunto
packet-column-who-device = Quién, en qué
packet-column-received = Recibido
packet-column-said = Lo que se dijo
packet-column-by-when = Por quién, cuándo
packet-column-first = Lo dicho primero
packet-column-stands = Lo que vale en su lugar, por quién
packet-column-reason = Motivo indicado
packet-column-why-not = Por qué no cuenta
packet-column-missing = Faltante
packet-column-asked = Lo pide
packet-column-what = Qué
packet-column-reason-by = Motivo indicado, por quién
packet-column-reading = Lectura
packet-column-plus-minus = ±
packet-column-method = Instrumento y método
packet-column-who-when = Quién, cuándo
packet-column-who = Quién
packet-column-claimed = Declarado
packet-column-when = Cuándo
packet-column-value = Valor
packet-column-result = Resultado
packet-column-formula = Fórmula y versión
packet-column-source = Fuente
packet-column-fitting = Accesorio
packet-column-valve = Válvula
packet-column-closure = Tapón o tapa
packet-column-besides = Además
packet-column-where = Dónde
packet-column-found = Hallado al llegar
packet-column-at-end = Al final
packet-column-device = Dispositivo
packet-column-key = Clave pública (Ed25519)
packet-column-standing = Situación
packet-column-clock = Anotaciones, reloj
packet-column-signed-at = Firmado
packet-column-covered = Anotaciones cubiertas
packet-column-digest = Su SHA-256 empieza
packet-column-file = Archivo adjunto
packet-column-bytes = Bytes
packet-column-file-what = Qué es
packet-column-recorded = Lo que se registró
packet-row-noted = Anotado
packet-row-movement = Movimiento
packet-row-reported = Reportado
packet-row-authority = Autoridad
packet-row-put-right = Corregido
packet-row-photograph = Fotografía
packet-row-checkpoint = Punto de verificación
packet-row-log = Bitácora
packet-row-places = Lugares

## Defects, holds, disagreements, corrections

packet-no-defects = No hay defectos ni retenciones registrados.
packet-defect = Defecto: { $what }
packet-defect-at = Defecto ({ $fitting }): { $what }
packet-defect-earlier = Defecto: { $what } (anotado en una estadía anterior, visita { $visit })
packet-defect-at-earlier = Defecto ({ $fitting }): { $what } (anotado en una estadía anterior, visita { $visit })
packet-noted-received = { $by }; recibido { $received }
packet-needs-authority = se dijo que requiere aprobación de una autoridad (49 CFR 174.50)
packet-reported = a { $to } ({ $how }); { $by }
packet-authority = { $by }, referencia { $reference }
packet-authority-spoken = de palabra { $at }
packet-authority-written = por escrito { $at }
packet-authority-due = se espera por escrito antes de { $due }
packet-authority-overdue = se espera por escrito antes de { $due } (VENCIDO)
packet-put-right = { $how }; { $by }
packet-not-put-right = sin registrar: ABIERTO
packet-photograph-elsewhere = mencionada, de otra estadía
packet-hold-open = RETENCIÓN: { $because } ({ $by }). NO LEVANTADA
packet-next-time = Para la próxima visita: { $what } ({ $by })
packet-hold-lifted = RETENCIÓN: { $because } ({ $by }). Levantada: { $lifted } ({ $lifter })
packet-agreed-on = ACORDADO: { $sentence }
packet-no-disagreements = No hay dos anotaciones hechas por separado que digan cosas distintas.
packet-disagreements-what = Dos anotaciones discrepan cuando difieren y ninguna nombra a la otra como conocida. Ambas se conservan. Vale lo acordado al resolver.
packet-not-settled = SIN RESOLVER: { $about }
packet-settled = Resuelto: { $about }
packet-moved-on = Superado: { $about }
packet-reopened = Se había resuelto. El acuerdo fue retirado por { $by } (motivo indicado: { $why }).
packet-settled-by = Resuelto por { $by }: { $what } ({ $why })
packet-later-by = La reemplazó una anotación posterior, por { $by }: { $what } ({ $why })
packet-no-corrections = Ninguna anotación se corrigió ni se retiró.
packet-not-counted-what = Llegaron a la oficina y están adjuntas como las demás, pero quien las hizo no podía decir esto aquí. No forman parte de ningún estado, medición ni lista de este documento.
packet-nothing-missing = No falta nada de lo que busca este registro, o todo se exceptuó con motivo.
packet-asked-by = { $basis }: { $source }
packet-does-not-stand = No es válida: { $why }.
packet-nothing-found = Nada.
packet-finding-alarm = ALARMA: { $what }
packet-finding-check = Revisar: { $what }
packet-checked = Revisado, { $what }: { $result } ({ $by })
packet-check-right = correcto
packet-check-wrong = NO correcto
packet-unrecognised =
    { $count ->
         [one] { $count } anotación es de un tipo que esta versión no conoce. Está adjunta completa.
        *[other] { $count } anotaciones son de un tipo que esta versión no conoce. Están adjuntas completas.
    }

## The state at the end

packet-plan-in-words = Plano de los accesorios bajo la caja protectora según el último registro. La tabla siguiente dice lo mismo con palabras.
packet-plan-caption = Aberturas bajo la caja protectora según el último registro, vistas desde arriba, con el carro a lo largo de izquierda a derecha. Los lugares son una disposición usual (práctica común, sin fuente), no el dibujo de este carro. Lleno: cierre apretado con herramienta. Mitad: apretado a mano. Hueco: abierto. Signo de interrogación: sin registrar. Barra en el vástago: válvula cerrada.
packet-plan-above = visto desde arriba
packet-plan-valve = válvula: { $state }
packet-plan-valve-not-recorded = válvula: sin registrar
packet-plan-closure = cierre: { $state }
packet-plan-closure-not-recorded = cierre: sin registrar
packet-plan-cover-not-recorded = tapa: sin registrar
packet-plan-seal = sello { $number }: { $place }
packet-cover-closed-pin-in = tapa cerrada, pasador puesto
packet-cover-closed-pin-out = tapa cerrada, pasador FUERA
packet-cover-open-pin-in = tapa ABIERTA, pasador puesto
packet-cover-open-pin-out = tapa ABIERTA, pasador FUERA
packet-bolts = { $here } de { $count } pernos colocados
packet-has-none = no tiene
packet-heard = se oyó: { $heard }
packet-heard-since-shut = se oyó después de cerrarla: { $heard }
packet-engaged = { $threads } enganchadas
packet-line-on = LÍNEA CONECTADA
packet-line-on-hose = LÍNEA CONECTADA, manguera { $hose }
packet-line-off = línea desconectada
packet-line-off-hose = línea desconectada, manguera { $hose }
packet-effort = esfuerzo { $amount } ({ $at })
packet-cover = Caja protectora: { $state }; { $by }.
packet-no-cover = No se registró la tapa de la caja protectora.
packet-protection-set = { $what }: puesto; { $by }
packet-protection-away = { $what }: retirado; { $by }
packet-tally-none = Recuento: nada de lo que se sacó consta como todavía fuera.
packet-still-out = TODAVÍA FUERA: { $item }
packet-still-out-by = TODAVÍA FUERA: { $item }, sacado por { $by }

## Seals and photographs

packet-seals-what = Un sello hallado intacto con su número registrado indica que nadie abrió lo que cierra. Nunca sustituye la revisión de los cierres (práctica común, sin fuente).
packet-no-seals = No se registró ningún sello.
packet-kind-not-said = tipo no indicado
packet-seal = { $number } ({ $kind }) { $event }
packet-seal-whole = intacto
packet-seal-not-whole = NO INTACTO
packet-seal-lacks = falta { $what }
packet-see-photograph = fotografía { $numbers }
packet-no-photographs = El registro no menciona ninguna fotografía.
packet-photographs-what = Como las recibió la oficina, byte por byte. El nombre de cada archivo adjunto es el SHA-256 de sus bytes, que la anotación firma. Qué muestra una fotografía y cuándo se tomó es palabra de quien hizo la anotación.
packet-shows-about = { $what } ({ $about })
packet-attached-as = adjunta como { $name }
packet-not-at-office = NO ESTABA EN LA OFICINA al hacer esto; su SHA-256 es { $digest }
packet-photograph = Fotografía { $number }, se dice que muestra: { $what }. { $by }; recibida { $received }. { $bytes } bytes, { $media }; { $place }
packet-picture-not-shown = no se muestra aquí, vea el pie

## Readings and values

packet-no-instrument = instrumento no indicado
packet-unknown-instrument = { $name } (no está en la lista del sitio)
packet-calibration-due = calibración vence { $due }
packet-before = antes
packet-no-readings = No se registraron lecturas individuales.
packet-readings-what = ± es la mitad del intervalo de 95 % (JCGM 100) que deja el instrumento, según lo indicado al lado. Un valor entre paréntesis ya no vale. Las series de lecturas están en el anexo C.
packet-a-series = { $title }, una serie
packet-chart-caption = { $title }, { $unit }, en el tiempo. Los puntos son lecturas, las barras su ±. La línea solo los une.
packet-chart-in-words = Gráfica de { $title }. La tabla siguiente tiene las mismas cifras.
packet-chart-left = { $day }; { $left } de { $count } lecturas son de otra hora y no se dibujan
packet-all-on = Todas con { $how }; { $worth }.
packet-sign-yes = { $sign }: sí ({ $by })
packet-sign-yes-liquid = { $sign }: sí – indica líquido ({ $by })
packet-sign-no = { $sign }: no ({ $by })
packet-sign-no-liquid = { $sign }: no – indica líquido ({ $by })
packet-weighed-liquid = Ponderado por un modelo, que no decide nada: lo registrado indica LÍQUIDO. { $caution }
packet-weighed-no-liquid = Ponderado por un modelo, que no decide nada: lo registrado no indica líquido. { $caution }
packet-weighed-not-enough = Ponderado por un modelo, que no decide nada: lo registrado no basta para saberlo. { $caution }
packet-no-grounds = sin fundamento indicado
packet-taken-as-empty = Se tomó como vacío de líquido: { $grounds } ({ $by })
packet-not-taken-as-empty = NO se tomó como vacío de líquido: { $grounds } ({ $by })
packet-annex-values-what = Nadie escribió estos valores. Cada uno resulta de las lecturas anteriores con la fórmula indicada. ± es la mitad del intervalo de 95 % (JCGM 100). Donde faltó algo, se dice en lugar de un número.
packet-nothing-computed = No se calculó nada.
packet-for-product = para { $product }
packet-largest = la mayor parte del ± viene de { $input }

## The story

packet-annex-story-what = "Declarado" es la hora del propio dispositivo. Debajo está la hora corregida si se halló que su reloj difería dos minutos o más. "Recibido" es cuando la bitácora de la oficina tuvo la anotación, en orden de acuse. Las anotaciones que ya no valen se muestran con lo que pasó con ellas; las que no cuentan, con el motivo. Cómo se conoce a la persona consta en los actos que obligan y en lo firmado por ella. N.º es el lugar de la anotación en la estadía por orden de llegada. Se cita en todo el documento. Fuera de esta columna, las horas de las anotaciones están corregidas según la diferencia hallada al sincronizar.
packet-corrected-time = corregida: { $time }
packet-clock-never-compared = reloj nunca comparado
packet-later-changed = cambió después
packet-no-part = (no forma parte del registro) { $what }
packet-no-longer = (ya no vale) { $what }
packet-handover = { $from } entregó el turno a { $to }, { $at }
packet-handover-one-sided = { $from } entregó el turno a { $to }, { $at } (firmado por una sola parte)
packet-gap = { $when } ({ $minutes } min)
packet-gap-away = alguien había escrito que se retiraba
packet-gap-shut = toda válvula con línea registrada como cerrada
packet-of-car = carro
packet-of-site = sitio
packet-of-people = personas
packet-annex-others-what = Estas anotaciones son de otros registros. Lo que cuenta de ellas entró en este. Están adjuntas completas.

## Proofs

packet-certified = certificado { $at }
packet-for-sites =
    { $count ->
         [one] para { $count } sitio
        *[other] para { $count } sitios
    }
packet-until = hasta { $at }
packet-revoked = REVOCADO { $at }: lo que llegó después se conserva, su hora declarada no prueba nada
packet-not-certified = NO CERTIFICADO por la organización
packet-clock-never = nunca comparado
packet-clock-against = { $seconds } s respecto a la oficina
packet-other-devices = Además se adjuntan anotaciones de las que ninguna cuenta (sección 3), firmadas con { $keys }.
packet-chains-whole = Cada dispositivo numera sus anotaciones y nombra en cada una la anterior. Entre la primera y la última de esta estadía no falta ningún número en ningún dispositivo. Las anotaciones intermedias de otros registros se listan por su resumen criptográfico.
packet-chain-elsewhere =
    { $count ->
         [one] Hay { $count } anotación de otro registro entre estas. Solo se adjunta su resumen.
        *[other] Hay { $count } anotaciones de otros registros entre estas. Solo se adjuntan sus resúmenes.
    }
packet-no-receipts = La oficina no conserva acuse de recibo que cubra estas anotaciones. La bitácora de abajo dice cuándo recibió cada una.
packet-receipts-what = La oficina firmó estos acuses de recibo cuando los dispositivos entregaron sus anotaciones:
packet-receipt-covers = { $here } de este expediente, { $all } en total
packet-log-what = La oficina asienta lo que recibe en una sola bitácora que solo crece (árbol de Merkle, RFC 9162). Un punto de verificación es su palabra firmada sobre qué tan larga es y qué contiene. Quien tenga otro punto de verificación puede comprobar si ambos pueden ser de la misma.
packet-checkpoint = { $count } anotaciones, raíz { $root }
packet-checkpoint-stamped = con marca de fecha y hora de un tercero (RFC 3161), adjunta
packet-checkpoint-witnessed = firmado también por { $others }
packet-places = { $first } a { $last }, recibidas { $from } a { $until }
packet-check-proof = Las páginas son para leer. La prueba está adjunta dentro de este PDF. Con el archivo y la clave pública de la organización (de una fuente distinta a este archivo) cualquiera puede verificarlo sin preguntar a la organización:
packet-check-how = o con un programa propio: { $description } describe cada byte. Las comprobaciones: cada anotación en { $entries } lleva la firma de su dispositivo. Cada dispositivo cuyas anotaciones cuentan tiene un certificado de la organización. La bitácora tiene cada anotación en su lugar y hora. No falta nada entre la primera y la última anotación de un dispositivo. Cada fotografía es byte por byte la firmada. { $seal } es la firma de la organización sobre todo este archivo. Las páginas, dibujadas de nuevo con lo adjunto, son estas. Así, ni quien tenga la clave de la organización puede imprimir otra cosa sin que se note. Un programa que no las dibuja de nuevo compara la primera página con las anotaciones mediante { $front } y lo dice.
packet-check-not = El archivo por sí solo no puede mostrar si la organización retuvo otros registros o tenía mal su reloj. Un punto de verificación guardado por otra persona, o la marca de fecha y hora de un tercero, lo acota.
packet-check-characters = Un carácter que las tipografías de este documento no pueden mostrar se escribe como { $form } con su número Unicode. Las anotaciones adjuntas lo tienen como se escribió.

## What each attached file is

packet-file-entries = las anotaciones firmadas, byte por byte
packet-file-certificates = los certificados de los dispositivos
packet-file-receipts = los acuses de recibo de la oficina
packet-file-keys = lo que dijo la raíz sobre las claves de la organización
packet-file-names = nombres de personas, con las sales que los prueban
packet-file-log = lugares en la bitácora, puntos de verificación, cadenas
packet-file-view = el registro resultante, para programas
packet-file-last-entry = el lugar de la última anotación en la bitácora, como C2SP tlog-proof
packet-file-description = descripción de este formato, cómo verificar
packet-file-procedure = el procedimiento de la estadía, SHA-256 { $digest }
packet-file-procedure-words = las frases del procedimiento en este idioma, SHA-256 { $digest }
packet-file-front = los datos de la primera página y sus anotaciones, para programas
packet-file-pages = el texto de cada página
packet-file-seal = el sello digital de la organización en este archivo
packet-file-photograph = fotografía, byte por byte
