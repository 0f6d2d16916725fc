### The sentences of the procedure pressure-car-lpg, edition 2. Its steps and rules are in core/procedures.

procedure-pressure-car-lpg-2 = Descarga de un carro tanque a presión de gas LP
    .note = Práctica común en resumen; primero valen los códigos locales, las instrucciones del dueño y la práctica autorizada, y nada aquí declara seguro un carro.

## Cautions

procedure-pressure-car-lpg-2-caution-three_points = Mantenga tres puntos de contacto en la escalera; el hielo y el aceite vuelven resbalosos los peldaños.
procedure-pressure-car-lpg-2-caution-no_ignition = Aleje toda fuente de ignición: ni motores, ni cigarros, ni teléfonos que no sean aptos para el área.
procedure-pressure-car-lpg-2-caution-leave = Si la fuga crece, retírese hacia el lado de donde sopla el viento y llame desde un lugar seguro.
procedure-pressure-car-lpg-2-caution-listen_first = Escuche y mire el detector de gas antes de inclinarse sobre la caja protectora abierta.
procedure-pressure-car-lpg-2-caution-cover_fingers = No ponga los dedos debajo de la tapa; el viento puede cerrarla de golpe.
procedure-pressure-car-lpg-2-caution-turn_nothing = No gire nada todavía: el tapón puede ser lo único que contiene la presión.
procedure-pressure-car-lpg-2-caution-slip_tube = El medidor de tubo deslizante ventea: nunca se ponga de frente, y mantenga manos y cabeza fuera de su línea.
procedure-pressure-car-lpg-2-caution-line_of_fire = No se ponga en línea con el tapón ni con el cople.
procedure-pressure-car-lpg-2-caution-cold_burns = El líquido quema por frío: use guantes y protector facial.
procedure-pressure-car-lpg-2-caution-carry = Cárguelo pegado al cuerpo, fíjese dónde pisa y de qué se sostiene, y nunca dé pasos atrás en la plataforma.
procedure-pressure-car-lpg-2-caution-footing = Cuide dónde pisa si hay hielo o nieve.
procedure-pressure-car-lpg-2-caution-locked_liquid = El líquido atrapado entre dos válvulas cerradas se expande y revienta mangueras: nunca cierre la segunda válvula con líquido.
procedure-pressure-car-lpg-2-caution-leak_stop = Una fuga obliga a parar: cierre la válvula, libere la presión y luego repare; nunca golpee una junta que fuga.
procedure-pressure-car-lpg-2-caution-owner_limit = Nunca apriete bajo presión más allá del límite del dueño.
procedure-pressure-car-lpg-2-caution-frost_stop = Un anillo de escarcha en el casco, o escarcha donde no había: pare y averigüe la causa.
procedure-pressure-car-lpg-2-caution-from_the_side = Nunca mire dentro de una salida: obsérvela de lado, a un brazo de distancia.
procedure-pressure-car-lpg-2-caution-liquid_may_spit = Puede salir líquido por la purga: póngase de lado, donde sopla el viento.
procedure-pressure-car-lpg-2-caution-carrier_track = En vía del transportista el gas LP va directo a almacenamiento permanente: no cargue ahí autotanques sin preguntar antes.
procedure-pressure-car-lpg-2-caution-gauge_range = Confirme que la presión es menor que el rango del manómetro antes de ponerlo.

## Stage: receive

procedure-pressure-car-lpg-2-open_visit = Número del carro
    .do = Lea la inicial y el número en el rótulo del carro, no en el documento.
    .why = Todo se archiva con este número, y no tiene dígito verificador.

procedure-pressure-car-lpg-2-number_again = Foto del número del carro
    .do = Fotografíe el rótulo y compárelo con el número anotado; léalo otra vez si no coinciden.
    .why = Un carro equivocado se descubre con una segunda mirada o no se descubre.

procedure-pressure-car-lpg-2-paper = Documento de transporte
    .do = Compare el documento con el carro: número, número UN, producto, odorizado o no, cantidad; deje vacío lo que no diga.
    .why = La carga se recibe contra este documento.

procedure-pressure-car-lpg-2-placement = Colocación
    .do = Anote cuándo se colocó el carro, cuándo llegó el aviso y si hubo colocación presunta.
    .why = La demora se cobra a partir de estas horas.

