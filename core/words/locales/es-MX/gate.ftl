### What is open before a car may be released, and what overrides it.

gate-note = Farsiding registra lo que las personas hicieron y dijeron. No declara seguro el carro. Primero valen los códigos locales, las instrucciones del dueño y la práctica autorizada.
gate-code = { $kind } ({ $of })

## At a fitting

gate-line-connected = Línea no anotada como desconectada ({ $fitting }). Desconéctela y anótelo.
gate-valve-open = Válvula anotada como abierta ({ $fitting }). Ciérrela y anótelo.
gate-valve-not-recorded = Válvula no anotada como cerrada ({ $fitting }). Ciérrela y anótelo; un tapón apretado no dice nada de la válvula detrás.
gate-listen-missing = Nadie escuchó después del último cierre de la válvula ({ $fitting }). Escuche y anote lo que oye.
gate-leak-heard = Fuga por el asiento de la válvula ({ $fitting }). Deténgase y busque la causa.
gate-closure-not-recorded = Cierre no anotado como apretado con herramienta ({ $fitting }). Apriételo con herramienta y anótelo.
gate-closure-hand-tight = Cierre solo apretado a mano ({ $fitting }). Apriételo con herramienta.
gate-closure-removed = Cierre anotado como retirado ({ $fitting }). Colóquelo y apriételo con herramienta.
gate-closure-disputed = Las entradas difieren sobre si el cierre está apretado con herramienta ({ $fitting }). Revíselo y conserve una entrada.
gate-threads = { $count } enganchadas ({ $fitting }); se necesita más de una vuelta completa. Falta: { $lacks }.
gate-threads-lacks-defect = una entrada de defecto
gate-threads-lacks-photo = una fotografía
gate-threads-lacks-report = un aviso al dueño o a la oficina

## Of the whole car

gate-hold-open = Carro retenido: { $because }. Levante primero la retención.
gate-incident-open = Un incidente está abierto: { $incident }. Ponga a salvo el carro, haga las llamadas y cierre primero el incidente.
gate-leak-open = Una fuga no está comprobada: { $leak }. Repárela, revísela otra vez y anótelo.
gate-outcome-unexplained = El registro no dice por qué el carro sale así ({ $because }). Si es mal orden anote el defecto; si no, dé la razón.
gate-protect-again = No consta como puesto otra vez desde que el carro se movió o se dejó: { $protection }. Póngalo y anótelo.
gate-disagreement = Dos entradas difieren: { $about }. Conserve una y dé la razón.
gate-authority-missing = “{ $defect }”: el carro solo se mueve con autorización. Anote quién la dio y cuándo.
gate-not-opened = La entrada que abrió este registro no está aquí y no se conoce el carro. Sincronice primero.
gate-empty-not-decided = Nadie decidió que ya no hay líquido. Pondere las señales y decida.
gate-empty-not-accepted = La comprobación de vaciado no se aceptó. Saque el líquido y decida de nuevo.
gate-empty-contradicted = Se anotó una señal de líquido después de la decisión ({ $sign }). Decida de nuevo.
gate-final-pressure-missing = No se leyó la presión final en el carro. Léala en un manómetro de rango bajo.
gate-final-pressure-elsewhere = Presión final leída solo aquí: { $places }. Léala en el carro.
gate-final-pressure-without-gauge = La presión final no nombra su manómetro. Nómbrelo.
gate-final-pressure-not-a-number = La presión final no se puede leer como número. Léala y anótela de nuevo.
gate-item-out = No devuelto: { $item }. Devuélvalo y anótelo.
gate-item-out-by = No devuelto: { $item } (lo sacó: { $who }). Devuélvalo y anótelo.
gate-cover-not-recorded = Tapa de la caja protectora no anotada como cerrada. Ciérrela y anótelo.
gate-cover-open = Tapa de la caja protectora anotada como abierta. Ciérrela y anótelo.
gate-cover-before-work = La tapa se anotó cerrada antes del último trabajo debajo de ella: { $work } Anótela de nuevo.
gate-cover-not-pinned = El pasador de la caja protectora no está puesto. Póngalo y anótelo.
gate-cover-bolts-not-counted = Pernos de la tapa sin contar. Cuéntelos y anote cuántos son.
gate-cover-bolts = { $count } de { $of } pernos de la tapa en su lugar. Coloque los demás y anótelo.
gate-seal-incomplete = Registro del sello incompleto ({ $place }). Falta: { $lacks }.
gate-seal-missing = Ningún sello colocado y sin razón. Coloque un sello u omita el paso con una razón.
gate-blue-sign-down-early = La señal azul se retiró antes de asegurar un cierre ({ $fitting }). Colóquela de nuevo hasta asegurar todos los cierres.

## Why an override does not stand

gate-override-voided = la excepción fue anulada
gate-override-without-reason = no se dio razón
gate-override-overtaken = el registro cambió desde entonces; mire de nuevo
