### What the rules of the two gates say while something is missing, and what is said of what is there.

gate-unload = Apto para descargar
gate-release = Apto para liberar
gate-nothing-open = No falta nada, o todo tiene excepción autorizada con una razón.
gate-signed = Firmado: { $who }.
gate-not-signed = Sin firmar.
gate-signed-and-open = { $signed } Pendiente: { $items }
gate-there = En orden: { $count }
gate-met-by = { $what } ({ $who })
gate-number-read-once = Número del carro leído una sola vez y sin fotografía. Léalo otra vez del rótulo estarcido, o fotografíelo.
gate-paper-missing = Documento de transporte no anotado. Compárelo con el carro y anótelo.
gate-paper-without-car = El documento de transporte anotado no nombra ningún carro. Anote el número del carro que trae.
gate-product-not-taken = Este procedimiento no es para { $number }. Deténgase y llame a la oficina.
gate-product-not-named = El producto no está anotado. Anote el número UN del documento de transporte.
gate-protection-not-set = No anotado como puesto: { $protection }. Póngalo y anótelo.
gate-shut-off-not-tried = Paro de emergencia no anotado como probado. Pruébelo y anótelo.
gate-weather-missing = Tiempo y viento no anotados. Anótelos.
gate-escape-route-open = Ruta de evacuación no confirmada. Recórrala y anótelo.
gate-step-open = Paso sin hacer: { $step }. Hágalo y regístrelo.
gate-seals-not-found = Sellos como se encontraron no anotados. Mire cada sello y anótelo.
gate-fittings-not-found = Cierres como se encontraron no anotados: { $fittings }. Mire cada cierre y anótelo.
gate-arrival-pressure-missing = Presión de llegada no leída en el carro. Léala y anótela.
gate-arrival-pressure-not-a-number = La presión de llegada no se puede leer como número. Léala y anótela de nuevo.
gate-finding-stands = { $finding } Busque primero la causa.
gate-tank-level-missing = Nivel del tanque receptor no leído. Léalo y anótelo.
gate-tank-level-not-a-number = El nivel del tanque receptor no se puede leer como número. Léalo y anótelo de nuevo.
gate-check-missing = Revisión no anotada, o no después de desconectar la última línea: { $check }. Hágala y anótela.
gate-overfilled = El carro parece sobrellenado. { $alarm }
gate-last-round-missing = Cierres sin revisar desde el último trabajo en el carro: { $fittings }. Ponga la mano en cada cierre, escuche y anote la última ronda.
gate-liquid-sign = Hay una señal de líquido en el registro ({ $sign }). Saque el líquido, mire de nuevo y anote lo que ve.
gate-final-pressure-early = La presión final se leyó antes de desconectar la última línea. Léala de nuevo en el carro.
gate-final-pressure-off-scale = La presión final queda fuera de la escala de su manómetro. Léala en un manómetro adecuado.
gate-final-pressure-span = La escala del manómetro { $instrument } ({ $span }) es demasiado amplia para la presión final. Léala en un manómetro de rango bajo.
gate-final-pressure-span-unknown = El manómetro { $instrument } no está en la lista del sitio y su escala no se conoce. Lea la presión final en un manómetro de rango bajo de la lista.
gate-photo-missing = Falta la fotografía: { $photo }. Tómela.
gate-sign-down-while-connected = Una línea estuvo conectada sin la señal azul puesta: { $entry }
gate-unloading-not-cleared = La descarga comenzó antes de que alguien firmara “apto para descargar”: { $entry }
gate-protection-out-of-order =
    Anotado como fuera de servicio: { $protection }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Repárelo, pruébelo de nuevo y anótelo.
gate-check-not-right =
    Revisión anotada como no correcta: { $check }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Corríjalo, revise de nuevo y anótelo.
gate-step-not-right =
    Paso anotado como no correcto: { $step }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Corríjalo, repita el paso y anótelo.
gate-alarm-unanswered = Alarma sin respuesta. { $alarm }