procedure-pressure-car-lpg-2-track_secured = Vía asegurada
    .do = Ponga y asegure con candado el descarrilador, o disponga el cambio y póngale candado.
    .why = Ningún otro carro debe rodar contra uno con mangueras conectadas.

procedure-pressure-car-lpg-2-hand_brake = Freno de mano
    .do = Aplique el freno de mano y vea que las zapatas aprieten las ruedas.
    .why = El carro no debe moverse mientras haya algo conectado.

procedure-pressure-car-lpg-2-chocks = Ruedas calzadas
    .do = Calce ruedas en los dos extremos del carro, en ambos sentidos.
    .why = El freno de mano solo ha dejado ir carros.

procedure-pressure-car-lpg-2-blue_sign_up = Señal azul puesta
    .do = Coloque la señal azul STOP, Tank Car Connected (carro tanque conectado), donde la vea quien llegue por un extremo abierto; queda hasta que todo cierre esté asegurado.
    .why = Avisa a la tripulación que no toque el carro.

procedure-pressure-car-lpg-2-gas_detector = Detector de gas
    .do = Encienda el detector de gas, espere a que pase su prueba y llévelo puesto.
    .why = El odorante puede desvanecerse, y con frío se huele poco.

procedure-pressure-car-lpg-2-weather = Clima y viento
    .do = Anote si llueve o nieva, la temperatura del aire y de dónde sopla el viento.
    .why = Decide dónde ponerse y cómo se comportan los cierres y el líquido.

procedure-pressure-car-lpg-2-escape_way = Ruta de evacuación
    .do = Recorra la ruta de evacuación, contra el viento y de lado, y sepa a quién llamar.
    .why = Después no hay tiempo de buscarla.

procedure-pressure-car-lpg-2-emergency_shut_off = Paro de emergencia probado en el tablero
    .do = Accione el paro de emergencia desde donde estaría y vea cerrarse las válvulas de la planta.
    .why = Una válvula de exceso de flujo sola no siempre ha detenido una línea rota.

procedure-pressure-car-lpg-2-hoses_fit = Mangueras y juntas
    .do = Lea en cada manguera el servicio y la fecha de prueba, y revise cubierta, coples y juntas.
    .why = Mangueras de material equivocado o vencidas han reventado.
    .now = Retire la manguera de uso y tome otra.

procedure-pressure-car-lpg-2-look_round = Revisar el carro alrededor
    .do = Camine alrededor: casco, carteles, marcas, escalera, plataforma, caja protectora; anote daños, escarcha y manchas.
    .why = Lo que se anota ahora no se le puede culpar después.
    .now = Anote el defecto con foto y pregunte a la oficina antes de descargar.

procedure-pressure-car-lpg-2-test_dates = Fechas de prueba
    .do = Lea en el rótulo las fechas del tanque, de la válvula de alivio y del equipo de servicio.
    .why = Un carro vencido puede irse vacío, pero no llenarse; el dueño debe saberlo.

procedure-pressure-car-lpg-2-capacity = Capacidad
    .do = Anote la capacidad del casco según el rótulo, y la tabla de espacios vacíos del dueño si la hay.
    .why = La cantidad se calcula con ellas, y manda la tabla del dueño.

procedure-pressure-car-lpg-2-seals_found = Sellos como se hallaron
    .do = Fotografíe cada sello antes de tocarlo y anote número, tipo, lugar y si está intacto, o que no hay.
    .why = Una vez cortado, solo la foto dice cómo estaba.

procedure-pressure-car-lpg-2-fittings = Dentro de la caja protectora
    .do = Abra la tapa del lado de donde sopla el viento, hasta su tope; vea bisagra, oreja y pasador, y anote qué válvulas y aberturas tiene el carro.
    .why = Lo que hay ahí debe quedar cerrado antes de liberar.

procedure-pressure-car-lpg-2-line_as_found = Válvula y tapón como se hallaron
    .do = Vea que la válvula esté cerrada y el tapón apretado con herramienta, y escuche; son dos cosas y dos entradas.
    .why = Se han hallado válvulas abiertas detrás de tapones apretados.
    .now = Deje puesto el tapón, avise a la oficina y retenga el carro hasta que la válvula esté cerrada y sin ruido.

