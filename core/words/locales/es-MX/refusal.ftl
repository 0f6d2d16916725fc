### Why an act is refused, and what to do: texts of errors that a person reads.

## Storage

refusal-store-failed = Este dispositivo no pudo guardar el registro. Las entradas guardadas se conservan. Intente de nuevo.
refusal-store-full = No queda espacio en este dispositivo. Las entradas guardadas se conservan. Libere espacio e intente de nuevo.
refusal-store-busy = Otra ventana o programa usa estos registros. Ciérrelo e intente de nuevo.
refusal-store-no-place = Aquí no se pueden guardar registros. Use una ventana normal del navegador u otra carpeta.
refusal-store-too-new = Una versión posterior de la aplicación escribió estos registros. Actualice la aplicación.

## Data from outside that does not verify; nothing is changed by it

refusal-change-unreadable = Estos datos no se pueden leer como registros. No se cambió nada.
refusal-change-not-allowed = Estos datos no son una simple adición de entradas. Se rechazaron y no se cambió nada.
refusal-device-copied = Este dispositivo se copió o se restauró de un respaldo. Avise a la oficina antes de anotar más.
refusal-entry-unreadable = Esto no es una entrada firmada de Farsiding. No se cambió nada.
refusal-signature = La firma no se verifica. Los datos se cambiaron o los firmó otra clave.
refusal-other-signer = Firmó esto otra clave que la requerida.
refusal-person-signature = La firma de la persona no se verifica. Desbloquee la clave y firme de nuevo.
refusal-key-unknown = Firmó esto una clave que aquí no se conoce como de la organización.
refusal-key-period = La clave de la organización no estaba vigente en ese momento.
refusal-key-withdrawn = La organización retiró la clave que firmó esto.
refusal-certificate = Este certificado de dispositivo se contradice. Pida otro a la oficina.
refusal-no-device-key = Esta clave no puede ser de un dispositivo. Inscriba de nuevo el dispositivo.
refusal-of-later-version = Una versión posterior escribió esto. Actualice la aplicación.

## Entries that are not made

refusal-entry-too-large = La entrada es demasiado larga. Acorte el texto.
refusal-no-reason = Dé una razón. Una entrada que reemplaza a otra la necesita.
refusal-person-code = El código de una persona tiene de 1 a { $most } caracteres visibles, sin espacio en los extremos.
refusal-person-name = El nombre de una persona tiene como máximo { $most } bytes. Acórtelo.
refusal-skip-without-reason = Dé una razón para omitir el paso.
refusal-done-later = La hora en que se hizo es posterior a ahora. Corrija la hora.
refusal-done-before-visit = La hora en que se hizo es anterior al inicio de la visita. Corrija la hora, o registre cuándo se colocó el carro.
refusal-override-without-reason = Dé una razón para la excepción.
refusal-about-nothing = Elija las entradas de las que trata esta decisión.
refusal-item-without-name = Nombre la herramienta o el accesorio.
refusal-note-empty = Diga lo que debe saber la siguiente persona.
refusal-paper-expected = Un documento que se envía a un sitio necesita un número de carro de forma usual y textos cortos.
refusal-level = Un nivel está entre 0 y 100 %.
refusal-statement-unknown = Esta versión no puede hacer este tipo de entrada. Actualice la aplicación.
refusal-not-in-disagreement = Esta entrada no está en ningún desacuerdo abierto. El registro pudo cambiar; mire de nuevo.
refusal-not-resolved = Esta entrada no está en ninguna decisión que se pueda anular. El registro pudo cambiar; mire de nuevo.
refusal-not-in-record = Esta entrada no está en este registro.
refusal-no-open-item = Esto ya no es un punto pendiente. El registro pudo cambiar; mire de nuevo.
refusal-still-open = No se liberó. Puntos pendientes: { $items }
refusal-released-otherwise = El registro dice que el carro sale { $load }. Libérelo así, o corrija cómo sale.
refusal-not-fit-to-unload = No se firmó apto para descargar. Puntos pendientes: { $items }
refusal-no-gate = El procedimiento de este registro no tiene ese control.
refusal-not-here = Este registro no está en este dispositivo. Sincronice y mire de nuevo.
refusal-no-operator = Diga primero quién es.

## PIN and key of a person

refusal-pin-not-six-digits = Un NIP tiene seis dígitos.
refusal-pin-too-easy = Este NIP es muy fácil de adivinar. Elija otro.
refusal-pin-wrong =
    { $left ->
        [one] NIP incorrecto. Queda { $left } intento.
       *[other] NIP incorrecto. Quedan { $left } intentos.
    }
refusal-pin-wait = Demasiados NIP incorrectos. Espere e intente de nuevo.
refusal-pin-locked = La clave se borró después de { $tries } NIP incorrectos. Avise a la oficina y haga otra clave.
refusal-pin-no-key = No hay clave en este dispositivo para { $person }.
refusal-pin-has-key = Ya hay una clave en este dispositivo para { $person }.
refusal-pin-ended = La oficina dio de baja esta clave. Haga otra.
refusal-pin-nothing-beside = Falta el secreto del dispositivo. Cierre la aplicación y ábrala de nuevo.
refusal-pin-damaged = La clave guardada no se puede leer. Avise a la oficina y haga otra clave.

## Sync with the office

refusal-not-the-office = La respuesta no vino de la oficina. Revise la red (¿una página de acceso?) y la dirección.
refusal-other-request = La oficina contestó otra solicitud. Sincronice de nuevo.
refusal-not-enrolled = Este dispositivo no está inscrito. Pida a la oficina un código de un solo uso.
refusal-still-differs = Después de { $rounds } rondas, los registros aún difieren de los de la oficina. Sincronice más tarde.
refusal-request-unreadable = La oficina no puede leer la solicitud de este dispositivo. Actualice la aplicación.
refusal-unknown-device = Este dispositivo no está inscrito en esta organización. Pregunte a la oficina.
refusal-revoked = La oficina revocó este dispositivo. Pregunte a la oficina.
refusal-too-much = El dispositivo pidió demasiado a la vez. Sincronice de nuevo.

## The office’s log contradicts what was shown before

refusal-log-rewritten = La bitácora de la oficina se reescribió. Ya no comienza con lo que se mostró a este dispositivo.
refusal-log-two-versions = La oficina firmó dos versiones distintas de su bitácora. No pueden ser verdad ambas.
refusal-log-shorter = La bitácora de la oficina es más corta que antes; faltan entradas. La oficina debe declarar un respaldo restaurado.
refusal-log-another = La oficina muestra otra bitácora que antes y no declaró por qué.
refusal-log-entry-missing = La oficina dio acuse de una entrada que no está en su bitácora.
refusal-log-proof-fails = La prueba de la oficina de que las entradas están en su bitácora no se verifica. El dispositivo la pedirá de nuevo.
refusal-log-two-roots = La clave raíz de la organización firmó dos declaraciones distintas; alguien más la tiene. Pregunte a la oficina.

## The shell

refusal-wrong-call = Error de la aplicación. Sus entradas están guardadas. Avise a la oficina.
