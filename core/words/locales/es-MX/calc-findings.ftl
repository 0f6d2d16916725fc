### What formulas point out about their results.

## Pressures in words

calc-pressure = { $pressure }
calc-pressure-both = { $gauge } ({ $absolute })
calc-pressure-between = { $low } a { $high }

## Limits that nobody stated

calc-presumed = El ± se basa en límites que nadie indicó: { $limits }.
calc-presumed-limits = { $input } ±{ $half_width }
calc-presumed-gauge = { $input }: un manómetro de grado { $grade }, alcance { $span }
calc-presumed-efficiency = eficiencia del compresor supuesta: { $efficiency }
calc-presumed-as-car = temperatura del tanque igual a la del carro ±{ $half_width }
calc-calibration-overdue = El instrumento que midió { $input } pasó su fecha de calibración: se duplicaron sus límites.
calc-gauge-low = { $reading } está en la décima parte más baja de un manómetro de { $span }: ±{ $half_width }. Use un manómetro de menor alcance.

## Arrival

calc-arrival-fits = Se leyó { $read } ± { $spread }; { $product } a { $temperature } satura a { $saturation }. Concuerdan.
calc-arrival-above = Se leyó { $read } ± { $spread }; { $product } a { $temperature } satura a { $saturation }. Demasiado alta: aire o nitrógeno en el vapor, otro producto, o una mala lectura.
calc-arrival-below = Se leyó { $read } ± { $spread }; { $product } a { $temperature } satura a { $saturation }. Demasiado baja: una mala lectura, otro producto, o líquido y vapor a distinta temperatura.
calc-nearly-full = El casco está { $share } % lleno de líquido: casi no queda espacio para que el líquido se caliente.
calc-overfilled = { $net } netos a 60 °F ocupan { $warm } a { $reference } en un casco de { $shell }: espacio vacío { $outage }, se exige al menos { $least }. Sobrellenado: no deje que se caliente, avise al remitente, aleje a las personas.
calc-not-overfilled = { $net } netos a 60 °F ocupan { $warm } a { $reference } en un casco de { $shell }: espacio vacío { $outage }, se exige al menos { $least }.
calc-fill-ask-insulation = A { $reference } el espacio vacío sería { $outage }; se exige al menos { $least } a 115 °F, 110 °F o 105 °F según el aislamiento del carro (49 CFR 173.314(c), nota 9, leído). Registre cómo está aislado el carro; hasta entonces no se juzga nada.
calc-fill-ask-winter = A { $reference } el espacio vacío sería { $outage }, se exige al menos { $least }; con los límites de invierno basta (49 CFR 173.314(c), nota 10, leído). ¿Se llenó el carro con límites de invierno? Busque el aviso del remitente.
calc-fill-winter = Llenado con límites de invierno: espacio vacío { $outage } a { $reference }, se exige al menos { $least } (49 CFR 173.314(c), nota 10, leído). Guarde el aviso del remitente; descargue lo antes posible después de marzo.
calc-fill-not-checked = No se revisó el llenado: { $why }
calc-vapor-saturated = La presión leída, { $read }, no está por debajo de la saturación, { $saturation }; el vapor se tomó como saturado.
calc-estimated-pair = La interacción del propileno con el n-butano es estimada, no publicada.
calc-density-ratio-used = La corrección es la relación de densidades de la ecuación de estado, no la Tabla 24E.
calc-table-coarse = Las filas están separadas hasta { $apart }. Entre ellas la tabla se lee por una curva suave; una recta se desviaría hasta { $bow }. Pida al propietario una tabla por pulgada o menos.
calc-table-odd-row = A { $outage } la tabla dice { $volume }; sus vecinas sugieren { $expected }. ¿Está mal escrita?

## Bill

calc-bill-agrees = Medido { $found }, facturado { $billed }: la diferencia de { $difference } ({ $percent } %) está dentro de la medición.
calc-bill-over = Medido { $found }, facturado { $billed }: sobrante de { $difference } ({ $percent } %).
calc-bill-short = Medido { $found }, facturado { $billed }: faltante de { $difference } ({ $percent } %).
calc-bill-heel = Facturado por báscula: el remanente líquido antes de cargar no pertenece a ningún lado y aún no se conoce. Se resta cuando se registre la presión final.
calc-credit = Remanente como vapor: { $gallons } netos a 60 °F, { $pounds } en el vacío, { $percent } % de { $billed } facturados.

## Receiving tank