procedure-pressure-car-lpg-2-opening_as_found = Abertura pequeña como se halló
    .do = Revise su tapa, tapa roscada, válvula de aguja o tapón: en su lugar, apretado, sin fuga audible.
    .why = Vino bajo presión todo el camino.
    .now = Retenga el carro y avise a la oficina; no apriete lo que fuga más allá del límite del dueño.

## Stage: gauge

procedure-pressure-car-lpg-2-arrival_pressure = Presión del carro
    .do = Lea la presión en el carro, en su propia conexión, y diga qué manómetro usó.
    .why = Manda el manómetro puesto en el carro.

procedure-pressure-car-lpg-2-arrival_temperature = Temperatura del líquido
    .do = Baje el termómetro al termopozo, espere a que se estabilice y léalo.
    .why = Un galón solo es un galón a su temperatura.

procedure-pressure-car-lpg-2-arrival_outage = Espacio vacío
    .do = Tome el espacio vacío dos veces con el dispositivo de medición del carro y anótelo cuando ambas coincidan.
    .why = Dice cuánto trae el carro y si venía sobrellenado.

procedure-pressure-car-lpg-2-relative_density = Densidad relativa
    .do = Anote la densidad relativa a 60 °F del documento o de una muestra, y diga de cuál.
    .why = Los galones netos la necesitan.

procedure-pressure-car-lpg-2-odorant = Odorante
    .do = Verifique con la prueba del sitio que el producto esté odorizado como dice el documento, nunca solo con el olfato.
    .why = El odorante puede desvanecerse, sobre todo en acero nuevo.
    .now = No descargue a un sistema que necesita producto odorizado; pregunte a la oficina.

procedure-pressure-car-lpg-2-room_in_tank = Cupo en el tanque
    .do = Lea el nivel del tanque que recibe y compare lo que cabe con lo que trae el carro.
    .why = El tanque no debe pasar su límite de llenado con el carro a medias.

procedure-pressure-car-lpg-2-room_in_truck = Cupo en el autotanque
    .do = Acuerde con el conductor cuánto recibe el autotanque y quién vigila su nivel.
    .why = El autotanque no debe pasar su límite de llenado.
    .now = No cargue este autotanque.

procedure-pressure-car-lpg-2-against_paper = Medido contra facturado
    .do = Compare la cantidad medida con la facturada y avise de inmediato a la oficina si difieren más que la incertidumbre.
    .why = Un faltante avisado el mismo día se cree.

procedure-pressure-car-lpg-2-fit_to_unload = Apto para descargar
    .do = Vea lo que sigue pendiente y firme que se puede abrir el primer cierre.
    .why = Con un cierre abierto ya no se ve lo que faltó al llegar.

## Stage: connect

procedure-pressure-car-lpg-2-open_closure = Quitar el tapón
    .do = Escuche y luego saque el tapón despacio, de lado y listo para volver a apretarlo.
    .why = Si la válvula no sella, hay presión detrás del tapón.

procedure-pressure-car-lpg-2-threads_inspected = Roscas y junta
    .do = Revise roscas y junta de la válvula y del tapón, y el cuadro del tapón: sano, redondeado o pegado.
    .why = Roscas gastadas y juntas viejas han cedido.
    .now = Fotografíe el defecto, avise al dueño y no conecte aquí.

procedure-pressure-car-lpg-2-adapter_in = Adaptador puesto
    .do = Ponga el adaptador y cuéntelo como fuera hasta que se devuelva.
    .why = Lo que entra en la válvula del carro debe volver a salir.

procedure-pressure-car-lpg-2-hose_on = Manguera conectada
    .do = Acople la manguera, anote su número y llévela sin dobleces y sin que pese sobre la válvula.
    .why = Una manguera olvidada y jalada es el peor accidente: el registro debe saber que está ahí.

procedure-pressure-car-lpg-2-shut_off_line_on = Aire de la válvula de emergencia conectado
    .do = Conecte la línea de aire o de control de la válvula de emergencia de esta manguera, del lado del carro.
    .why = Cierra la válvula cuando nadie puede acercarse.

procedure-pressure-car-lpg-2-esv_proved = Válvula de emergencia probada
    .do = Abra y cierre la válvula de emergencia del lado del carro con su propia línea y véala moverse, antes de abrir la válvula del carro.
    .why = Una válvula que nadie vio cerrar no es un cierre.
    .now = Mantenga cerrada la válvula del carro y cambie o repare la de emergencia.

