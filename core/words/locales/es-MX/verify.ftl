### Lo que halló la verificación de un expediente. El código de cada línea está al lado y nunca se traduce.

## What verify prints around the lines

verify-mark-holds = válido
verify-mark-marked = nota
verify-mark-broken = FALLA
verify-all-holds = Todo es válido. { $shows }
verify-holds-with-notes =
    { $count ->
         [one] Es válido. Léalo junto con la nota de arriba. { $shows }
        *[other] Es válido. Léalo junto con las { $count } notas de arriba. { $shows }
    }
verify-does-not-hold = NO es válido.
verify-shows = Muestra lo que firmaron estos dispositivos, sin cambios, y que está en la bitácora de la organización. No muestra que una escena fuera como se afirma, ni que un carro sea seguro.
verify-first-page-says = La primera página en este idioma:
verify-first-page-undrawn = Las páginas no se dibujaron de nuevo aquí, así que estas palabras dependen del sello digital de la organización:
verify-parts = { $parts }
verify-and-more = y más del mismo tipo

## The verdict on third parties

verify-verdict-stamped = { $authority } marcó la bitácora de { $size } anotaciones: ya existían a más tardar { $at }
verify-verdict-witnessed = { $name } firmó la bitácora de { $size } anotaciones en { $at } como una que solo creció
verify-verdict-both = Además de la palabra de la organización: { $stamped }; { $witnessed }.
verify-verdict-stamp-alone = Además de la palabra de la organización: { $stamped }. Que haya una sola bitácora depende solo de su palabra.
verify-verdict-witness-alone = Además de la palabra de la organización: { $witnessed }. Las horas de la bitácora dependen solo de su palabra, salvo el reloj del testigo.
verify-verdict-alone = Las horas y la integridad dependen solo de la palabra de la organización.
verify-verdict-devices = Qué dispositivos son suyos, y qué pueden hacer, depende solo de la palabra de la organización.
verify-strict-stamp = ninguna marca de fecha y hora conduce a una raíz dada con --tsa-root
verify-strict-witness = ningún testigo dado con --witness firmó un punto de verificación aquí
verify-stamp-unchecked = la marca de fecha y hora del punto de verificación de tamaño { $size } no se verificó: { $why }
verify-stamp-forged = la marca de fecha y hora del punto de verificación de tamaño { $size } no es válida: { $why }
verify-stamp-no-root = el punto de verificación de tamaño { $size } existía a más tardar { $at }, según la palabra no verificada de { $authority }: no se dio ninguna raíz (--tsa-root)
verify-stamp = el punto de verificación de tamaño { $size }, y cada anotación que cubre, existía a más tardar { $at }: marcado por { $authority }
verify-clocks-differ = { $what }; la bitácora recibió una anotación que cubre { $minutes } min después: uno de los dos relojes estaba mal
verify-witness = { $name } firmó el punto de verificación de tamaño { $size } en { $at }
verify-witness-older = { $name } firmó el punto de verificación de tamaño { $size } en { $at }, que no cubre las anotaciones más nuevas de aquí
verify-witness-forged = una línea a nombre de { $name } no es válida
verify-no-witness = ningún punto de verificación aquí está firmado por { $names }

## The seal and the attachments

