### Words on the phone for papers, seals, defects, holds, photographs and handovers.

## Tools and fittings out

phone-tally-title = Sin devolver
phone-tally-none = Nada fuera
phone-tally-back = Devuelto
phone-tally-for = En lugar de: { $fitting }
phone-tally-add = Anotar salida
phone-tally-name = ¿Qué salió?
phone-tally-out = Fuera

## Seals

phone-seal-number = Número
phone-seal-again = Número otra vez
phone-seal-scan = Escanear
phone-number-shown = La foto muestra el número
phone-seal-same = Igual las dos veces
phone-seal-different = No coinciden
phone-seal-kind = Tipo
phone-seal-place = Lugar
phone-seal-record = Anotar sello
phone-seal-plastic = Plástico
phone-seal-metal_strap = Fleje
phone-seal-cable = Cable
phone-seal-bolt = Perno
phone-seal-housing_pin = Pasador
phone-seal-housing_lug = Oreja
phone-seal-gauging_device = Medidor
phone-seal-elsewhere = Otro
phone-seal-empty = ¿No hay sello? Deje ambos vacíos.
phone-seal-whole = Intacto
phone-seal-broken = Roto
phone-seal-lacks = Falta: { $what }

## Defects and approvals

phone-defect-title = Defecto
phone-defect-threads = Roscas completas enganchadas
phone-defect-told = Avisado por teléfono a
phone-defect-record = Anotar defecto
phone-defect-approval = Necesita aprobación para moverse
phone-defect-car = Este carro
phone-defect-rule = No cambie el tapón, la válvula ni la brida. Avise.
phone-defect-what = ¿Qué está mal?
phone-defects-title = Defectos
phone-defects-none = Sin defectos anotados
phone-defects-new = Defecto nuevo
phone-defects-not_told = Aún sin avisar
phone-defects-told = { $to }, { $how }
phone-defects-no_authority = Aún sin aprobación
phone-forwarded-to = Avisado a
phone-forwarded-how = ¿Cómo?
phone-authority-note = Una aprobación verbal debe seguir por escrito.
phone-authority-by = ¿Quién la dio?
phone-authority-reference = Su número
phone-authority-spoken = Verbal
phone-authority-written = Por escrito
phone-authority-due = por escrito hasta { $at }
phone-resolved-how = ¿Cómo se reparó?

## Entries that differ

phone-differ-look = Vaya a mirar. Después anote lo que ve.
phone-differ-saw = Miré. Anotar lo que vi
phone-differ-later = Ahora no puedo mirar
phone-differ-why = Ambas entradas quedan en el registro.
phone-differ-agree = Conservar esta
phone-differ-none = Ninguna entrada difiere

## Photographs

phone-photo-take = Tomar foto
phone-photo-keeping = Guardando…
phone-photo-elsewhere = En otro teléfono
phone-photo-many =
    { $n ->
        [one] 1 foto
       *[other] { $n } fotos
    }
phone-photo-none = Aún sin fotos
phone-photo-of = Foto: { $what }

## The shipping paper and due dates

phone-test-due = Vence: año-mes, como 2031-05
phone-paper-note = Deje vacío lo que el documento no dice.
phone-paper-car = Carro en el documento
phone-paper-un_number = Número UN
phone-paper-same_car = El mismo: { $car }
phone-paper-other_car = Otro número de carro
phone-paper-un = Número UN, como UN1075
phone-paper-un_other = Otro número UN
phone-paper-product = Designación oficial de transporte
phone-paper-billed = Cantidad facturada
phone-paper-odorised = ¿Odorizado?
phone-paper-silent = No lo dice
phone-paper-relative_density = Densidad relativa
phone-paper-number = Número del documento
phone-paper-shipper = Expedidor
phone-again-note = Léalo del carro. No mire lo escrito.

## Holds and handovers

phone-hold-note = No mueva el carro ni abra nada hasta levantar la retención.
phone-hold-do = Retener
phone-hold-lift = Levantar retención
phone-hold-stands = Retenido
phone-check_in-title = ¿Todo bien?
phone-check_in-overdue = Con retraso: ¿todo bien?
phone-check_in-well = Todo bien
phone-check_in-last = Último aviso { $time }. Se pide cada { $minutes } minutos mientras usted tiene el carro.
phone-check_in-no_rescue = Esto no es un equipo de rescate. Sin señal nadie ve su aviso, ni que falta. Acuerde con alguien que sepa dónde está y cuándo buscarlo.
phone-remind-reading = Toca leer
phone-remind-hold = Presión sostenida cumplida
phone-remind-watch = ¿Quién atiende el carro?
phone-remind-word = ¿Todo bien?
phone-hold-none = Sin retención
phone-hold-was_lifted = Levantada

## Incidents, leaks, how the car is left

