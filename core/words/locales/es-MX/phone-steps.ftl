### Words on the phone for steps, what they ask for, and open items before release.

## Steps

phone-step-done = Hecho
phone-step-later = Ahora no
phone-step-skip = Omitir, con razón
phone-step-none = Ningún paso pendiente
phone-step-skip_short = Omitir
phone-step-other = Otra opción
phone-steps-title = Todos los pasos
phone-steps-left =
    { $n ->
        [one] Falta 1 paso
       *[other] Faltan { $n } pasos
    }
phone-truck-which = ¿Cuál autotanque?
phone-caution = Precaución
phone-local_first = Primero las normas locales y las instrucciones del propietario.

## The transfer that goes on

phone-running-title = Trasiego en curso
phone-running-next =
    { $n ->
        [one] Siguiente lectura en 1 minuto
       *[other] Siguiente lectura en { $n } minutos
    }
phone-running-over = El trasiego terminó

## Steps that one key records

phone-together-all =
    { $n ->
        [one] Hecho como se indica
       *[other] Los { $n } como se indica
    }
phone-together-read_on = Seguir leyendo
phone-together-not = No es así
phone-together-to =
    { $n ->
        [0] Responder este paso
        [one] Anotar 1 como se indica y responder este
       *[other] Anotar { $n } como se indica y responder este
    }
phone-together-type =
    { $n ->
        [one] Escribir la lectura
       *[other] Escribir { $n } lecturas
    }

## Open items and release

phone-gate-short =
    { $n ->
        [one] pendiente
       *[other] pend.
    }
phone-gate-next = Sigue
phone-gate-in_way = Punto pendiente
phone-gate-open =
    { $n ->
        [one] punto pendiente
       *[other] puntos pendientes
    }
phone-gate-none = Sin puntos pendientes en el registro
phone-gate-holding = Siga presionando
phone-gate-tap = ¿No puede mantener? Toque dos veces
phone-gate-tap_again = Toque otra vez para firmar
phone-gate-note = Esto es lo que se anotó. No declara seguro el carro.
phone-gate-missing =
    { $n ->
        [one] 1 punto pendiente
       *[other] { $n } puntos pendientes
    }
phone-gate-passed = Excepción de { $name }: { $why }
phone-released = Liberado
phone-blocker-pass = Autorizar excepción, con razón
phone-blocker-note = El registro guarda su nombre y su razón. El punto se abre de nuevo si el registro cambia.
phone-blocker-go = Ir a hacerlo
phone-blocker-gone = Ya no está pendiente
phone-join-do = Misma estancia
phone-join-not = No es la misma
phone-join-note = Los registros unidos se ven como uno. Ambos quedan completos.

## What a step asks for

phone-protection-set = Puesto
phone-protection-away = No puesto
phone-presence-here = Tengo el carro a cargo
phone-presence-away = Me retiro
phone-what-seen = ¿Qué vio?
phone-ask-opened = Número del carro
phone-ask-car_number_again = Número del carro otra vez
phone-ask-paper = Documento de transporte
phone-ask-cover = Tapa
phone-ask-weather = Tiempo
phone-ask-empty_decision = ¿Sin líquido?
phone-ask-truck_load = Carga de autotanque
phone-ask-car_fittings = Accesorios bajo la tapa
phone-ask-car_capacity = Capacidad del tanque
phone-ask-car_diameter = Diámetro interior
phone-ask-outage_table = Tabla de espacios vacíos
phone-ask-released = Liberación
phone-ask-defect = Defecto
phone-ask-forwarded = Avisado
phone-ask-authority = Aprobación
phone-ask-resolved = Reparado
phone-ask-hold = Retención
phone-ask-incident = Incidente
phone-ask-incident_stopped = Incidente detenido
phone-ask-incident_call = Llamada o informe
phone-ask-incident_closed = Incidente cerrado
phone-ask-leak = Fuga encontrada
phone-ask-leak_checked = Fuga revisada otra vez
phone-ask-car_left = Carro dejado
phone-ask-car_moved = Carro movido
phone-ask-outcome = Cómo sale el carro
phone-ask-next_time = Nota para la próxima vez
phone-ask-next_time_done = Atendida
phone-ask-valve_feel = Cómo giró la válvula
phone-ask-plug_condition = Tapón y cuadrado
phone-ask-cover_condition = Pasador, oreja, bisagra
phone-ask-hose_pressure = Presión en la manguera
phone-steps-again = Se pide otra vez: el carro se dejó o se movió.
phone-ask-tank_gauged = Tanque receptor
phone-ask-recovery_planned = Plan de recuperación
phone-ask-inspection = Inspección
phone-ask-remark = Nota
phone-ask-attendance = Vigilancia
phone-ask-valve = Válvula
phone-ask-closure = Tapón
phone-ask-listen = Fugas, de oído
phone-ask-line = Manguera
phone-ask-threads = Roscas enganchadas
phone-ask-effort = Torque
phone-ask-office = Se hace en la oficina
