### Accounts, open links, roles and rights, and the audit.

office-role-reader = consulta
office-role-clerk = auxiliar
office-role-supervisor = supervisor
office-role-administrator = administrador
office-role-inspector = inspector
office-role-nobody = sin sesión
office-role-allows = { $rights }
office-right-read = leer expedientes
office-right-record = capturar documentos, sellos y cartas
office-right-settle = resolver discrepancias y dar lectura a inspectores
office-right-publish = cambiar y publicar los procedimientos de la organización
office-right-administer = administrar dispositivos y cuentas
office-accounts-title = Cuentas
office-accounts-audit = Quién consultó qué
office-accounts-state = Estado del servidor
office-accounts-lead = Las cuentas se crean, cambian e inhabilitan en el servidor:
office-accounts-name = Nombre
office-accounts-role = Rol
office-accounts-since = Desde
office-accounts-standing = Estado
office-accounts-language = Idioma
office-accounts-language-organisation = el de la organización
office-accounts-factor = Segundo factor
office-accounts-you = usted
office-accounts-later-role = rol de una versión posterior: sin derechos
office-accounts-disabled = inhabilitada { $time }
office-accounts-may = puede iniciar sesión
office-accounts-roles = Lo que permite cada rol
office-accounts-everybody = Un segundo factor para todos
office-accounts-required = Todos los que inician sesión lo necesitan. Quien aún no lo tenga debe configurarlo primero.
office-accounts-leave = Dejar que cada quien decida
office-accounts-optional = Cada quien decide. Si usted lo exige, todos los que no lo tengan deben configurarlo primero, incluso usted.
office-accounts-require = Exigirlo a todos
office-accounts-links = Enlaces abiertos
office-accounts-no-links = Ninguno. Nadie de fuera puede leer un expediente.
office-accounts-links-label = Enlaces
office-accounts-for = Para quién
office-accounts-opens = Abre
office-accounts-made = Creado
office-accounts-until = Válido hasta
office-accounts-record = expediente { $record }
office-accounts-photograph = fotografía { $photograph } del expediente { $record }
office-accounts-not-set-up = aún sin configurar
office-accounts-none = ninguno
office-accounts-factor-since =
    { $count ->
        [one] desde { $time }, { $count } código de recuperación
       *[other] desde { $time }, { $count } códigos de recuperación
    }
office-accounts-reset = Restablecer
office-accounts-reset-note = Por un teléfono perdido. Se cierra la sesión de { $name }, y la contraseña sola abre la cuenta hasta configurar otro segundo factor.
office-accounts-reset-of = Restablecer para { $name }
office-accounts-say = Elija si todos necesitan un segundo factor.
office-accounts-no-such = No existe tal cuenta.

## The audit

office-audit-head = Cada fila contiene el resumen de la anterior. La más reciente:
office-audit-keep = Anótelo en otro lugar. Este comando muestra después si una fila hasta ella cambió o se quitó:
office-audit-asked = Nombre, acto o expediente
office-audit-find = Buscar
office-audit-none = No se encontró nada.
office-audit-label = Auditoría
office-audit-order = Lo más reciente primero. Solo se agregan filas.
office-audit-when = Cuándo
office-audit-who = Quién
office-audit-as = Como
office-audit-did = Acto
office-audit-subject = Sobre qué
office-audit-older = Anteriores

## Who is named in the audit beside people

office-who-retention = conservación de datos
office-who-command_line = línea de comandos
office-who-the_server_s_command_line = línea de comandos del servidor

## Acts in the audit. The stored words stay as they are; these are their translations