phone-else-title = Anotar otra cosa
phone-else-stop = Detiene el trabajo
phone-else-car = El carro
phone-else-more = Lo demás
phone-earlier-title = Hecho antes
phone-earlier-note = Cada entrada lleva también esta hora, hasta que usted termine. El registro muestra las dos horas.
phone-earlier-time = Hecho a las
phone-earlier-do = Usar esta hora
phone-earlier-as = Se anota como hecho { $time }
phone-earlier-change = Cambiar la hora
phone-earlier-end = Volver a ahora
phone-incident-source = De dónde
phone-incident-noticed = Notado
phone-incident-injury = Lesionados
phone-incident-ignition = Fuego
phone-incident-evacuation = Desalojados
phone-incident-closed = Camino, vía o instalación sin paso una hora
phone-incident-note = Primero las personas: aléjese y llame. Anótelo cuando esté a salvo.
phone-incident-stopped = Detenido
phone-incident-loss = Pérdida estimada
phone-incident-minimal = Solo un escape mínimo al conectar o desconectar, sin daños
phone-incident-to = Avisado
phone-incident-number = Número o nombre
phone-incident-how = Qué se hizo
phone-incident-call = Aviso
phone-incident-more = Agregar datos
phone-incident-stop = Detenido
phone-incident-close = Cerrar
phone-incident-due-telephone = Por teléfono antes de { $time }
phone-incident-due-written = Por escrito antes de { $time }
phone-leak-at = Dónde
phone-leak-action = Qué se hizo
phone-leak-fitting = En cuál conexión
phone-leak-note = Quite la presión antes de apretar nada. El trabajo espera hasta comprobar que ya no hay fuga.
phone-leak-tight = Ya no fuga
phone-leak-how = Cómo se revisó
phone-leak-check = Revisar otra vez
phone-leak-yes = Sin fuga
phone-leak-no = Sigue la fuga
phone-left-connected = El equipo de descarga queda puesto
phone-left-yes = Conectado
phone-left-no = Desconectado
phone-left-conditions = Se cuidó
phone-left-until = Hasta
phone-left-note = En un tanque fijo alguien se queda hasta quitar las mangueras. Para camiones se piden los cinco.
phone-moved-to = Dónde está ahora
phone-moved-by = Movido por
phone-moved-note = Ponga otra vez las protecciones en el nuevo lugar, y anótelas.
phone-outcome-load = Sale
phone-outcome-because = Porque
phone-outcome-to = A dónde
phone-outcome-note = Como cargado no pide la prueba de líquido, pero sí un documento de la carga.
phone-carried-title = De la visita anterior
phone-carried-none = Nada de visitas anteriores
phone-carried-more = { $n } más
phone-carried-again = Registrar de nuevo
phone-next-what = ¿Qué debe saber la siguiente persona?
phone-next-note = Estará al principio de la próxima visita de este carro hasta que alguien diga que se atendió.
phone-next-how = Qué se hizo
phone-feel-how = Giró
phone-feel-note = Con la mano. Un par de apriete solo si se usó llave dinamométrica.
phone-part-which = Qué parte
phone-part-state = Estado
phone-hose-number = Número de manguera
phone-hose-other = Otro número
phone-hose-left = Después de bajar la presión
phone-hose-note = Válvula de planta cerrada. Léala en la manguera.
phone-tank-which = Qué tanque
phone-tank-moment = Cuándo
phone-tank-meter = Medidor
phone-truck-ticket = Boleta
phone-truck-driver = Conductor
phone-truck-amount = Cargado
phone-truck-seal = Sello
phone-plan-target = Hasta
phone-plan-swept = El compresor desplaza
phone-plan-efficiency = Su eficiencia
phone-plan-price = Precio del galón
phone-plan-cost = Costo de una hora
phone-plan-note = El tiempo y el paro económico están en Más. Si queda líquido, ambos son cortos.
phone-inspection-by = Quién inspeccionó
phone-inspection-looked = Qué se revisó
phone-inspection-found = ¿Algo que corregir?
phone-inspection-finding = Hallazgo
phone-inspection-copy = ¿Dejó copia?
phone-else-fitting = Accesorios
phone-else-transfer = Trasiego
phone-paper-grade = Grado
phone-paper-billed_by = Facturado por
phone-paper-winter = ¿Llenado a límites de invierno?
phone-fittings-gauging = Dispositivo de medición
phone-fittings-vapor = Válvula de vapor
phone-shell-insulation = Casco
phone-seal-where = Dónde está
phone-seal-because = Por qué se cambió o quitó
phone-note = Nota
phone-handover-give = Entregar turno
phone-handover-take = Recibir turno
phone-handover-note = Cuenta cuando la otra persona recibe el turno.
phone-handover-to = ¿A quién?
phone-handover-from = De { $name }
