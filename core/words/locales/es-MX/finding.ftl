### What is pointed out about a record. A finding refuses nothing.

## The car, its paper, its dates

finding-car-number-unusual = “{ $car }” no tiene la forma usual de un número de carro. Se guarda como se escribió.
finding-car-number-check-digit = El dígito verificador de { $car } no coincide. Lea de nuevo el número.
finding-car-number-differs = El número se leyó como { $first } y luego como { $again }. ¿Cuál carro es?
finding-paper-for-another-car = El documento de transporte es de { $paper }; el carro es { $car }.
finding-paper-not-as-sent = El documento de transporte difiere del archivo de la oficina ({ $source }): { $differences }.
finding-expected-number-near = Llegó un documento de transporte para { $expected }, con un carácter distinto de { $car }. Lea otra vez el número en el carro ({ $source }).
finding-not-odorized = El documento de transporte dice que el producto no está odorizado.
finding-capacity-differs = La capacidad del tanque difiere de la de una visita anterior. Lea de nuevo el rótulo.
finding-test-overdue = Fecha de prueba vencida: { $test }, { $due }. El carro puede salir vacío; no puede llenarse (49 CFR 173.31(a)(3), leído). Avise al dueño.
finding-test-date-unreadable = La fecha de prueba “{ $due }” no se puede leer ({ $test }).
finding-known-defect = Defecto de una visita anterior, sin reparar hasta donde aquí se sabe: { $defect } ({ $who }).
finding-written-approval-overdue = La autorización para “{ $defect }” fue verbal y no se confirmó por escrito. Vencía { $due } (dos semanas, 49 CFR 174.50, leído).
finding-approval-without-reference = La autorización para “{ $defect }” no tiene referencia.
finding-defect-not-reported = Nadie ha informado aún “{ $defect }”.

## The record

finding-unreadable =
    { $count ->
        [one] Una entrada de este registro está dañada y no se puede leer aquí. Lo que dice no se muestra.
       *[other] { $count } entradas de este registro están dañadas y no se pueden leer aquí. Lo que dicen no se muestra.
    }
finding-procedure-unknown = El procedimiento de este registro aún no está aquí. Se muestra el incluido hasta que llegue; sincronice primero.
finding-procedure-leaves-out =
    El procedimiento omite o pide menos: { $what }{ $laws ->
        [0] { "" }
       *[other] { " " }({ $laws })
    }. Motivo: { $because }.
finding-procedure-without = El procedimiento omite práctica común: { $what }.
finding-hold-too-short = La prueba de presión sostenida duró { $minutes } minutos. El procedimiento pide { $least }.
finding-entry-misfiled = Una entrada está archivada en otro lugar del que dice: { $entry }
finding-agreement-on-missing = Una diferencia se resolvió a favor de una entrada que no está aquí.
finding-skipped-without-reason = El paso “{ $step }” se omitió sin razón. Sigue pendiente.
finding-step-not-right =
    No está bien: { $step }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }
    }
finding-check-not-right =
    No está bien: { $what }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }
    }
finding-out-of-order = “{ $later }” se anotó antes que “{ $earlier }”.
finding-two-lines-open = Se abrió cuando otra línea aún no estaba cerrada: { $second }; la otra: { $first }. Una línea a la vez.
finding-vapor-not-last = La línea de vapor se retiró antes que la última de líquido. Con la línea de vapor puesta, la recuperación puede seguir si aparece líquido.
finding-item-back-unknown = { $item }: devuelto, pero nadie lo anotó como sacado. ¿Es correcto el nombre?
finding-chain-gaps = { $gaps }
finding-entries-not-counted = { $reasons }
finding-entries-not-counted-for =
    { $count ->
        [one] 1 entrada { $reason }.
       *[other] { $count } entradas { $reason }.
    }
finding-override-fell = La excepción de “{ $item }” no vale: { $why }.
finding-released-over-open-items =
    Liberado con { $count ->
        [one] 1 punto pendiente
       *[other] { $count } puntos pendientes
    } sin excepción autorizada.
finding-unloaded-over-open-items =
    La descarga comenzó con { $count ->
        [one] 1 punto pendiente
       *[other] { $count } puntos pendientes
    } sin excepción autorizada.
finding-fit-over-open-items =
    Firmado apto para descargar con { $count ->
        [one] 1 punto pendiente
       *[other] { $count } puntos pendientes
    } sin excepción autorizada.
finding-empty-against-evidence = El carro se aceptó sin líquido, pero las lecturas muestran líquido.

## Clocks, devices

finding-clock-off =
    El reloj de { $device } está { $by } { $way ->
        [fast] adelantado
       *[other] atrasado
    }. Las horas se muestran corregidas, con la declarada al lado.
finding-device-standing = { $device }: { $warning }.
finding-from-the-future =
    { $count ->
        [one] 1 entrada declara una hora posterior a ahora. Un reloj está mal.
       *[other] { $count } entradas declaran una hora posterior a ahora. Un reloj está mal.
    }
finding-done-impossible = Una entrada dice que se hizo después de registrarla, o antes de que empezara la visita: { $entry }
finding-clock-set-back = El reloj de { $device } se atrasó durante la visita.
finding-far-from-the-others =
    { $count ->
        [one] 1 entrada declara una hora a más de un mes de las otras. Está en las tablas, no en las gráficas.
       *[other] { $count } entradas declaran una hora a más de un mes de las otras. Están en las tablas, no en las gráficas.
    }
