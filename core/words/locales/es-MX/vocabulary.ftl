### The words of the trade, as they stand in the middle of a sentence.

## Fittings under the housing

fitting-liquid_a = válvula de líquido A
fitting-liquid_b = válvula de líquido B
fitting-vapour = válvula de vapor
fitting-vapour_two = segunda válvula de vapor
fitting-gauging_device = dispositivo de medición
fitting-thermometer_well = termopozo
fitting-sample_line = línea de muestreo
fitting-relief_device = válvula de alivio

## Valves, closures, what is heard

valve_position-open = abierta
valve_position-shut = cerrada
closure-open = retirado
closure-hand_tight = apretado a mano
closure-tool_tight = apretado con herramienta
heard-quiet = no se oye fuga
heard-hiss = fuga por el asiento
part-valve = vástago de la válvula
part-closure = cierre

## What is measured, where and for what

measured-pressure = presión
measured-temperature = temperatura
measured-outage = espacio vacío
measured-level = nivel
measured-relative_density = densidad relativa
measured-volume = volumen
measured-rate = caudal
place-car = carro
place-car_low = carro, parte baja
place-liquid_line = línea de líquido
place-vapour_line = línea de vapor
place-compressor = compresor
place-compressor_suction = succión del compresor
place-compressor_discharge = descarga del compresor
place-shut_off_panel = tablero de paro de emergencia
place-storage_tank = tanque de almacenamiento
place-truck = autotanque
place-air = aire
purpose-arrival = llegada
purpose-leak_test = prueba de fugas
purpose-transfer = trasiego
purpose-recovery = recuperación de vapores
purpose-hold_test = prueba de presión sostenida
purpose-empty_proof = comprobación de vaciado
purpose-final = final
receiver-fixed_tank = tanque fijo
receiver-truck = autotanques

## Seals and photographs

seal_place-housing_pin = pasador de la caja protectora
seal_place-housing_lug = oreja de la caja protectora
seal_place-gauging_device = tapa del dispositivo de medición
seal_place-elsewhere = otro lugar
seal_event-found = encontrado
seal_event-applied = colocado
seal_event-removed = retirado
seal_kind-plastic = plástico
seal_kind-metal_strap = fleje metálico
seal_kind-cable = cable
seal_kind-bolt = perno
seal_note-no_seal_found = no se encontró sello
override_reason-done_not_recorded = hecho, pero no se anotó en su momento
override_reason-not_here = este carro o sitio no lo tiene
override_reason-other_means = demostrado por otros medios
override_reason-owner_says_so = el dueño o el remitente indicó continuar
override_reason-reported = no se puede hacer ahora; avisado, y otra persona se encarga
photo_of-car_number = número del carro
photo_of-seal = sello colocado
photo_of-threads = roscas enganchadas
photo_of-defect = defecto
photo_of-instrument = carátula del instrumento
photo_of-housing = caja protectora abierta
photo_of-paper = documento de transporte
photo_of-other = otra cosa

## Protections: their names, and how they stand

protection-blue_sign = señal azul
protection-hand_brake = freno de mano
protection-chocks = calzas
protection-track_secured = descarrilador o cambio
protection-emergency_shut_off = paro de emergencia
protection-gas_detector = detector de gas
protection_set-blue_sign = puesta
protection_set-hand_brake = aplicado
protection_set-chocks = colocadas
protection_set-track_secured = puesto y con candado
protection_set-emergency_shut_off = probado, funciona
protection_set-gas_detector = encendido y revisado
protection_away-blue_sign = retirada
protection_away-hand_brake = suelto
protection_away-chocks = retiradas
protection_away-track_secured = retirado
protection_away-emergency_shut_off = no funciona
protection_away-gas_detector = apagado

## Times of the car, weather, people

clock_event-notice = aviso de llegada
clock_event-constructive_placement = colocación presunta
clock_event-ordered_in = orden de meterlo
clock_event-actual_placement = colocación efectiva
clock_event-carrier_told = liberado al transportista
clock_event-pulled = retirado por el transportista
precipitation-dry = seco
precipitation-rain = lluvia
precipitation-freezing_rain = lluvia congelante
precipitation-snow = nieve
precipitation-frost = escarcha
wind_from-n = N
wind_from-ne = NE
wind_from-e = E
wind_from-se = SE
wind_from-s = S
wind_from-sw = SO
wind_from-w = O
wind_from-nw = NO
wind_force-still = calma
wind_force-light = ligero
wind_force-fresh = moderado
wind_force-strong = fuerte
wind-both = { $from }, { $force }
presence-here = con el carro
presence-away = se retiró del carro
told-voice = por teléfono o en persona
told-writing = por correo o por escrito
contact_role-emergency = emergencia
contact_role-carrier = transportista
contact_role-office = oficina
named-by_phone = según el teléfono
named-held = según el teléfono por el que firmó
named-own_hand = firmado con su propio NIP
named-hand_not_confirmed = firmado con una clave de NIP que la oficina no ha confirmado
named-hand_not_theirs = firmado con una clave que no es suya o ya terminó