calc-room-fits = Permitido { $allowed } menos contenido { $held } deja lugar para { $room } netos a 60 °F; faltan por llegar { $coming }. Cabe.
calc-room-barely = Permitido { $allowed } menos contenido { $held } deja lugar para { $room } netos a 60 °F; faltan por llegar { $coming }. Está dentro de ± { $spread }: vigile el indicador del tanque y deténgase en su límite.
calc-room-short = Permitido { $allowed } menos contenido { $held } deja lugar para { $room } netos a 60 °F; faltan por llegar { $coming }. No cabe todo.
calc-room-full-when-warm = Con todo dentro, el tanque se llenaría de líquido antes de { $warm }.
calc-room-local-code = El límite de llenado es un ajuste de este sitio; primero están el código local y la placa del tanque.

## Transfer and recovery

calc-flow-slowing = { $moved } salieron del carro en los últimos { $elapsed }; una lectura vale ±{ $limit }. Es menos de la quinta parte del ritmo anterior: revise las válvulas, las presiones y el tanque.
calc-flow-stalled = { $moved } salieron del carro en los últimos { $elapsed }; una lectura vale ±{ $limit }. No hay flujo que una lectura pueda mostrar: quizá cerró una válvula de exceso de flujo, o ya no hay líquido.
calc-flow-reversed = { $moved } salieron del carro en los últimos { $elapsed }; una lectura vale ±{ $limit }. El líquido regresa al carro: deténgase y averigüe por qué.
calc-recovery-isothermal = Calculado a una sola temperatura y sin líquido: un remanente líquido, o un carro que se enfría, tarda más.
calc-recovery-saturated = El inicio, { $start }, no está por debajo de la saturación, { $saturation }: puede quedar líquido, y el tiempo es el mínimo.
calc-efficiency-presumed = No se dio eficiencia volumétrica: se tomó 1, así que el tiempo es el más corto posible.

## Leak test

calc-leak-found = Solo por temperatura se esperan { $expected }, se leyó { $read }: { $change } en { $minutes }. Hay indicio de fuga: encuéntrela antes de seguir, y nunca apriete bajo presión más allá del límite del propietario.
calc-leak-rose = Solo por temperatura se esperan { $expected }, se leyó { $read }: { $change } en { $minutes }. Algo deja entrar gas, hierve líquido, o la temperatura no es la del gas.
calc-leak-none = Solo por temperatura se esperan { $expected }, se leyó { $read }: { $change } en { $minutes }. No hay fuga mayor de { $visible } por hora; una menor no se vería. Escuche y use también agua jabonosa.
calc-leak-cannot-tell = Solo por temperatura se esperan { $expected }, se leyó { $read }: { $change } en { $minutes }. Esta prueba no permite decir: use un manómetro más fino a temperatura estable y repita la prueba.

## Closing torque

calc-torque-high = La última vez tomó { $last } cerrar; lo usual es cuando mucho { $usual }. Espere una pieza gastada: no la fuerce, repórtela.
calc-torque-low = La última vez tomó solo { $last } cerrar; lo usual es al menos { $usual }. Asegúrese de que asienta, y escuche.
calc-torque-rising = El par de apriete para cerrar sube cerca de { $rise } por año en { $count } visitas: se está gastando.

## Freezing

calc-freeze-flash = El líquido soltado al aire se enfría a { $flash }: quema la piel y forma hielo en una pieza con cualquier clima, y el hielo puede mantener abierta una válvula que se siente cerrada. Libere presión despacio, con guantes y cara cubierta, y escuche otra vez cuando se descongele.
calc-freeze-threads = { $air } y { $precipitation }: aceite las roscas macho, nunca las hembra, para que la siguiente persona pueda abrirlas. Práctica común, sin fuente.
calc-freeze-covers = Deje flojas las cubiertas contra el clima que no son cierres: congeladas, se acaban golpeando. Práctica común, sin fuente.
calc-freeze-point-away = Apunte los conectores y extremos abiertos lejos del clima, para que no se junte ni congele agua en ellos.
calc-freeze-underfoot = { $air } y { $precipitation }: la escalera, la plataforma y el piso pueden tener hielo. Mantenga tres puntos de contacto, cargue cerca del cuerpo, dé pasos y no se tuerza.
calc-freeze-moisture = { $air } y { $precipitation }: la humedad que queda en una pieza o línea se congela. Sóplela o drénela antes de cerrar.
calc-freeze-wet = Hay { $air } pero está mojado ({ $precipitation }): el agua sobre una pieza donde se evapora líquido se congela al instante. Séquela primero.

## The residue’s paper

calc-paper-placards = Los carteles se quedan hasta que el carro esté limpio y purgado.
calc-paper-full-load = El remanente viaja con las reglas de la carga completa.
calc-paper-telephone = El documento lleva un teléfono de emergencia.
calc-paper-kept = Quien ofrece el carro guarda el documento dos años.