finding-code-is-none =
    { $count ->
        [one] 1 entrada nombra a su persona con un código no válido (de 1 a 64 caracteres). Se muestra abreviado.
       *[other] { $count } entradas nombran a su persona con un código no válido (de 1 a 64 caracteres). Se muestra abreviado.
    }

## Kept as typed and not used

finding-unused =
    Guardado como se escribió, sin graficar ni calcular: { $entries }{ $more ->
        [0] { "" }
       *[other] { " " }Y { $more } más.
    }
finding-unused-entry = “{ $entry }” { $why }.
finding-unused-bolts = tiene más pernos que cualquier tapa
finding-unused-rows = tiene renglones imposibles, o más que cualquier tabla
finding-unused-cannot-be = no es una cantidad posible
finding-unused-does-not-fit = tiene un número que no corresponde a lo escrito
finding-unused-not-read = empieza como número y no se entiende

## Instruments, hoses, seals, signs, people

finding-instrument-unknown = { $name } no es un instrumento del sitio.
finding-calibration-overdue = La calibración de { $name } venció { $due }.
finding-hose-unknown = La manguera { $name } no es del sitio.
finding-hose-test-overdue = La prueba de la manguera { $name } venció { $due }.
finding-seal-not-from-stock = El sello { $number } no se entregó a este sitio.
finding-frost-ring = Anillo de escarcha en el tanque: hay líquido hirviendo adentro, o el tanque se enfría donde no debe. Deténgase y busque la causa.
finding-blue-sign-not-up = Hay una línea conectada y la señal azul no está anotada como puesta. Colóquela.
finding-training-overdue = La última capacitación registrada de { $person } tiene más de tres años (49 CFR 172.704, de memoria).
finding-handover-one-sided = La entrega de turno de { $from } a { $to } solo la firmó { $by }.
finding-attendance-gap =
    { $minutes } min sin entradas con una línea conectada, { $valves ->
        [closed] válvulas anotadas como cerradas
       *[other] una válvula anotada como abierta
    }: { $shown }.{ $left ->
        [yes] { " " }Alguien anotó que se retiró.
       *[other] { "" }
    }

## Incidents, leaks, how a car is left

finding-incident-open = Incidente abierto: { $incident }. El trabajo sigue cuando se cierre.
finding-incident-telephone =
    { $binds ->
        [must] Informe por teléfono pendiente
       *[other] Revise si debe hacerse un informe por teléfono
    }, antes de { $due }{ $late ->
        [yes] , ya vencido
       *[other] { "" }
    }: { $incident }. La regla pide 12 horas en caso de muerte, hospital, o una hora de desalojo o sin paso (49 CFR 171.15, leído { $read }; en Canadá vea TDG 8.2 y 8.4).
finding-incident-written =
    { $binds ->
        [must] Informe escrito pendiente
       *[other] Revise si debe hacerse un informe escrito
    }, antes de { $due }{ $late ->
        [yes] , ya vencido
       *[other] { "" }
    }: { $incident }. La regla pide 30 días, salvo un escape mínimo al conectar o desconectar sin daños (49 CFR 171.16, leído { $read }).
finding-leak-open = Fuga abierta: { $leak }. El trabajo sigue cuando se compruebe sin fuga.
finding-left-for-next = De la visita anterior: { $says } ({ $who })
finding-not-in-order = { $says } La próxima visita lo muestra hasta que se registre en buen estado o normal.
finding-tank-unknown = El tanque { $name } no es del sitio.
finding-hose-pressure = La manguera en { $fitting } aún tiene { $amount } después de bajar la presión; hasta { $most } es lo usual (práctica común, sin fuente). Baje más la presión antes de purgarla.
finding-suction-above = La succión del compresor ({ $suction }) está por encima de su descarga ({ $discharge }). Revise la válvula de cuatro vías y los manómetros.
finding-inspection = La inspección de { $by } encontró: { $finding }
finding-protect-again = El carro se movió o se dejó. Ponga y anote otra vez: { $again }.
finding-track-ended = Tomado de { $car }: «{ $says }» Allí terminó { $time }. Atiéndalo en este carro y anótelo otra vez.
finding-left-with-line = El carro se dejó como desconectado, y consta una manguera conectada ({ $who }).
finding-left-at-tank = El carro se dejó conectado. En un tanque fijo alguien lo atiende hasta quitar las mangueras (29 CFR 1910.110(b)(14)(i), (b)(15)(iv), leído { $read }; excepciones (i)(2)). 49 CFR 174.67(k) es solo para el trasiego.
finding-left-at-truck = El carro se dejó conectado. No consta, de lo que pide 49 CFR 174.67(k) (leído { $read }): { $missing }.
finding-released-otherwise = El carro se liberó de otro modo que el dicho ({ $load }). Corrija uno de los dos.

## From formulas

finding-of-fitting = En { $fitting }: { $says }
finding-receiving-tank = Tanque receptor como está ahora: { $says }
finding-no-freeze-advice = Sin consejo sobre congelación: { $why }.