verify-missing = { $name } no está
verify-no-text = { $name } no está, o no es texto
verify-about-file = { $name }: { $why }
verify-wrong-key = el expediente está sellado con la clave { $key }, no con la clave dada
verify-wrong-seal = el expediente está sellado con otra clave, no con la clave dada
verify-altered-seal = el sello digital no es válido: { $why }
verify-seal = todo el archivo está como fue sellado por la organización
verify-altered-attachment = { $name } no es el archivo sellado
verify-removed-attachment = { $name } fue sellado y ya no está
verify-added-attachment = { $name } no fue sellado
verify-edited-pages = los registros adjuntos son los sellados, pero el archivo alrededor no: se cambió lo que muestran las páginas, o se agregó algo al archivo
verify-seal-visits = la lista de visitas del sello digital no es la de las anotaciones selladas
verify-seal-entries = la cuenta o la raíz del sello digital no es la de las anotaciones selladas
verify-seal-time = la hora del sello digital no es la de las anotaciones selladas
verify-older-rules = el sello digital pide las reglas de una versión anterior a la que hizo este expediente: lo que trajeron reglas posteriores no se verificó
verify-later-rules = el sello digital pide las reglas de la versión { $fold }. Este programa conoce hasta la { $own } y verificó con ellas
verify-foreign-attachment = { $name } fue sellado con el resto. Ninguna anotación lo nombra, y no prueba nada sobre esta estadía
verify-procedure = procedure.toml es el procedimiento con el que se inició la estadía (SHA-256 { $text })
verify-procedure-words = procedure.toml es el procedimiento con el que se inició la estadía (SHA-256 { $text }), y procedure.ftl, sus frases en el idioma de las páginas (SHA-256 { $words })
verify-other-procedure = { $name } no es el procedimiento con el que se inició la estadía
verify-other-fold = hecho con las reglas de otra versión ({ $fold }, la de este programa es { $own }). No se comparó su vista
verify-view = el registro mostrado es el que resulta de las anotaciones
verify-altered-view = view.json no es lo que resulta de las anotaciones con esta versión del programa

## Entries and devices

verify-entries =
    { $count ->
         [one] { $count } anotación lleva la firma de su dispositivo
        *[other] { $count } anotaciones llevan las firmas de sus dispositivos
    }
verify-altered-entry = anotación { $number } de la lista "{ $list }": { $why }
verify-foreign-entry = la anotación { $entry } trata de { $about }, no de { $list }
verify-not-this-stays = la anotación { $entry } trata de { $about }, que no es de esta estadía
verify-removed-entry =
    { $count ->
         [one] falta { $count } anotación que lista la bitácora, entre ellas { $entries }
        *[other] faltan { $count } anotaciones que lista la bitácora, entre ellas { $entries }
    }
verify-fewer-entries = se sellaron { $sealed } anotaciones (selladas), hay { $here }
verify-chain-gap = las anotaciones { $from } a { $to } del dispositivo { $device } no están en la oficina
verify-chain-removed = las anotaciones { $from } a { $to } de la cadena del dispositivo { $device } ya no están
verify-chain-twice = { $count } anotaciones del dispositivo { $device } tienen el número { $number }
verify-chain-other =
    { $count ->
         [one] { $count } anotación nombra como anterior otra que la conocida
        *[other] { $count } anotaciones nombran como anterior otra que la conocida
    }
verify-chains =
    { $count ->
         [one] la cadena de { $count } dispositivo está completa o explicada
        *[other] las cadenas de { $count } dispositivos están completas o explicadas
    }
verify-claimed-after =
    { $count ->
         [one] { $count } anotación declara una hora posterior a su llegada a la oficina: el reloj del dispositivo estaba mal, o el de la oficina
        *[other] { $count } anotaciones declaran una hora posterior a su llegada a la oficina: el reloj del dispositivo estaba mal, o el de la oficina
    }
verify-forged-certificate = un certificado no es válido: { $why }
verify-forged-device =
    { $count ->
         [one] { $count } anotación está firmada por el dispositivo { $device }, que la organización no certificó
        *[other] { $count } anotaciones están firmadas por el dispositivo { $device }, que la organización no certificó
    }
verify-devices =
    { $count ->
         [one] { $count } dispositivo tiene certificado de la organización
        *[other] { $count } dispositivos tienen certificado de la organización
    }
verify-uncertified-device =
    { $count ->
         [one] { $count } anotación está firmada por el dispositivo { $device }, del que no hay certificado aquí: se conserva y no cuenta
        *[other] { $count } anotaciones están firmadas por el dispositivo { $device }, del que no hay certificado aquí: se conservan y no cuentan
    }