procedure-pressure-car-lpg-2-vapor_test = Prueba con agua jabonosa y vapor
    .do = Meta primero vapor o nitrógeno a la manguera, ponga agua jabonosa en cada unión y anote si no hay fuga.
    .why = Una fuga de vapor es pequeña y una de líquido no.
    .now = Libere la presión, repare la unión y repita la prueba desde el principio para descartar otra fuga.

procedure-pressure-car-lpg-2-open_valve = Abrir la válvula, despacio
    .do = Abra la válvula del carro despacio, de lado.
    .why = Si se abre rápido, la válvula de exceso de flujo cierra y la manguera recibe un golpe.

procedure-pressure-car-lpg-2-leak_check = Revisión de fugas a presión plena
    .do = Revise otra vez cada unión con agua jabonosa o detector a presión plena y anote si no hay fuga.
    .why = Una unión sin fuga con vapor puede fugar a presión plena.
    .now = Cierre la válvula del carro, libere la presión, repare y repita la prueba con agua jabonosa.

## Stage: transfer

procedure-pressure-car-lpg-2-attend = Vigilar el carro
    .do = Anote que tiene el carro a su cargo, de la primera conexión a la última; entregue el turno o termínelo al irse.
    .why = Un carro conectado se vigila.

procedure-pressure-car-lpg-2-transfer_readings = Lecturas del trasiego
    .do = Lea la presión del carro cuando toque y recorra las mangueras cada vez.
    .why = Un cambio lento solo se ve en una serie.

procedure-pressure-car-lpg-2-tank_level = Nivel del tanque
    .do = Lea el nivel del tanque que recibe con cada presión del carro.
    .why = El límite de llenado del tanque llega antes que el fin del carro.

procedure-pressure-car-lpg-2-truck_loads = Cargas de autotanque
    .do = Calce las ruedas del autotanque mientras está conectado y anote lo que recibió antes de que se vaya.
    .why = Lo que salió en autotanques debe sumar lo que traía el carro.

## Stage: recover

procedure-pressure-car-lpg-2-liquid_closed = Válvulas de líquido cerradas, trampa drenada
    .do = Baje la presión de la manguera de líquido, cierre las válvulas de líquido del carro y del tanque y drene la trampa antes de pasar el compresor a recuperación.
    .why = El líquido que entra a un compresor lo rompe.
    .now = No inicie la recuperación hasta cerrar las válvulas de líquido y drenar la trampa.

procedure-pressure-car-lpg-2-recovery_readings = Recuperación de vapores
    .do = Recupere vapores con el compresor y siga la presión del carro hacia abajo.
    .why = El vapor que queda en el carro es producto no recibido.

procedure-pressure-car-lpg-2-planned_stop = Paro planeado alcanzado
    .do = Pare la recuperación a la presión planeada y diga la razón si para en otra.
    .why = Un carro lleva remanente solo si se descargó hasta donde fue practicable.

procedure-pressure-car-lpg-2-pressure_hold = Prueba de presión sostenida
    .do = Pare el compresor, aísle y lea la presión dos veces con unos minutos entre ellas.
    .why = La presión que sube sola es líquido que hierve.

## Stage: prove_empty

procedure-pressure-car-lpg-2-rod = Dispositivo de medición en el fondo
    .do = Baje el dispositivo de medición y vea si llega a su fondo.
    .why = Una varilla que flota indica líquido; una en el fondo solo indica que queda poco.
    .now = Vuelva a la recuperación y luego mida otra vez con el dispositivo.

procedure-pressure-car-lpg-2-liquid_valve_vapour = Vapor en la línea de líquido
    .do = Vea qué llega por la línea de líquido: vapor, o líquido todavía.
    .why = El tubo termina arriba del fondo; el vapor aquí hace falta pero no basta.
    .now = Vuelva al trasiego hasta que llegue vapor.

procedure-pressure-car-lpg-2-frost_ring = Anillo de escarcha
    .do = Busque una línea de escarcha o humedad en la parte baja del casco; en un carro con camisa o aislado, omítalo por no ser visible.
    .why = Marca líquido que hierve adentro.
    .now = Vuelva a la recuperación hasta que desaparezca el anillo.

procedure-pressure-car-lpg-2-low_temperature = Temperatura baja y presión
    .do = Lea juntas la temperatura en la parte baja del carro y la presión; omítalo como no legible en un carro con camisa o aislado.
    .why = Una presión en saturación para esa temperatura indica líquido.

