### The event log: each entry as one sentence, with the fields of its kind as arguments. A field that is not filled in is the number 0.

## How entries lean on each other

log-voided = Anulada: { $entries }.
log-settled = Resuelta; se conserva { $entry }.
log-corrects = { $says } Corrige { $entries }.
log-quote = “{ $claim }”
log-quotes = { $quotes }
log-not-here = entrada { $entry } (no está aquí)
log-more = { $count } más
log-done = { $says } Hecho { $done }, registrado { $entered }.
log-rests_on = { $says } Se apoya en la entrada de { $time } de { $car } ({ $entry }).
log-rests_on_unknown = { $says } Se apoya en una entrada de otro carro, { $entry } (no está aquí).
log-nothing = nada
log-withdrawn = Anulada.
log-agreement = Resuelta.

## Each kind of entry

log-opened =
    Registro de { $car } abierto{ $spot ->
        [0] { "" }
       *[other] , posición { $spot }
    }{ $receiver ->
        [0] { "" }
       *[other] , hacia: { $receiver }
    }.
log-paper = Documento de transporte: { $parts }.
log-paper-nothing = Documento de transporte: nada anotado.
log-paper-number = número { $text }
log-paper-car = carro { $text }
log-paper-shipper = de { $text }
log-paper-billed = facturado { $amount }
log-paper-density = densidad relativa { $amount } a 60 °F
log-paper-odorized = odorizado
log-paper-not-odorized = NO odorizado
log-paper-grade = grado { $grade }
log-paper-billed-by = facturado por { $by }
log-paper-winter = llenado con límites de invierno
log-paper-not-winter = no llenado con límites de invierno
log-paper-compared = { $says } Comparado con el documento en la mano; leído por la importación de la oficina: { $source }.
log-paper-compared-elsewhere = { $says } Comparado con el documento en la mano; la entrada { $entry } de la oficina no está en este expediente.
log-clock = Hora, { $event }: { $at }.
log-reading =
    Lectura, { $title }: { $amount }{ $instrument ->
        [0] , instrumento sin nombrar
       *[other] , en { $instrument }
    }.
log-step =
    Paso “{ $step }”: { $outcome }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-valve = Válvula ({ $fitting }): { $position }.
log-closure = Cierre ({ $fitting }): { $state }.
log-listen = Escucha ({ $fitting }): { $heard }.
log-line =
    { $connected ->
        [yes] Línea conectada
       *[other] Línea desconectada
    } ({ $fitting }){ $hose ->
        [0] { "" }
       *[other] , manguera { $hose }
    }.
log-effort = Par de apriete para cerrar ({ $fitting }, { $part }): { $amount }.
log-threads = Roscas enganchadas ({ $fitting }): { $engaged }.
log-item_out =
    Fuera: { $item }{ $fitting ->
        [0] { "" }
       *[other] , en { $fitting }
    }. Debe devolverse.
log-item_in = Devuelto: { $item }.
log-seal =
    Sello { $number ->
        [0] sin número legible
       *[other] { $number }
    } ({ $kind ->
        [0] tipo sin indicar
       *[other] { $kind }
    }): { $event }, { $place }, { $intact ->
        [yes] intacto
       *[other] NO intacto
    }{ $photo ->
        [0] { "" }
       *[other] , con foto
    }{ $note ->
        [0] { "" }
       *[other] . { $note }
    }{ $because ->
        [0] { "" }
       *[other] . Motivo: { $because }
    }.
log-photo =
    Fotografía: { $of }{ $about ->
        [0] { "" }
       *[other] { " " }({ $about })
    }, { $bytes } bytes, { $digest }.
log-defect =
    Defecto{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }: { $what }.{ $needs_authority ->
        [yes] { " " }El carro solo se mueve con autorización.
       *[other] { "" }
    }
log-forwarded = Defecto informado a { $to } ({ $how }).
log-authority =
    Autorización para un defecto: { $by }, referencia { $reference }{ $spoken_at ->
        [0] { "" }
       *[other] , verbal { $spoken_at }
    }{ $written_at ->
        [0] { "" }
       *[other] , por escrito { $written_at }
    }.