verify-revoked-device = { $late } de { $count } anotaciones de "{ $name }" ({ $device }) llegaron después de su revocación ({ $at }): se conservan, lo que dicen de su hora no prueba nada
verify-expired-device = { $late } de { $count } anotaciones de "{ $name }" ({ $device }) declaran una hora posterior al vencimiento de su certificado ({ $until }): se conservan y no cuentan

## The organization's keys

verify-keys =
    { $count ->
         [one] la raíz de la organización dijo { $count } cosa de sus claves. Lo que está aquí fue firmado por { $named } en su tiempo
        *[other] la raíz de la organización dijo { $count } cosas de sus claves. Lo que está aquí fue firmado por { $named } en su tiempo
    }
verify-keys-twice = lo que el expediente trae sobre las claves de la organización dice algo dos veces
verify-keys-brought = lo que el expediente trae sobre las claves de la organización: { $why }
verify-keys-beside = junto a lo dado sobre las claves de la organización: { $why }
verify-expired-key = { $what }: { $why }
verify-thing-seal = el sello digital
verify-thing-certificate = un certificado
verify-thing-receipt = un acuse de recibo
verify-thing-checkpoint = un punto de verificación
verify-withdrawn-as-replaced = reemplazada
verify-withdrawn-as-lost = perdida
verify-withdrawn-as-stolen = robada
verify-withdrawn-name = la clave { $key }, retirada como { $why } en { $at }
verify-withdrawn-after = { $what } con { $name }: firmado después
verify-withdrawn-before = { $what } con { $name }: firmado antes, es válido
verify-stolen-no-checkpoint = { $what } con { $name }, y no hay ningún punto de verificación válido
verify-stolen-no-vouch = { $what } con { $name }; la raíz no responde por nada de lo que firmó
verify-stolen-within = { $what } con { $name }; su bitácora está dentro de lo que la raíz respalda ({ $count } anotaciones)
verify-stolen-outside = { $what } con { $name }; su bitácora no es la que la raíz respalda ({ $count } anotaciones)
verify-stolen-not-shown = { $what } con { $name }. Quien tuviera la clave pudo hacerlo: nada aquí muestra que su bitácora de { $size } anotaciones sea el principio de las { $vouched } que la raíz respalda. La oficina puede imprimir la prueba del punto de verificación (farsiding checkpoint --from { $size }), que se da con --against

## The log

verify-log =
    { $count ->
         [one] la bitácora de { $count } anotación la tiene en su lugar
        *[other] la bitácora de { $count } anotaciones tiene cada una en su lugar
    }
verify-forged-checkpoint = un punto de verificación no es válido: { $why }
verify-no-checkpoint = no hay punto de verificación
verify-log-fork = los puntos de verificación de tamaño { $old } y { $new } no pueden ser ambos de una misma bitácora
verify-unlogged-place = la bitácora no tiene la anotación { $entry } en el número { $number }
verify-unlogged-about = la bitácora dice que la anotación { $entry } trata de { $told }; trata de { $about }
verify-unlogged-entry = la anotación { $entry } no está en ninguna bitácora
verify-log-order = los números u horas de la bitácora retroceden en el número { $number }
verify-reordered = la lista "{ $list }" no está en el orden en que la recibió la oficina
verify-given-forged = el punto de verificación dado no es válido: { $why }
verify-given-other-log = el punto de verificación dado es de la bitácora { $theirs }, el del expediente de { $own }
verify-given-own = el punto de verificación dado es el del propio expediente, de tamaño { $size }
verify-given-two-logs = dos puntos de verificación de tamaño { $size } difieren: la oficina ha mostrado dos bitácoras
verify-given-no-proof = el punto de verificación dado tiene tamaño { $theirs }, el del expediente { $own }. Para compararlos la oficina debe agregar una prueba de consistencia
verify-given-same-log = el punto de verificación dado, de tamaño { $size }, es de la misma bitácora
verify-older-packet =
    { $count ->
         [one] la bitácora creció en { $count } anotación desde el último punto de verificación de este expediente. Lo que llegó después no está aquí
        *[other] la bitácora creció en { $count } anotaciones desde el último punto de verificación de este expediente. Lo que llegó después no está aquí
    }