procedure-pressure-car-lpg-2-plant_signs = Señales en la planta
    .do = Verifique que la mirilla muestre vapor, que la diferencia de presión del compresor haya caído y que el nivel del tanque se haya detenido.
    .why = Las señales lejos del carro dicen lo mismo o advierten.
    .now = Vuelva al trasiego y verifique otra vez.

procedure-pressure-car-lpg-2-empty_decision = ¿Salió el líquido?
    .do = Pese las señales y decida con su nombre; en duda la respuesta es no.
    .why = Un carro dado por vacío que aún tiene líquido es el error clásico.
    .now = Vuelva a la recuperación, revise otra vez las señales y decida de nuevo.

## Stage: disconnect

procedure-pressure-car-lpg-2-shut_valve = Cerrar la válvula
    .do = Cierre la válvula del carro hasta su asiento, justa, y pare; deje abierta la válvula de emergencia.
    .why = Es la primera de dos barreras, y apretada de más solo se gasta.

procedure-pressure-car-lpg-2-draw_down = Bajar la presión de la manguera
    .do = Baje la presión de la manguera por la planta, cierre la válvula de la planta y lea el manómetro de la manguera.
    .why = Aquí lo usual en la práctica es de 5 a 15 psi; más, o si sube, una válvula no sella.
    .now = No libere presión: averigüe qué válvula tiene fuga por el asiento con la manguera aún puesta.

procedure-pressure-car-lpg-2-bleed = Liberar la presión de la manguera
    .do = Libere despacio lo que queda, a favor del viento, hasta que el manómetro marque cero.
    .why = Una manguera abierta con presión da latigazos.

procedure-pressure-car-lpg-2-listen = Escuchar, aún acoplada
    .do = Escuche en la purga con la válvula de emergencia abierta y la manguera aún puesta.
    .why = Cerrada, la válvula de emergencia oculta una válvula del carro que no sella y atrapa líquido.
    .now = Ajuste una vez la válvula del carro y escuche otra vez; si aún hay fuga, deje la manguera puesta y retenga el carro.

procedure-pressure-car-lpg-2-break_coupling = Abrir el cople
    .do = Afloje el cople despacio, de lado, y déjelo drenar.
    .why = La última presión sale mientras la rosca aún sujeta.

procedure-pressure-car-lpg-2-listen_open = Escuchar en el cople abierto
    .do = Escuche en el cople abierto antes de girar el adaptador.
    .why = Es el último momento en que el adaptador aún contiene una válvula que no sella.
    .now = Deje el adaptador puesto, ajuste una vez la válvula y retenga el carro si aún hay fuga.

procedure-pressure-car-lpg-2-adapter_out = Adaptador fuera, a la vista
    .do = Saque el adaptador y déjelo donde lo vea; sigue contado como fuera.
    .why = Se guarda solo cuando el tapón está de vuelta.

procedure-pressure-car-lpg-2-look_for_liquid = ¿Líquido en la salida?
    .do = Observe la salida de lado, a un brazo de distancia: neblina, goteo, escarcha o silbido indican fuga de la válvula o líquido.
    .why = Es el único momento en que se ve la salida.
    .now = Ponga el tapón, retenga el carro y compruebe otra vez el vaciado.

procedure-pressure-car-lpg-2-closure_tight = Tapón puesto, apretado con herramienta
    .do = Ponga el tapón a mano y luego apriételo con herramienta; nunca lo fuerce.
    .why = Lo apretado a mano por ahora se olvida en la tarde.
    .now = Tome la llave de apriete y apriete el tapón con herramienta ahora.

procedure-pressure-car-lpg-2-threads = Roscas enganchadas
    .do = Cuente las vueltas completas enganchadas al llegar el tapón al fondo.
    .why = Un tapón con una rosca o menos no sujeta.
    .now = Anote el defecto, fotografíelo y avise; solo el dueño o un taller puede cambiar el tapón o la brida.

procedure-pressure-car-lpg-2-adapter_away = Adaptador devuelto
    .do = Guarde el adaptador en su caja solo ahora y cuéntelo como devuelto.
    .why = La cuenta de herramientas debe quedar sin nada fuera.