log-resolved = Defecto reparado: { $how }.
log-incident =
    INCIDENTE: { $source }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }, notado { $noticed_at }.{ $what ->
        [0] { "" }
       *[other] { " " }{ $what }.
    }{ $injury ->
        [0] { "" }
       *[other] { " " }Lesiones: { $injury }.
    }{ $ignition ->
        [yes] { " " }Hubo fuego.
        [no] { " " }Sin fuego.
       *[other] { "" }
    }{ $evacuation ->
        [0] { "" }
       *[other] { " " }Desalojo: { $evacuation }.
    }{ $closed ->
        [yes] { " " }Camino, vía o instalación sin paso una hora o más.
        [no] { " " }Nada sin paso una hora.
       *[other] { "" }
    }
log-incident_stopped =
    Incidente detenido { $at }{ $loss ->
        [0] { "" }
       *[other] , pérdida estimada { $loss }
    }.{ $minimal ->
        [yes] { " " }Cantidad mínima al conectar o desconectar, sin daños.
        [no] { " " }Más que una cantidad mínima.
       *[other] { "" }
    }
log-incident_call =
    Aviso del incidente: { $to }, { $at }{ $number ->
        [0] { "" }
       *[other] , número { $number }
    }.
log-incident_closed = Incidente cerrado: { $how }.
log-leak =
    FUGA: { $at }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }.{ $action ->
        [0] { "" }
       *[other] { " " }Se hizo: { $action }.
    }
log-leak_checked =
    Fuga revisada otra vez: { $tight ->
        [yes] sin fuga
       *[other] SIGUE LA FUGA
    }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-car_left =
    Carro dejado, { $connected ->
        [yes] conectado
       *[other] desconectado
    }{ $until ->
        [0] { "" }
       *[other] , hasta { $until }
    }.{ $conditions ->
        [0] { "" }
       *[other] { " " }Se cuidó: { $conditions }.
    }{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }
log-car_moved =
    Carro movido durante su estancia{ $to ->
        [0] { "" }
       *[other] , a { $to }
    }{ $by ->
        [0] { "" }
       *[other] , por { $by }
    }.
log-outcome =
    El carro sale { $load }: { $because }{ $to ->
        [0] { "" }
       *[other] , a { $to }
    }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }
log-next_time =
    La próxima vez: { $what }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }.
log-next_time_done =
    Nota para la próxima vez atendida{ $how ->
        [0] { "" }
       *[other] : { $how }
    }.
log-valve_feel = La válvula en { $fitting } giró: { $feel }.
log-plug_condition =
    Tapón en { $fitting }: { $state }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-cover_condition =
    Tapa de la caja protectora, { $part }: { $state }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-hose_pressure = Manguera en { $fitting } después de bajar la presión: { $amount }.
log-hold = RETENIDO: { $because }.
log-hold_lifted = Retención levantada: { $because }.
log-handover_given = Entrega de turno a { $to }.
log-handover_taken = Turno recibido de { $from }.
log-attendance = Vigilancia: { $presence }.
log-checked_in = Todo bien, dice quien tiene el carro.
log-cover =
    Tapa de la caja protectora { $closed ->
        [yes] cerrada
       *[other] abierta
    }, pasador { $pinned ->
        [yes] puesto
       *[other] fuera
    }, { $bolts_in_place } de { $bolts_required } pernos en su lugar.
log-protection = Protección, { $what }: { $state }.
log-weather =
    Clima: { $precipitation }{ $wind ->
        [0] { "" }
       *[other] , viento { $wind }
    }.
log-empty_sign =
    Señal, { $sign }: { $seen ->
        [yes] sí
       *[other] no
    }.
log-empty_decision =
    { $accepted ->
        [yes] Aceptado sin líquido
       *[other] NO aceptado sin líquido
    }: { $grounds }.
log-truck_load =
    Autotanque { $truck } cargado con { $amount }{ $ticket ->
        [0] { "" }
       *[other] , boleta { $ticket }
    }{ $driver ->
        [0] { "" }
       *[other] , conductor { $driver }
    }{ $level ->
        [0] { "" }
       *[other] , nivel { $level }
    }{ $temperature ->
        [0] { "" }
       *[other] , temperatura { $temperature }
    }{ $seal ->
        [0] { "" }
       *[other] , sello { $seal }
    }.
log-tank_gauged =
    Tanque { $tank }, { $moment }{ $level ->
        [0] { "" }
       *[other] , nivel { $level }
    }{ $pressure ->
        [0] { "" }
       *[other] , presión { $pressure }
    }{ $temperature ->
        [0] { "" }
       *[other] , temperatura { $temperature }
    }{ $meter ->
        [0] { "" }
       *[other] , medidor { $meter }
    }.
