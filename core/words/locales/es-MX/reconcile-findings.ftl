### What comparing many cars finds, and why a comparison cannot be made.

## What is compared

reconcile-compared-found = medido a la llegada menos facturado
reconcile-compared-received = recibido y remanente menos facturado

## Kinds of findings

reconcile_kind-biased_gauge = un medidor se desvía siempre igual
reconcile_kind-drift = un medidor deriva
reconcile_kind-biased_shipper = los carros de un remitente difieren siempre igual
reconcile_kind-biased_site = los carros de un sitio difieren siempre igual
reconcile_kind-car_short = un carro tiene faltante
reconcile_kind-car_over = un carro tiene sobrante
reconcile_kind-overfilled = un carro llegó sobrellenado
reconcile_kind-near_number = dos números para un carro
reconcile_kind-other_car = el documento es de otro carro
reconcile_kind-seal_on_two_cars = un sello en dos carros
reconcile_kind-lost_entry = falta un registro
reconcile_kind-broken_chain = los registros de un dispositivo se contradicen

## Findings

reconcile-group-less = { $about }: en { $count } carros, { $compared } es de { $mean } por carro menos en promedio (error estándar { $error }); el azar y lo que repiten los instrumentos (estándar { $shared }) explican hasta { $limit }.
reconcile-group-less-after-others = { $about }: en { $count } carros, { $compared } es de { $mean } por carro menos en promedio (error estándar { $error }); el azar y lo que repiten los instrumentos (estándar { $shared }) explican hasta { $limit }. Lo ya explicado se descuenta.
reconcile-group-more = { $about }: en { $count } carros, { $compared } es de { $mean } por carro más en promedio (error estándar { $error }); el azar y lo que repiten los instrumentos (estándar { $shared }) explican hasta { $limit }.
reconcile-group-more-after-others = { $about }: en { $count } carros, { $compared } es de { $mean } por carro más en promedio (error estándar { $error }); el azar y lo que repiten los instrumentos (estándar { $shared }) explican hasta { $limit }. Lo ya explicado se descuenta.
reconcile-car-short = { $car }, { $compared }: faltante de { $rest } ({ $percent } % de lo facturado). Hasta { $limit } a un lado u otro estaría dentro de la medición ({ $factor } veces su incertidumbre estándar).
reconcile-car-short-after-others = { $car }, { $compared }: faltante de { $rest } ({ $percent } % de lo facturado), tras { $explained } que otros explican. Hasta { $limit } a un lado u otro estaría dentro de la medición ({ $factor } veces su incertidumbre estándar).
reconcile-car-over = { $car }, { $compared }: sobrante de { $rest } ({ $percent } % de lo facturado). Hasta { $limit } a un lado u otro estaría dentro de la medición ({ $factor } veces su incertidumbre estándar).
reconcile-car-over-after-others = { $car }, { $compared }: sobrante de { $rest } ({ $percent } % de lo facturado), tras { $explained } que otros explican. Hasta { $limit } a un lado u otro estaría dentro de la medición ({ $factor } veces su incertidumbre estándar).
reconcile-drift = { $gauge }: la suma acumulada de { $compared } rebasa su intervalo de decisión ({ $interval }) en { $first }; se permiten { $reference } por carro. Haga revisar el medidor desde ahí.
reconcile-overfilled = { $car }: a { $reference } el espacio vacío sería { $outage }, se exige al menos { $least } ({ $source }). Es muy poco, más allá de la medición.
reconcile-fill-in-doubt = { $car }: a { $reference } el espacio vacío sería { $outage }, se exige al menos { $least } ({ $source }). La medición puede explicarlo.
reconcile-gap-in-stays = { $gap } Estancias aquí en que participó: { $count }.
reconcile-seal-on-two-cars = El sello { $seal } está en los registros de { $count } carros: { $uses }.
reconcile-seal-found = encontrado en { $car } ({ $site }, { $day })
reconcile-seal-applied = colocado en { $car } ({ $site }, { $day })
reconcile-seal-removed = retirado de { $car } ({ $site }, { $day })
reconcile-paper-near-car = La visita es de { $car }; su documento ({ $paper }) nombra { $other }, a un error de distancia. Lea la fotografía del rótulo.
reconcile-paper-other-car = La visita es de { $car }; su documento ({ $paper }) nombra { $other }.
reconcile-read-again = { $car } se leyó como { $again } la segunda vez.
reconcile-paper-without-record = Ningún documento nombra { $car }; el documento { $paper } nombra { $other }, del que no hay registro, a un error de distancia.

## Notices

reconcile-same-stay = Dos registros de { $car } en { $site } en estos días. ¿Son una sola estancia?
reconcile-joined = { $car }: registros unidos en una estancia: { $count }.
reconcile-incomplete = { $car }: { $lacks }
reconcile-lacks-release = sin liberación, y nada registrado en más de { $count } días
reconcile-lacks-closing = liberado con puntos abiertos: { $count }
reconcile-lacks-agreement = los registros difieren en { $about }