procedure-pressure-car-lpg-2-hose_capped = Tapar y colgar la manguera
    .do = Tape la manguera, floja para quitarla a mano, y cuélguela con la punta abajo; con helada aceite el hombro y la rosca macho, nunca la hembra.
    .why = La tapa protege del clima, y una congelada no se puede quitar.

procedure-pressure-car-lpg-2-shut_off_line_off = Aire de la válvula de emergencia desconectado
    .do = Desconecte la línea de aire de la válvula de emergencia y voltee su punta lejos de la intemperie.
    .why = El agua adentro se congela y entonces no cierra nada.

## Stage: final_pressure

procedure-pressure-car-lpg-2-final_pressure = Presión final
    .do = Ponga el manómetro de rango bajo en el carro después de quitar la última línea, abra a mano la válvula pequeña, lea, cierre y vuelva a poner su tapón con la llave de apriete.
    .why = Los manómetros del compresor y del tablero leen una manguera, no el carro.

procedure-pressure-car-lpg-2-final_temperature = Temperatura final
    .do = Lea la temperatura en el carro junto con la presión final.
    .why = Lo que queda en el carro se calcula con las dos.

## Stage: close

procedure-pressure-car-lpg-2-last_round = Última ronda
    .do = Ponga la mano en cada uno como lo último antes de bajar la tapa: válvula cerrada, tapón o tapa roscada con llave de apriete, tapa o válvula de aguja según su tipo, sin fuga audible.
    .why = Lo anotado a la llegada no cuenta: un cierre hallado flojo después se presume no revisado.
    .now = Ciérrelo, apriételo con herramienta y escuche otra vez; si aún hay fuga, retenga el carro.

procedure-pressure-car-lpg-2-tools_look = Última búsqueda de herramienta
    .do = Busque en la caja protectora herramienta, trapos, adaptadores y tapones, y fotografíela abierta.
    .why = Una llave de apriete bajo la tapa viaja con el carro.
    .now = Sáquelo y busque otra vez.

procedure-pressure-car-lpg-2-cover_down = Tapa abajo y asegurada
    .do = Baje la tapa y asegúrela como la tiene este carro: el pasador, o todos sus pernos contados; vea oreja, bisagra y pasador.
    .why = Ha habido tapas que viajaron sueltas, y un pasador puede salirse.

procedure-pressure-car-lpg-2-seal = Sello
    .do = Coloque el sello por el pasador o la oreja, con cadena si el agujero queda lejos, y fotografíelo puesto.
    .why = Ninguna regla leída lo pide en un carro descargado; el sello protege a quien lo liberó y nunca reemplaza la revisión de un cierre.

procedure-pressure-car-lpg-2-number_last = Número y sello en una foto
    .do = Fotografíe otra vez el número del carro con la tapa cerrada.
    .why = Une el sello con este carro.

## Stage: release

procedure-pressure-car-lpg-2-lines_clear = Líneas separadas
    .do = Camine una vez alrededor del carro: ninguna manguera, línea ni cable lo toca.
    .why = La tripulación jala lo que se le entrega.
    .now = Separe la línea y camine otra vez alrededor.

procedure-pressure-car-lpg-2-plant_closed = Válvulas de planta cerradas, mangueras guardadas
    .do = Cierre las válvulas de la planta y guarde las mangueras.
    .why = Una válvula de planta abierta detrás de una manguera espera el próximo error.
    .now = Cierre las válvulas y guarde las mangueras ahora.

procedure-pressure-car-lpg-2-platform_up = Plataforma arriba, nada en el carro
    .do = Suba la plataforma y la escalera, y no deje herramienta ni teléfono en el carro.
    .why = Una plataforma abajo recibe el golpe del carro en movimiento.
    .now = Súbala y despeje el carro ahora.

procedure-pressure-car-lpg-2-look_round_again = Inspeccionar antes de ofrecer
    .do = Inspeccione todo el carro: casco y cabezas, tubería y juntas, pernos, cierres, caja protectora, válvula de alivio, sistemas de protección, marcas y fechas.
    .why = Un carro con remanente se ofrece como uno cargado, y quien lo ofrece determina que está en buen estado.
    .now = Anote el defecto, retenga el carro y pregunte al dueño.

