### Words on the phone for the two gates, the last round and answers that hold the job.

## The two gates

phone-gate-met =
    { $n ->
        [one] 1 punto en orden
       *[other] { $n } puntos en orden
    }
phone-gate-signed-unload = Apto para descargar, firmado
phone-gate-signed-release = Liberado
phone-gate-hold-unload = Mantenga para firmar: apto para descargar
phone-gate-hold-release = Mantenga para firmar: liberar
phone-gate-late = La descarga empezó antes de esta firma. El registro lo dice.
phone-ask-fit_to_unload = Apto para descargar
phone-ask-last_round = Última ronda de todos los cierres
phone-override-title = Eximir varios puntos
phone-override-note = Elija los puntos y una razón. El registro guarda su nombre y la razón.
phone-override-which = Elija los puntos
phone-override-why = Elija la razón
phone-override-other = Otra razón
phone-override-words = Razón, en sus palabras
phone-override-hold =
    { $n ->
        [one] Mantenga para autorizar 1 excepción
       *[other] Mantenga para autorizar { $n } excepciones
    }
phone-round-title = Última ronda
phone-round-do = Ponga la mano en cada cierre, con el tapón puesto. Escuche. Toque lo que no esté en orden.
phone-round-in_order = cerrado, apretado con herramienta, sin fuga audible
phone-round-not = no está en orden
phone-round-note = Qué no está en orden
phone-round-photo = Tome foto de la caja protectora abierta
phone-round-photo_taken = Foto tomada
phone-round-hold =
    { $n ->
        [one] Mantenga para firmar 1 cierre
       *[other] Mantenga para firmar { $n } cierres
    }

## An answer that holds the job

phone-held-title = Trabajo detenido
phone-held-hold = Retener el carro
phone-ask-earlier = Respuesta anterior: { $answer }
phone-undo = Deshacer
phone-undo-why = tocado por error