## Why a comparison cannot be made

reconcile-not-compared = { $compared }: { $why }
reconcile-missing-billed = facturado: { $why }
reconcile-missing-found = medido: { $why }
reconcile-missing-received = recibido: { $why }
reconcile-missing-left = remanente: { $why }
reconcile-not-recorded = no registrado
reconcile-no-numbers = las cantidades no son números
reconcile-weight-without-gauging = facturado por peso, y sin medir no se conoce el peso de un galón
reconcile-nothing-gauged = no se midió nada a la llegada
reconcile-not-at-60 = el líquido se midió, pero no se llevó a 60 °F
reconcile-no-paper = no se registró documento de transporte
reconcile-papers-differ = los registros del documento difieren
reconcile-paper-no-quantity = el documento no trae cantidad
reconcile-no-quantity = { $amount } no es una cantidad de un carro
reconcile-truck-unreadable = la carga de un autotanque no es un volumen legible
reconcile-meter-no-volume = “{ $text }” del medidor no es un volumen
reconcile-meter-lower = el medidor marca menos al final que a la llegada
reconcile-nothing-received = no se registró medidor, ni autotanque, ni un par de niveles del tanque
reconcile-which-tank = no se registró cuál de los tanques del sitio lo recibió
reconcile-level-no-percentage = un nivel del tanque no es un porcentaje
reconcile-no-tank-temperature = no se registró la temperatura del tanque

## What a quantity and its uncertainty rest on

reconcile-how-gauged = líquido medido a la llegada, neto a 60 °F
reconcile-how-billed = facturado, tomado como neto a 60 °F o como peso en el vacío
reconcile-how-office-paper = facturado por el documento { $paper } que guarda la oficina
reconcile-how-trucks = cargado en autotanques
reconcile-how-meter = por medidor, tomado como neto a 60 °F
reconcile-how-levels = por el nivel del tanque antes y después, neto a 60 °F
reconcile-how-left = queda como vapor, equivalente líquido
reconcile-from-by = { $from } con { $name }
reconcile-from-shipper = la medición del remitente
reconcile-from-rest = el resto
reconcile-from-grade = del producto solo se conoce el grado
reconcile-from-outage = espacio vacío y tabla
reconcile-from-density = densidad relativa
reconcile-from-paper-density = densidad relativa del documento
reconcile-from-temperature = temperatura
reconcile-from-trucks = la medición propia de los autotanques
reconcile-from-meter = medidor
reconcile-from-level = nivel
reconcile-from-final = presión y temperatura finales

## How a bill was measured, and what it is held against

reconcile-basis-unknown = no está anotado cómo se midió lo facturado
reconcile-scale-needs-vapor = facturado por báscula, y no se conoce el vapor sobre el líquido
reconcile-how-vapor = vapor sobre el líquido a la llegada, equivalente líquido
reconcile-from-vapor = vapor sobre el líquido
reconcile-from-shipper-density = densidad relativa con la que el remitente pasó el peso a galones
reconcile-method-liquid = líquido contra líquido (facturado por { $basis })
reconcile-method-liquid-weight = líquido contra líquido (facturado por { $basis } como peso, pasado a galones con la densidad medida)
reconcile-method-scale = por { $basis }: diferencia de pesos, pasada a galones con la densidad medida, contra líquido y vapor menos el remanente
reconcile-method-scale-gallons = por { $basis }: diferencia de pesos, facturada en galones, contra líquido y vapor menos el remanente
reconcile-method-scale-received = por { $basis }: diferencia de pesos, pasada a galones con la densidad medida, contra lo recibido y el vapor que llegó sobre el líquido; el remanente no está en ningún lado
reconcile-method-scale-received-gallons = por { $basis }: diferencia de pesos, facturada en galones, contra lo recibido y el vapor que llegó sobre el líquido; el remanente no está en ningún lado

## Clocks and tariffs

reconcile-no-tariff = no hay tarifa para este sitio
reconcile-no-event = no se registró { $events }
reconcile-no-calendar = la hora del evento no está en ningún calendario
reconcile-free-time-never-ends = el plazo libre nunca termina con esta tarifa
reconcile-tariff-unusable = no se puede usar la tarifa: { $why }
reconcile-tariff-events = Indique de qué evento a cuál corre el reloj.
reconcile-tariff-time = “{ $text }” no es una hora del día (HH:MM).
reconcile-tariff-day = “{ $text }” no es un día (AAAA-MM-DD).
reconcile-tariff-amount = “{ $text }” no es un importe.
reconcile-tariff-free-time = Más de un año de plazo libre es un error.
reconcile-no-supplier-tariff = no hay tarifa del proveedor de este carro
reconcile-days-backward = los días terminan ({ $until }) antes de comenzar ({ $from })