procedure-pressure-car-lpg-2-residue_paper = Documento del remanente
    .do = Elabore el documento del remanente con RESIDUE: LAST CONTAINED y la descripción básica; un carro que queda con parte de la carga se libera como cargado.
    .why = El remanente se transporta como la carga completa.
    .now = Corrija el documento antes de avisar al transportista.

procedure-pressure-car-lpg-2-loaded_paper = Documento de la carga
    .do = Elabore el documento de embarque de lo que el carro lleva: número UN, nombre, clase y cantidad.
    .why = Un carro que conserva su carga o una parte se ofrece como cargado, no como remanente.
    .now = Corrija el documento de embarque antes de avisar al transportista.

procedure-pressure-car-lpg-2-placards_stay = Los carteles se quedan
    .do = Vea que los carteles estén puestos y legibles en ambos lados y ambos extremos.
    .why = Un carro descargado aún contiene vapor inflamable.
    .now = Reemplace el cartel antes de ofrecer el carro.

procedure-pressure-car-lpg-2-chocks_away = Calzas retiradas
    .do = Retire las calzas solo con el freno de mano aplicado.
    .why = Una calza olvidada descarrila el carro.

procedure-pressure-car-lpg-2-brake_left_set = Freno de mano aplicado
    .do = Deje aplicado el freno de mano y dígalo al transportista.
    .why = Un carro suelto rueda, y una tripulación que no lo sabe lo arrastra frenado.
    .now = Aplique otra vez el freno de mano, o acuerde por escrito con el transportista que va suelto.

procedure-pressure-car-lpg-2-track_open = Descarrilador retirado
    .do = Retire el descarrilador, o regrese el cambio, como lo pida el transportista.
    .why = La vía se entrega como se recibió.

procedure-pressure-car-lpg-2-blue_sign_down = Señal azul abajo, al final
    .do = Quite la señal azul al final, cuando todo cierre esté asegurado y todos estén lejos.
    .why = Mientras está puesta la tripulación no toca el carro.

procedure-pressure-car-lpg-2-carrier_told = Entregado al transportista
    .do = Avise al transportista junto con la liberación, no antes, y anote la hora.
    .why = La demora deja de correr cuando el transportista lo sabe, y la tripulación puede llegar enseguida.

procedure-pressure-car-lpg-2-release = Liberar
    .do = Lea los pendientes, ciérrelos o exceptúelos con una razón, y libere con su nombre.
    .why = El registro muestra lo anotado y lo exceptuado; no declara seguro el carro.

## Pasos que registra una sola tecla

procedure-pressure-car-lpg-2-together-protections = Proteger la vía y el carro
    .do = Haga y vea cada uno de estos puntos.
procedure-pressure-car-lpg-2-together-stencil = Rótulo como la última vez
    .do = Vea el rótulo: ¿sigue así cada dato?
procedure-pressure-car-lpg-2-together-as_found = Cierres como se hallaron
    .do = Recorra la caja protectora: válvulas cerradas, tapones y tapas apretados, sin fuga al oído.
procedure-pressure-car-lpg-2-together-arrival = Lecturas de llegada
    .do = Lea cada una en el carro y en el tanque, y escríbalas una tras otra.
procedure-pressure-car-lpg-2-together-cargo = Carga contra documento
    .do = Revise cada punto antes de firmar apto para descargar.
procedure-pressure-car-lpg-2-together-line_on = Conectar la línea
    .do = Hágalos en orden; deténgase en el primero que no esté bien.
procedure-pressure-car-lpg-2-together-line_open = Abrir la válvula
    .do = Abra despacio y luego revise otra vez cada unión.
procedure-pressure-car-lpg-2-together-round = Ronda de lecturas
    .do = Lea cada una ahora y recorra las mangueras.
procedure-pressure-car-lpg-2-together-signs = Señales de que salió el líquido
    .do = Busque cada señal; la que diga lo contrario tiene su propia tecla.
procedure-pressure-car-lpg-2-together-line_shut = Cerrar, vaciar, purgar, escuchar
    .do = Hágalos en orden; la manguera queda puesta hasta que no se oiga nada.
procedure-pressure-car-lpg-2-together-line_off = Desconectar la línea
    .do = Hágalos en orden, solo esta línea, hasta que su tapón quede apretado con herramienta.
procedure-pressure-car-lpg-2-together-clear = Despejar el carro y la vía
    .do = Dé otra vuelta y hágalos en orden; la señal azul se quita al final.