## Checks and tests

checked-relief_device = válvula de alivio
checked-hoses_service_and_test_date = mangueras: servicio y fecha de prueba
checked-outside_of_the_car = exterior del carro
checked-odorant = odorante
checked-room_in_the_truck = espacio en el autotanque
checked-no_tools_under_the_housing = sin herramienta en la caja protectora
checked-lines_clear_of_the_car = líneas separadas del carro
checked-outside_of_the_car_before_it_is_offered = exterior del carro, antes de ofrecerlo
checked-residue_paper_made_out = documento de remanente elaborado
checked-loaded_paper = documento de embarque de la carga elaborado
checked-placards_in_place = carteles en su lugar
checked-plant_signs = señales de salida del líquido en la planta
checked-plant_closed = válvulas de planta cerradas, mangueras guardadas
checked-platform_up = plataforma arriba, nada en el carro
checked-trap_drained = trampa de líquido drenada
checked-number_as_on_paper = número leído en el carro, igual que en el documento de la oficina
test_date-tank_qualification = calificación del tanque
test_date-relief_device = prueba de la válvula de alivio
test_date-service_equipment = equipo de servicio
empty_sign-rod_at_bottom = varilla de medición en el fondo
empty_sign-vapour_at_liquid_valve = solo vapor en la válvula de líquido
empty_sign-liquid_at_closure = líquido visto en un cierre de líquido
empty_sign-frost_ring = anillo de escarcha en el tanque
item-adapter = adaptador
item-at = { $item } ({ $fitting })

## Incidents, leaks, how a car is left

incident_source-fitting = válvula o abertura del carro
incident_source-hose = manguera o brazo
incident_source-coupling = acople o adaptador
incident_source-plant = tubería, compresor o tanque de la planta
incident_source-relief_device = válvula de alivio
incident_source-tank = tanque del carro
incident_source-truck = camión
injury-none = nadie lesionado
injury-first_aid = primeros auxilios
injury-hospital = hospitalización
injury-death = muerte
evacuation-none = nadie desalojado
evacuation-site = personal del sitio
evacuation-public = público, menos de una hora
evacuation-public_hour = público, una hora o más
called-emergency = número local de emergencias
called-response_center = Centro Nacional de Respuesta (EE. UU.)
called-canutec = CANUTEC, por teléfono
called-written_report = informe escrito del incidente enviado
called-carrier = transportista
called-shipper = embarcador
called-owner = dueño del carro
called-office = oficina propia
leak_at-coupling = acople o adaptador
leak_at-hose = manguera o brazo
leak_at-packing = empaque o vástago
leak_at-plug = tapón o tapa
leak_at-gasket = brida o junta
leak_at-relief_device = válvula de alivio
leak_at-plant = tubería de la planta
leak-at-fitting = { $at } ({ $fitting })
incident-named = { $source }, notado { $noticed }
left_condition-designated = persona designada en el sitio, conoce el producto y el procedimiento de emergencia
left_condition-monitored = sistema de alarma vigila, o alguien lo revisa cada hora
left_condition-valves_closed = válvulas del carro y de la planta cerradas y aseguradas
left_condition-brakes_blocked = freno aplicado, ruedas calzadas
left_condition-track_secured = acceso a la vía asegurado
car_load-residue = como remanente
car_load-part_loaded = con parte de la carga
car_load-loaded = cargado
feel-easy = fácil
feel-normal = normal
feel-hard = dura
plug_state-sound = en buen estado
plug_state-rounded = cuadrado redondeado
plug_state-seized = atorado
cover_part-pin = pasador
cover_part-lug = oreja
cover_part-hinge = bisagra
part_state-sound = en buen estado
part_state-worn = con desgaste
part_state-bent = deformación
part_state-broken = grieta o rotura
part_state-missing = falta
tank_moment-before = antes
tank_moment-after = después
gauging_kind-rod = varilla o magnético
gauging_kind-slip_tube = tubo deslizante
gauging_kind-other = otro tipo
car_end-a = hacia el extremo A
car_end-b = hacia el extremo B
leaves_as-unloaded = descargado
leaves_as-bad_order = mal orden
leaves_as-refused = rechazado
leaves_as-diverted = desviado

