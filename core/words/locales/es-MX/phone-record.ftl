### Words on the phone for the record of a car: entries, who made them, what became of them.

phone-history = Historial
phone-history-all = Bitácora
phone-history-none = Aún no hay nada anotado aquí
phone-recorded = Anotado
phone-record = Anotar
phone-gone = Esto ya no está aquí
phone-entry-withdraw = Anular
phone-entry-correct = Corregir
phone-entry-note = Ambas quedan en el registro, con su razón.
phone-entry-who = Quién
phone-entry-when = Cuándo
phone-entry-device = Dispositivo
phone-entry-stands = Estado
phone-entry-office = Oficina
phone-entry-receipted = Acuse firmado por la oficina
phone-entry-place = Lugar
phone-instead-of = Corrige:
phone-instead-why = ¿Por qué estaba mal?
phone-instead-leave = Dejar la entrada como estaba
phone-clock-fast = reloj adelantado { $by }
phone-clock-slow = reloj atrasado { $by }
phone-span-minutes = { $n } min
phone-span-hours =
    { $n ->
        [one] 1 hora
       *[other] { $n } horas
    }
phone-span-days =
    { $n ->
        [one] 1 día
       *[other] { $n } días
    }
phone-span-years =
    { $n ->
        [one] 1 año
       *[other] { $n } años
    }