office-did-asked_everybody_for_a_second_factor = exigió un segundo factor a todos
office-did-left_the_second_factor_to_each = dejó el segundo factor a decisión de cada quien
office-did-changed_the_tariff = cambió la tarifa
office-did-changed_their_password = cambió su contraseña
office-did-chose_a_language = eligió un idioma
office-did-confirmed_a_key = confirmó una clave
office-did-decided_about_signatures = cambió las reglas de firmas
office-did-declared_void = declaró anulado
office-did-ended_a_key = dio de baja una clave
office-did-exported = exportó
office-did-failed_at_the_code_after_the_right_password = código incorrecto tras la contraseña correcta
office-did-failed_to_sign_in = no logró iniciar sesión
office-did-forgot_what_was_refused = borró los datos rechazados
office-did-forwarded = informó por correo electrónico
office-did-gave_a_wrong_code_on_their_own_page = código incorrecto en su propia página
office-did-gave_a_wrong_password_on_their_own_page = contraseña incorrecta en su propia página
office-did-had_go_what_is_kept_no_longer = eliminó datos vencidos
office-did-issued_seals = entregó sellos
office-did-printed_the_steps = imprimió los pasos
office-did-started_a_procedure = empezó un borrador de procedimiento
office-did-changed_a_procedure = cambió un borrador de procedimiento
office-did-published_a_procedure = publicó un procedimiento
office-did-took_back_a_procedure = retiró un procedimiento
office-did-sent_papers_to_a_site = envió documentos a un sitio
office-did-took_a_sent_paper_back = retiró un documento enviado
office-did-discarded_a_procedure = desechó un borrador de procedimiento
office-did-kept_out_of_the_lists = ocultó de las listas
office-did-looked = consultó
office-did-looked_at_a_photograph = vio una fotografía
office-did-looked_for = buscó
office-did-made_a_code_for = generó un código de un solo uso para
office-did-made_a_link = creó un enlace
office-did-made_new_recovery_codes = generó códigos de recuperación nuevos
office-did-noted_that_somebody_left = registró que alguien se fue
office-did-opened_a_link = abrió un enlace
office-did-read = leyó
office-did-read_the_databases_through = revisó las bases de datos
office-did-removed_a_photograph = eliminó una fotografía
office-did-renewed = renovó
office-did-reopened = reabrió
office-did-reset_a_second_factor = restableció un segundo factor
office-did-revoked = revocó
office-did-revoked_a_link = revocó un enlace
office-did-set_up_a_second_factor = configuró un segundo factor
office-did-settled = resolvió una discrepancia
office-did-showed_in_the_lists_again = mostró de nuevo en las listas
office-did-signed_in = inició sesión
office-did-signed_in_with_a_recovery_code = inició sesión con un código de recuperación
office-did-signed_out = cerró sesión
office-did-took_papers_in = importó documentos
office-did-took_the_packet = descargó el expediente de evidencia
office-did-tried_again = reintentó
office-did-turned_their_second_factor_off = desactivó su segundo factor
office-did-made_an_account = creó una cuenta
office-did-changed_a_role = cambió un rol
office-did-changed_a_language = cambió un idioma
office-did-gave_a_new_password = asignó una contraseña nueva
office-did-disabled_an_account = inhabilitó una cuenta
office-audit-let-in = admitió el registro tardío { $entry }
office-audit-took-back = retiró la admisión del registro tardío { $entry }

## What an act was on

office-on-accounts = cuentas
office-on-audit = auditoría
office-on-defects = defectos
office-on-devices = dispositivos
office-on-instruments = instrumentos
office-on-late_entries = registros tardíos
office-on-papers = documentos
office-on-people = personas
office-on-reconcile = conciliación
office-on-refused = datos rechazados
office-on-seals = sellos
office-on-state_of_the_server = estado del servidor
office-on-today = hoy
office-subject-account = cuenta { $what }
office-subject-defect = defecto { $what }
office-subject-device = dispositivo { $what }
office-subject-entry = registro { $what }
office-subject-key = clave { $what }
office-subject-mail = carta { $what }
office-subject-papers = documentos { $what }
office-subject-person = persona { $what }
office-subject-photo = fotografía { $what }
office-subject-reconcile = conciliación { $what }
office-subject-seal = sello { $what }
office-subject-site = sitio { $what }