verify-time-stamp = la marca de fecha y hora de un tercero nombra el punto de verificación de tamaño { $size }. Juzgue usted quién la dio
verify-time-stamp-other = una marca de fecha y hora no es del punto de verificación de tamaño { $size }
verify-last-entry = { $name } prueba la última anotación de la estadía a quien conozca C2SP tlog-proof
verify-last-entry-not = { $name } no prueba la última anotación de la estadía
verify-last-entry-fork = { $name } lleva a un punto de verificación de tamaño { $size } que no es ninguno del expediente

## Completeness and times

verify-whole = aquí están las { $count } anotaciones que la bitácora de { $size } tiene de esta estadía
verify-whole-newest = aquí están las { $count } anotaciones que la bitácora de { $size } tiene de esta estadía, la más nueva recibida { $at }
verify-no-heads = el punto de verificación de la bitácora no dice cuántas anotaciones hay de una estadía: que estén todas depende de la palabra de la organización
verify-no-head = no está probado cuántas anotaciones tiene la bitácora de { $about }: que estén todas depende de la palabra de la organización
verify-other-head = lo que se dice de { $about } en conjunto no es lo que fija el punto de verificación de tamaño { $size }
verify-other-entries = las anotaciones de aquí no son las { $count } que la bitácora tiene de { $about }
verify-removed-of-visit = la bitácora tiene { $count } anotaciones de { $about }, aquí hay { $here }
verify-absent-visit = una anotación dice que la visita { $visit } es de la misma estadía. Sus anotaciones no están aquí
verify-unjoined-visit = ninguna anotación dice que la visita { $visit } sea de una misma estadía con las demás
verify-photo-elsewhere =
    { $count ->
         [one] { $count } fotografía de esta estadía también la nombran anotaciones de otras
        *[other] { $count } fotografías de esta estadía también las nombran anotaciones de otras
    }
verify-times =
    { $count ->
         [one] { $count } anotación nombra un punto de verificación de esta bitácora que su dispositivo había visto: se hizo después
        *[other] { $count } anotaciones nombran un punto de verificación de esta bitácora que su dispositivo había visto: se hicieron después
    }
verify-other-log-seen =
    { $count ->
         [one] { $count } anotación nombra un punto de verificación que esta bitácora no continúa: la bitácora se reescribió o se restauró de un respaldo, o el dispositivo lo inventó
        *[other] { $count } anotaciones nombran un punto de verificación que esta bitácora no continúa: la bitácora se reescribió o se restauró de un respaldo, o el dispositivo lo inventó
    }
verify-claimed-before-seen =
    { $count ->
         [one] { $count } anotación declara una hora anterior a la de un punto de verificación que su dispositivo ya había visto
        *[other] { $count } anotaciones declaran una hora anterior a la de un punto de verificación que su dispositivo ya había visto
    }
verify-claimed-before-certificate =
    { $count ->
         [one] { $count } anotación declara una hora anterior al certificado de su dispositivo
        *[other] { $count } anotaciones declaran una hora anterior al certificado de su dispositivo
    }
verify-received-long-after =
    { $count ->
         [one] { $count } anotación llegó más de siete días después de la hora que declara. Antes de eso solo su dispositivo puede dar cuenta
        *[other] { $count } anotaciones llegaron más de siete días después de la hora que declaran. Antes de eso solo su dispositivo puede dar cuenta
    }

## Receipts and photographs

