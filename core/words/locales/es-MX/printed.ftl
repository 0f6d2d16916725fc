### A visit as plain text, for a terminal or a printer.

## Pieces

printed-parts = { $parts }
printed-said = { $what } — { $by }
printed-by = { $who }, en { $device }
printed-by-unsent = { $who }, en { $device } · sin enviar
printed-settled-by = { $kept }; resuelto por { $by }
printed-because = { $what } ({ $why })
printed-disputed = { $what } — EN DISPUTA
printed-also =
    { $count ->
        [one] { $what } (otra entrada dice lo mismo)
       *[other] { $what } (otras { $count } entradas dicen lo mismo)
    }
printed-named = { $what }: { $value }
printed-about = { $about }:
printed-why = motivo: { $why }

## Head

printed-car-not-known = carro desconocido
printed-into-tank = a un tanque fijo
printed-into-trucks = a autotanques
printed-product = { $product } (según el documento)
printed-procedure = Según: { $title }
printed-procedure-stand-in = Según: { $title }, en lugar de otro que aquí no se conoce
printed-times = Horas en { $zone }. Desde { $since }. Entradas: { $entries }; sin llegar a la oficina: { $unsent }.
printed-local-rules = Antes que nada: { $rules }
printed-joined = Unido al registro { $visit }.

## Where it stands

printed-heading-state = Cómo va
printed-hold = RETENCIÓN: { $because }
printed-goes = Sale { $load }: { $because }
printed-released-residue = Liberado como remanente
printed-released-not-residue = Liberado, no como remanente
printed-stage = Etapa: { $stage }
printed-progress = { $stage } { $closed }
printed-tally-none = Recuento: no hay nada fuera.
printed-out = FUERA: { $item }
printed-offer = { $says } (registro { $visit })

## Disagreements

printed-heading-disagreements = Discrepancias
printed-heading-ended = Discrepancias que terminaron
printed-settled = resuelto: { $says }
printed-moved-on = rebasado: { $says }

## What comes next

printed-heading-next = Sigue
printed-heading-again = Se pide otra vez, porque el carro se dejó o se movió
printed-heading-left-behind = Quedó pendiente de etapas anteriores
printed-step = { $title } [{ $id }] — { $status }
printed-step-why = Por qué: { $why } ({ $asked_by }: { $source })
printed-caution = CUIDADO: { $caution }

## The gates

printed-signed-by = firmado por { $by }
printed-not-signed = sin firmar
printed-missing = FALTA: { $what } [{ $code }]
printed-asked-by = lo pide { $asked_by }: { $source }
printed-there = hay: { $what }
printed-nothing-missing = No falta nada de lo que busca este registro, o todo se exceptuó con motivo.
printed-still-open = aún pendiente: { $what }
printed-overridden = EXCEPTUADO: { $what }
printed-overridden-fallen = EXCEPTUADO: { $what } — no es válida: { $why }

## Notices

printed-heading-notices = Avisos
printed-alarm = ALARMA: { $what }
printed-check = Revisar: { $what }

## Fittings

printed-heading-fittings = Accesorios
printed-fitting = { $fitting }: { $parts }
printed-valve = válvula { $state }
printed-valve-not-recorded = válvula sin registrar
printed-closure = cierre { $state }
printed-closure-not-recorded = cierre sin registrar
printed-heard-since-shut = { $state } después de cerrarla
printed-line-on = LÍNEA CONECTADA
printed-line-on-hose = LÍNEA CONECTADA (manguera { $hose })
printed-line-off = línea desconectada
printed-line-off-hose = línea desconectada (manguera { $hose })
printed-engaged = { $threads } enganchadas
printed-cover-closed-pin-in = tapa de la caja protectora: cerrada, pasador puesto, { $here } de { $all } pernos colocados
printed-cover-closed-pin-out = tapa de la caja protectora: cerrada, pasador afuera, { $here } de { $all } pernos colocados
printed-cover-open-pin-in = tapa de la caja protectora: abierta, pasador puesto, { $here } de { $all } pernos colocados
printed-cover-open-pin-out = tapa de la caja protectora: abierta, pasador afuera, { $here } de { $all } pernos colocados
printed-protections = protecciones: { $what }
printed-protection-set = { $what }: puesto
printed-protection-away = { $what }: retirado

## Readings and what was computed

printed-heading-readings = Lecturas
printed-reading = { $title }: { $amount }, en { $name }
printed-reading-no-instrument = { $title }: { $amount }, instrumento sin nombrar
printed-nothing-stands = { $title }: nada queda en pie
printed-before = antes
printed-point = { $at } { $amount }
printed-heading-computed = Calculado del registro
printed-largest = la mayor parte del ± viene de { $input }
printed-heading-empty = ¿Ya salió el líquido?
printed-yes = sí
printed-no = no
printed-speaks-for-liquid = { $says } — indica líquido
printed-weighed-liquid = ponderado: lo registrado indica LÍQUIDO
printed-weighed-no-liquid = ponderado: lo registrado no indica líquido
printed-weighed-not-enough = ponderado: lo registrado no basta para saberlo
printed-next = sigue: { $step }
printed-not-weighed = sin ponderar: { $why }
printed-taken-as-empty = se tomó como vacío de líquido: { $grounds }
printed-not-taken-as-empty = NO se tomó como vacío de líquido: { $grounds }
printed-heading-received = Lo que recibió la carga
printed-trucks-together = en total { $total } según lo anotado

## Seals, photographs, checks

printed-heading-seals = Sellos
printed-seal-found = { $place }, encontrado: { $says }
printed-seal-now = { $place }, ahora: { $says }
printed-no-number = sin número
printed-kind-not-said = tipo no indicado
printed-seal-whole = intacto
printed-seal-not-whole = NO INTACTO
printed-heading-photographs = Fotografías
printed-photograph = { $of } — { $bytes } bytes, { $digest }
printed-heading-checks = Revisiones y clima
printed-right = { $what }: correcto
printed-not-right = { $what }: NO correcto

## Defects

printed-heading-defects = Defectos
printed-earlier-visit = { $what } (visita anterior)
printed-forwarded = informado a { $to } ({ $how })
printed-answered = contestó { $by }, referencia { $reference }
printed-due = { $says }, por escrito a más tardar { $due }
printed-due-past = { $says }, por escrito a más tardar { $due }, VENCIDO
printed-needs-authority = se mueve solo con aprobación de una autoridad: ninguna registrada
printed-repaired = reparado: { $how }
printed-heading-carried = Para la próxima visita

## People, devices, entries

printed-heading-people = Personas, dispositivos, horas
printed-gap = HUECO: { $says }
printed-name-removed = { $name } (nombre eliminado en la oficina)
printed-entries =
    { $count ->
        [one] { $name }: { $count } entrada
       *[other] { $name }: { $count } entradas
    }
printed-responsible = { $says }, responsable ahora
printed-handover = entrega de { $from } a { $to }: firmada por ambos
printed-handover-one-sided = entrega de { $from } a { $to }: firmada por un solo lado
printed-heading-history = Todo, en orden
printed-entry = { $at } { $name }: { $says }
printed-entry-binding = { $at } { $name }, { $named }: { $says }
printed-fate = { $says } [{ $fate }]
