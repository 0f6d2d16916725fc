### What was refused of devices, and records kept out of the lists.

office-quarantine-title = Datos rechazados
office-quarantine-lead = Datos de dispositivos que no se pudieron aceptar y expedientes que no abrió ningún dispositivo dado de alta. Se avisó a los dispositivos. Nada aquí cambia lo aceptado.
office-quarantine-refused = Rechazado
office-quarantine-none = No se rechazó nada.
office-quarantine-when = Cuándo
office-quarantine-from = De
office-quarantine-bytes = Bytes
office-quarantine-why = Motivo
office-quarantine-unknown = desconocido
office-quarantine-kept = De cada uno solo se conservan los primeros 4096 bytes. Este comando los escribe en archivos:
office-quarantine-sure = Ya nadie necesita revisarlos
office-quarantine-purge = Borrar todo
office-quarantine-hidden = Ocultos de las listas
office-quarantine-no-hidden = Ningún expediente está oculto.
office-quarantine-tick = Marque la casilla para confirmar. No se borró nada.
office-quarantine-did = Ocultado por { $by }, { $time }: { $why }
office-quarantine-show = Mostrarlo de nuevo en las listas
office-quarantine-phantom = Ningún dispositivo dado de alta abrió este expediente
office-quarantine-phantom-note = Puede ocultarlo de las listas de la oficina. Sus registros se conservan, también en la bitácora. Vuelve cuando lo abra un dispositivo dado de alta.
office-quarantine-hide = Ocultarlo de las listas
office-quarantine-say-why = Escriba por qué se oculta.
office-quarantine-enrolled = Un dispositivo dado de alta abrió este expediente; queda en las listas.
