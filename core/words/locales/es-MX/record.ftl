### What a record says about itself: lists, likenesses, chains, quantities and what they rest on.

## One line in a list of cars

list-on-hold = Retenido: { $because }
list-incident = incidente, { $source }
list-leak = fuga, { $at }
list-released-open =
    { $count ->
        [one] Liberado, 1 punto pendiente
       *[other] Liberado, { $count } puntos pendientes
    }
list-differ = Dos entradas difieren: { $about }
list-next = Sigue: { $step }
list-missing-and-more = { $first } Y { $count } más.
list-before-unloading = Antes de descargar ({ $count } pendientes): { $first }

## Records that may be of one stay

near-same-car = Otro registro de { $car } en este sitio en estos días. ¿Es la misma estancia?
near-number = { $theirs } también está en este sitio en estos días, a un carácter de { $ours }. ¿Hay un número mal escrito?

## Chains of devices

chain-missing-one = La entrada { $entry } de { $device } no está aquí.
chain-missing = Las entradas { $from } a { $to } de { $device } no están aquí.
chain-doubled = { $count } entradas distintas de { $device } tienen el número { $entry }: el dispositivo se copió o se restauró de un respaldo.
chain-broken = La entrada { $entry } de { $device } nombra otra anterior que la que está aquí.
chain-not-arrived-one = El registro { $entry } de { $device } no se ha recibido.
chain-not-arrived = Los registros { $from } a { $to } de { $device } no se han recibido.
chain-doubled-at-office = Registros distintos de { $device } tienen el número { $entry }: el dispositivo se copió o se restauró de un respaldo.

## What the record of a seal lacks

seal-lacks-number = su número
seal-lacks-kind = su tipo
seal-lacks-place = su lugar en palabras
seal-lacks-photo = una fotografía en su lugar, o por qué no la hay
seal-lacks-intact = estar intacto

## Quantities

quantity_title-gross_volume = Líquido medido, a su propia temperatura
quantity_title-net_volume = Líquido medido, neto a 60 °F
quantity_title-against_paper = Sobrante o faltante contra lo facturado, tomado como neto a 60 °F o como peso en vacío
quantity_title-weight_in_vacuum = Peso en vacío
quantity_title-weight_in_air = Peso en aire
quantity_title-vapor_volume = Vapor en el carro, equivalente líquido a 60 °F
quantity_title-receiver_room = Espacio en el tanque receptor, neto a 60 °F
quantity_title-residue = Remanente como vapor, equivalente líquido a 60 °F
quantity_title-recovery_time = Tiempo hasta la presión planeada
quantity_title-economic_stop = Paro económico, presión en el carro
quantity-value = { $value }
quantity-between = { $low } a { $high }
quantity-missing = { $title }: { $why }
quantity-cannot = No se puede calcular: { $why }
quantity-entries-differ = las entradas difieren ({ $what })
quantity-not-recorded = sin anotar ({ $what })
quantity-not-known = no se conoce ({ $what })
quantity-not-a-number = “{ $text }” no es un número
quantity-no-paper = ningún documento de transporte dice cuál es el producto
quantity-no-un-number = el documento de transporte no tiene número UN
quantity-unknown-product = no hay fórmulas para el producto { $product }
quantity-no-composition = no se conoce la composición del producto
quantity-no-elevation = aquí no se conoce la elevación del sitio
quantity-no-relative-density = ninguna densidad relativa se leyó ni está en el documento de transporte
quantity-no-billed = el documento de transporte no tiene cantidad
quantity-scale-needs-vapor = facturado por báscula, y no se puede calcular el vapor en el carro
quantity-no-final-temperature = no se anotó la temperatura final en el carro
quantity-no-tank = aquí no se conoce ningún tanque receptor de este sitio
quantity-no-swept = no está registrado el volumen que desplaza el compresor
quantity-which-tank = el sitio tiene { $count } tanques y no se anotó cuál recibe

## The uncertainty of a reading

uncertainty-not-a-number = no es un número
uncertainty-presumed = ±{ $half_width } supuesto
uncertainty-absolute-gauge = ± de un manómetro absoluto no se conoce
uncertainty-gauge = grado { $grade }, alcance { $span }
uncertainty-usual-gauge = se supone un manómetro usual, grado { $grade }, alcance { $span }
uncertainty-not-known = ± no se conoce