## Steps and stages

step_outcome-done = hecho
step_outcome-not_right = no está bien
step_outcome-skipped = omitido
step_status-open = pendiente
step_status-partly = anotado en parte
step_status-recorded = anotado
step_status-done = hecho
step_status-not_right = no está bien
step_status-skipped = omitido
step_status-not_used = línea no usada
step_status-held = detenido por una respuesta
stage-receive = recibir
stage-gauge = medir
stage-connect = conectar
stage-transfer = trasiego
stage-recover = recuperar vapores
stage-prove_empty = comprobar vaciado
stage-disconnect = desconectar
stage-final_pressure = presión final
stage-close = cerrar
stage-release = liberar

## Who asks for a thing; what became of an entry; whether it counts

asked_by-law = ley
asked_by-practice = práctica
asked_by-this_record = este registro
fate-live = vigente
fate-moved_on = sustituida
fate-corrected = corregida
fate-withdrawn = anulada
fate-withdrawal = anula otra
fate-settled = resuelta de otro modo
fate-agreed = conservada
fate-kept = guardada, no cuenta
kept-no_device = guardada, no cuenta: no la firmó ningún dispositivo de esta organización
kept-after_revocation = guardada, no cuenta: llegó después de revocar el dispositivo
kept-expired = guardada, no cuenta: el certificado del dispositivo había vencido
kept-other_site = guardada, no cuenta: el dispositivo no es de este sitio
kept-no_right = guardada, no cuenta: el dispositivo no puede anotar esto
kept-not_own = guardada, no cuenta: anula lo que anotó otra persona
kept-misplaced = guardada, no cuenta: no corresponde a este tipo de registro
kept-ground_fell = guardada, no cuenta: la entrada del otro carro de la vía en la que se apoya no vale
not_checked-no_certificate = sin verificar: aún no llega aquí el certificado del dispositivo que la firmó
not_checked-before_revocation_unknown = sin verificar: el dispositivo fue revocado; aquí no se sabe si la oficina ya la tenía
not_checked-site_unknown = sin verificar: aquí no se conoce el sitio de esta estancia
not_checked-replaced_unknown = sin verificar: la entrada que anula no está aquí
not_checked-kind_unknown = sin verificar: esta versión no conoce este tipo de entrada
not_checked-ground_unknown = sin verificar: la entrada del otro carro en la que se apoya no está aquí
standing-before_enrolment = firmado antes de dar de alta el dispositivo
standing-not_certified = dispositivo sin certificado
standing-revoked = dispositivo revocado

## Rights, keys

right-record = anotar
right-settle = resolver diferencias
right-lift_hold = levantar retenciones
right-override = autorizar excepciones
right-release = liberar carros
right-withdraw_others = anular entradas de otros
right-keep_site = mantener datos del sitio
right-issue_seals = entregar sellos
right-keep_people = mantener personas
right-publish_procedures = publicar procedimientos
right-admit = admitir entradas tardías
right-enrol = dar de alta dispositivos
right-read = leer
unlocking-act = por cada acto
unlocking-shift = una vez por turno
key_kept-pin = NIP
key_kept-platform = bloqueo de este dispositivo

## What is open before release