verify-receipts =
    { $count ->
         [one] { $count } acuse de recibo es válido. Cubre { $here } de las { $all } anotaciones de la estadía
        *[other] { $count } acuses de recibo son válidos. Cubren { $here } de las { $all } anotaciones de la estadía
    }
verify-backdated-receipt = un acuse de recibo dice { $at }, pero la bitácora recibió una anotación que cubre en { $received }
verify-names =
    { $count ->
         [one] { $count } nombre es el que compromete su anotación
        *[other] { $count } nombres son los que comprometen sus anotaciones
    }
verify-altered-name = el nombre para { $named } no es el que la anotación compromete
verify-foreign-name = el nombre para { $named } no es de nadie a quien nombren las anotaciones
verify-photos =
    { $count ->
         [one] { $count } fotografía es byte por byte la firmada
        *[other] { $count } fotografías son byte por byte las firmadas
    }
verify-photo-length = { $name } tiene otra longitud que la firmada
verify-other-length = una anotación da otra longitud que la de { $name }. Su resumen criptográfico es correcto
verify-swapped-photo = bajo el nombre { $name } está la fotografía { $digest }
verify-altered-photo = los bytes de { $name } no son los firmados
verify-absent-photo =
    { $count ->
         [one] { $count } fotografía no estaba en la oficina al hacer el expediente
        *[other] { $count } fotografías no estaban en la oficina al hacer el expediente
    }
verify-absent-photo-or =
    { $count ->
         [one] { $count } fotografía no estaba en la oficina al hacer el expediente, o solo la nombran anotaciones que no cuentan
        *[other] { $count } fotografías no estaban en la oficina al hacer el expediente, o solo las nombran anotaciones que no cuentan
    }

## The pages

verify-pages = dibujadas de nuevo con lo adjunto, las páginas son estas, byte por byte
verify-pages-no-seal = las páginas no se dibujaron de nuevo: ningún sello digital válido dice con qué diseño se dibujaron
verify-pages-other = las páginas no se dibujaron de nuevo (diseño { $layout }, reglas { $fold }; las de este programa son { $own_layout } y { $own_fold }): lo que dicen más allá de los registros adjuntos depende de la palabra de la organización
verify-pages-language = las páginas no se dibujaron de nuevo: este programa no tiene palabras en el idioma { $language }
verify-pages-not-drawn = las páginas no se dibujaron de nuevo, porque lo adjunto no es válido
verify-pages-cannot = no se pueden dibujar páginas con lo adjunto: { $why }
verify-pages-unreadable = las páginas no se pueden leer
verify-page-differs = la página { $page } muestra algo distinto de lo adjunto
verify-pages-added = se agregaron las páginas { $from } a { $to }
verify-pages-gone = ya no están las páginas { $from } a { $to }
verify-pages-around = el archivo no es el que se dibuja con lo adjunto: hay algo alrededor de sus páginas que un lector de PDF puede mostrar

## The first page

verify-first-page = página 1: { $what }
verify-front-differs = la página 1 dice algo distinto de { $name }
verify-strange-notice = la página 1 tiene un aviso que no es tal
verify-strange-language = la página 1 está en un idioma que su diseño no tiene
verify-fact-key = la clave de la organización no es la que dejó esto sellado
verify-fact-cites-nothing = "{ $label }" cita el n.º { $number }, que no está
verify-fact-cites-other = "{ $label }" cita el n.º { $number }, que dice otra cosa
verify-fact-cites-gone = "{ $label }" cita el n.º { $number }, que ya no vale
verify-fact-does-not-quote = "{ $label }" no dice "{ $typed }" del n.º { $number }
verify-fact-beginning = "{ $label }" no empieza con "{ $beginning }"
verify-fact-left-out = el n.º { $number } dice algo que la página 1 omite: { $kind }
verify-fact-count = hay { $count } datos sobre una cosa, se necesita uno: { $kind }
verify-kind-release = liberación
verify-kind-hold = retención
verify-kind-passed_over = excepción