## What is there

gate_met-line_connected = Todas las líneas desconectadas
gate_met-valve_not_shut = Todas las válvulas cerradas
gate_met-listen_missing = Se escuchó después de cerrar cada válvula
gate_met-hiss_heard = Ninguna fuga oída
gate_met-closure_not_tool_tight = Todos los cierres apretados con herramienta
gate_met-threads_one_or_less = Roscas enganchadas, o avisado
gate_met-unreadable_entries = Todas las entradas se pueden leer
gate_met-not_opened = Registro abierto para este carro
gate_met-empty_not_accepted = Comprobación de vaciado aceptada
gate_met-empty_contradicted = Ninguna señal de líquido
gate_met-final_pressure_missing = Presión final leída en el carro
gate_met-final_pressure_doubtful = Presión final leída al último, en un manómetro adecuado
gate_met-item_out = Todo devuelto
gate_met-cover_not_closed = Tapa cerrada después del último trabajo
gate_met-cover_not_pinned = Pasador de la caja protectora puesto
gate_met-cover_bolts = Todos los pernos de la tapa en su lugar
gate_met-seal_incomplete = Registro del sello completo
gate_met-seal_missing = Sello colocado, o razón dada
gate_met-blue_sign_down_early = Señal azul puesta hasta asegurar todos los cierres
gate_met-hold_open = Ninguna retención
gate_met-disagreement = Ninguna entrada difiere
gate_met-authority_missing = No falta ninguna autorización
gate_met-alarm = Ninguna alarma sin respuesta
gate_met-doubt = Las lecturas concuerdan
gate_met-number_not_checked = Número del carro leído dos veces o fotografiado
gate_met-paper_not_compared = Documento de transporte comparado con el carro
gate_met-product_not_taken = El producto es uno que se recibe
gate_met-protection_not_set = Puesto: { $of }
gate_met-protection_out_of_order = Ninguna protección fuera de servicio
gate_met-not_recorded_as_found = Anotado como se encontró: { $of }
gate_met-check_missing = Revisado: { $of }
gate_met-check_not_right = Ninguna revisión anotada como no correcta
gate_met-step_open = Paso hecho: { $of }
gate_met-step_not_right = Ningún paso anotado como no correcto
gate_met-reading_missing = Leído: { $of }
gate_met-photo_missing = Fotografiado: { $of }
gate_met-last_round_missing = Última ronda de todos los cierres hecha
gate_met-sign_down_while_connected = Señal azul puesta siempre que hubo una línea conectada
gate_met-incident_open = Ningún incidente abierto
gate_met-leak_open = Ninguna fuga abierta
gate_met-outcome_unexplained = Se explica cómo sale el carro

## What an item is about

gate_of-overfilled = sobrellenado
gate_of-unloading_not_cleared = descarga sin autorización
gate_of-unloaded_over_open_items = descarga con puntos pendientes
gate_of-weather = tiempo
gate_of-seals = sellos
gate_of-housing = cierres bajo la tapa
gate_of-arrival_pressure = presión de llegada
gate_of-tank_level = nivel del tanque
gate_of-escape_way = ruta de evacuación
gate_of-car_number_differs = número del carro distinto
gate_of-paper_for_another_car = documento de otro carro
gate_of-not_odorised = no odorizado
gate_of-procedure_unknown = el procedimiento aún no está aquí
gate_of-unreadable_entries = entradas ilegibles
gate_of-known_defect = defecto conocido
gate_of-blue_sign_not_up = señal azul no puesta
gate_of-frost_ring = anillo de escarcha
gate_of-empty_against_evidence = las lecturas indican líquido
gate_of-attendance_gap = intervalo sin vigilancia
gate_of-does_not_fit = no hay espacio en el tanque
gate_of-liquid_full_when_warm = tanque lleno al calentarse
gate_of-pressure_above_saturation = presión de llegada demasiado alta
gate_of-pressure_below_saturation = presión de llegada demasiado baja