blocker_kind-line_connected = línea conectada
blocker_kind-valve_not_shut = válvula no cerrada
blocker_kind-listen_missing = no se escuchó
blocker_kind-hiss_heard = válvula con fuga por el asiento
blocker_kind-closure_not_tool_tight = cierre no apretado con herramienta
blocker_kind-threads_one_or_less = una rosca o menos enganchada
blocker_kind-unreadable_entries = entradas ilegibles
blocker_kind-not_opened = falta la entrada de apertura
blocker_kind-empty_not_accepted = vaciado no aceptado
blocker_kind-empty_contradicted = señal de líquido después de comprobar
blocker_kind-final_pressure_missing = falta la presión final
blocker_kind-item_out = no devuelto
blocker_kind-cover_not_closed = tapa de la caja protectora no cerrada
blocker_kind-cover_not_pinned = pasador no colocado
blocker_kind-cover_bolts = pernos de la tapa
blocker_kind-seal_incomplete = registro del sello incompleto
blocker_kind-seal_missing = sin sello
blocker_kind-blue_sign_down_early = señal azul retirada antes de tiempo
blocker_kind-hold_open = retención
blocker_kind-disagreement = dos entradas difieren
blocker_kind-authority_missing = falta la autorización
blocker_kind-final_pressure_doubtful = presión final dudosa
blocker_kind-alarm = alarma
blocker_kind-doubt = cifra dudosa
blocker_kind-number_not_checked = número del carro leído una vez
blocker_kind-paper_not_compared = documento de transporte sin comparar
blocker_kind-product_not_taken = producto que no se recibe aquí
blocker_kind-protection_not_set = no puesto
blocker_kind-protection_out_of_order = fuera de servicio
blocker_kind-not_recorded_as_found = no anotado como se encontró
blocker_kind-check_missing = falta la revisión
blocker_kind-check_not_right = revisión no correcta
blocker_kind-step_open = paso pendiente
blocker_kind-step_not_right = paso no correcto
blocker_kind-reading_missing = falta la lectura
blocker_kind-photo_missing = falta la fotografía
blocker_kind-last_round_missing = falta la última ronda
blocker_kind-sign_down_while_connected = línea conectada sin la señal azul
blocker_kind-incident_open = incidente abierto
blocker_kind-leak_open = fuga sin comprobar
blocker_kind-outcome_unexplained = falta la razón de cómo sale el carro

## What an entry is about

slot_part-valve = válvula
slot_part-closure = cierre
slot_part-listen = escucha
slot_part-line = línea
slot_part-threads = roscas enganchadas
slot_part-effort = par de apriete
slot_part-feel = giro de la válvula
slot_part-plug = estado del tapón
slot_part-hose_pressure = presión restante en la manguera
slot-at = { $fitting }: { $part }
slot-named = { $kind } { $name }
slot-seal = sello ({ $place })
slot-seal-found = sello encontrado ({ $place })
slot-step = paso { $step }
slot-opened = apertura del registro
slot-paper = documento de transporte
slot-cover = tapa de la caja protectora
slot-released = liberación del carro
slot-fit_to_unload = apto para descargar
slot-last_round = última ronda de todos los cierres
slot-overridden = excepciones autorizadas
slot-outcome = cómo sale el carro
slot-car_left = carro dejado
slot-car_moved = carro movido
slot-empty_decision = decisión de vaciado
slot-car_number_again = número del carro, segunda lectura
slot-car_fittings = accesorios del carro
slot-car_capacity = capacidad del tanque del carro
slot-car_diameter = diámetro interior del carro
slot-outage_table = tabla de espacios vacíos del carro
slot-outage_table_or_diameter = tabla de espacios vacíos o diámetro interior del carro
slot-site = sitio
slot-rules = reglas de la organización
slot-photos = fotografías
slot-handovers = entregas de turno
slot-attendance = vigilancia
slot-checked_in = todo bien
slot-weather = clima
slot-truck_loads = cargas de autotanque
slot-remarks = observaciones
slot-tanks_gauged = tanques antes y después
slot-recovery_planned = recuperación planeada
slot-inspections = inspecciones
slot-defect = defecto
slot-hold = retención
slot-incident = incidente
slot-leak = fuga
slot-next_time = nota para la próxima vez
slot-expected = documento de un carro esperado
slot-joined = misma estancia o no
slot-tank = tanque
slot-instrument = instrumento
slot-hose = manguera
slot-contact = contacto
slot-seal_stock = sellos entregados desde
slot-operator = persona
reading-title = { $purpose }: { $measured } ({ $place })
step-as_recorded = Como se anotó el { $day }: { $says }
step-as_on_track = Como en { $track } a las { $time }, con { $car }: sigue igual.
step-at = { $title } · { $fitting }
step-procedure = { $title }, edición { $edition }

## Spans of time, signatures

span-minutes = { $minutes } min
span-hours = { $hours } h { $minutes } min
span-days = { $days } d { $hours } h
attribution = { $name }, { $time }
attribution-revoked = { $name }, { $time } (dispositivo revocado)
attribution-done = hecho { $done }, registrado { $entered }

binds-unloading = toda descarga
binds-transloading = el trasiego a autotanques solamente
binds-fixed_tank = la descarga a un tanque fijo
binds-offeror = quien ofrece el carro
binds-paper_keeper = quien conserva el documento
binds-possessor = quien tiene el producto a su cargo
span-between = { $from } a { $until }

## How a bill was measured, how a car is insulated

billed_by-table = tabla de espacios vacíos
billed_by-meter = medidor
billed_by-scale = báscula
insulation-none = sin aislamiento
insulation-thermal_protection = protección térmica con chaqueta
insulation-insulated = aislado con chaqueta
