### The page of defects, of letters about them, and of fittings that wear.

office-defects-title = Defectos
office-defects-open =
    { $count ->
        [one] { $count } pendiente
       *[other] { $count } pendientes
    }
office-defects-overdue-count =
    { $count ->
        [one] { $count } vencido
       *[other] { $count } vencidos
    }
office-defects-no-mail = El correo no está configurado. Coloque un mail.toml en la carpeta de datos (host, port, security, from). Las cartas esperan hasta entonces.
office-defects-none = Ningún defecto registrado.
office-defects-wear = Accesorios con desgaste
office-defects-no-wear = Ningún par de apriete de cierre rebasa el intervalo usual ni aumenta.
office-defects-wear-note = Intervalo usual de 20 a 40 ft·lbf (práctica común, sin fuente). Un aumento es una pendiente de Theil–Sen mayor que su ±.
office-defects-car = Carro
office-defects-fitting = Accesorio
office-defects-efforts = Par de apriete, ft·lbf
office-defects-says = Resultado
office-defects-overdue = Vencido: { $why }.
office-defects-noted = Anotado por { $by }, { $time }
office-defects-photographs =
    { $count ->
        [one] { $count } fotografía
       *[other] { $count } fotografías
    }
office-defects-record = El expediente
office-defects-reported = Informado en el carro: { $sent }
office-defects-mail = Correo a { $to }: { $state }
office-defects-approval = Autorización: { $answer }
office-defects-needs-approval = El carro solo se mueve con una autorización.
office-defects-repaired = Reparado: { $how }
office-defects-forward = Informarlo por correo
office-defects-address = Dirección de correo
office-defects-words = Texto antes del extracto del expediente
office-defects-send = Enviar
office-defects-sent = enviado { $time } ({ $said })
office-defects-failed = NO ENVIADO: { $said }
office-defects-waiting = en espera de envío
office-defects-tried =
    { $count ->
        [one] { $count } intento, otro a las { $time }: { $said }
       *[other] { $count } intentos, otro a las { $time }: { $said }
    }
office-defects-letters = Cartas
office-defects-letter-to = Para
office-defects-about = Asunto
office-defects-asked = Solicitado
office-defects-state = Estado
office-defects-do = Acción
office-defects-again = Reintentar ahora
office-defects-no-such = No existe tal defecto.
office-defects-not-an-address = «{ $text }» no es una dirección de correo.
office-defects-no-letter = Esa carta ya se envió o no existe.
office-overdue-approval =
    { $count ->
        [one] la autorización verbal debía constar por escrito hace { $count } día (49 CFR 174.50)
       *[other] la autorización verbal debía constar por escrito hace { $count } días (49 CFR 174.50)
    }
office-overdue-not-reported =
    { $count ->
        [one] anotado hace { $count } día y sin informar a nadie
       *[other] anotado hace { $count } días y sin informar a nadie
    }
office-overdue-no-answer =
    { $count ->
        [one] en espera de autorización desde hace { $count } día
       *[other] en espera de autorización desde hace { $count } días
    }