log-recovery_planned =
    Recuperación planeada hasta { $target }{ $swept ->
        [0] { "" }
       *[other] , compresor { $swept }
    }{ $efficiency ->
        [0] { "" }
       *[other] , eficiencia { $efficiency }
    }{ $price ->
        [0] { "" }
       *[other] , precio del galón { $price }
    }{ $cost ->
        [0] { "" }
       *[other] , costo de una hora { $cost }
    }.
log-inspection =
    Inspeccionado por { $by }{ $looked_at ->
        [0] { "" }
       *[other] : { $looked_at }
    }.{ $found ->
        [yes] { " " }Hay algo que corregir.
        [no] { " " }Nada encontrado.
       *[other] { "" }
    }{ $finding ->
        [0] { "" }
       *[other] { " " }{ $finding }.
    }{ $copy_left ->
        [yes] { " " }Se dejó una copia.
        [no] { " " }No se dejó copia.
       *[other] { "" }
    }
log-check =
    Revisión, { $what }: { $right ->
        [yes] bien
       *[other] NO está bien
    }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-remark = Observación: { $text }
log-joined = Misma estancia que el registro { $other }.
log-not_joined = No es la misma estancia que el registro { $other }.
log-passed_over = Excepción autorizada: { $item }.
log-overridden =
    Excepción autorizada en “{ $gate }”, { $count ->
        [one] 1 punto
       *[other] { $count } puntos
    }: { $items }. Razón: { $reason }.
log-last_round =
    Última ronda, todo en orden: { $fittings }.{ $except ->
        [0] { "" }
       *[other] { " " }Excepciones: { $except }.
    }{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }{ $photo ->
        [0] { "" }
       *[other] { " " }Fotografía { $photo }.
    }
log-fit_to_unload = Apto para descargar.
log-released =
    Carro liberado{ $as_residue ->
        [yes] { " " }con remanente
       *[other] , no como remanente
    }.
log-car_number_again = Número leído de nuevo en el carro: { $car }.
log-car_fittings =
    En la caja protectora: { $fittings }{ $gauging ->
        [0] { "" }
       *[other] . Dispositivo de medición: { $gauging }
    }{ $vapour_end ->
        [0] { "" }
       *[other] . Válvula de vapor: { $vapour_end }
    }.
log-car_capacity =
    Capacidad del tanque { $capacity }{ $insulation ->
        [0] { "" }
       *[other] , { $insulation }
    }.
log-car_diameter = Diámetro interior { $diameter }.
log-outage_table =
    Tabla de espacios vacíos { $name }, { $rows } renglones, galones de { $liquid ->
        [yes] líquido
       *[other] espacio vacío
    }.
log-car_test_date = Fecha de prueba, { $test }: vence { $due }.
log-site = Sitio { $name }, huso horario { $zone }.
log-tank = Tanque { $name }, { $water_capacity }.
log-instrument = Instrumento { $name } para { $measures }, alcance { $span }.
log-hose = Manguera { $name } para { $service }.
log-contact = Contacto, { $role }: { $name }, { $telephone }.
log-seal_stock = Sellos { $from } a { $to } entregados.
log-operator =
    { $named ->
        [0] { $operator } es { $name }.
       *[other] { $operator } está en la lista de personas; el nombre se guarda aparte.
    }
log-person_key = { $person } creó una clave de NIP en este teléfono ({ $key }).
log-person_key_confirmed = Clave { $key } de { $person } confirmada.
log-person_key_ended = Clave { $key } de { $person } terminada.
log-name_forgotten = El nombre de { $person } se eliminó en la oficina.
log-held_by = Este teléfono lo tiene ahora { $person }.
log-admitted = Entrada tardía { $entry } admitida.
log-rules = Reglas de la organización definidas: NIP { $unlocking }.
log-unrecognised = Una entrada de un tipo que esta versión no conoce ({ $kind }). Se guarda entera.
log-procedure_published =
    Procedimiento { $procedure } publicado para { $sites }, hecho a partir de { $from }.{ $note ->
        [0] { "" }
       *[other] { " " }Cambio: { $note }.
    }
log-procedure_withdrawn = Procedimiento { $procedure } retirado: { $because }.
log-paper_expected =
    Se espera el carro { $car }. { $paper } Leído de { $file }, línea { $line }.{ $expected ->
        [0] { "" }
       *[other] { " " }Se espera el { $expected }.
    }
log-paper_taken_back = Se retira el documento del carro esperado { $car }: { $because }.
log-all-sites = todos los sitios
log-sites =
    { $count ->
        [one] un sitio
       *[other] { $count } sitios
    }
