### Ediciones de los procedimientos propios de la organización: por qué se rechaza un texto, qué cambia una edición, los números que fija.

## Por qué se rechaza un texto

procedure-error-on-line = Línea { $line }: { $what }
procedure-error-unreadable = No se puede leer como procedimiento: { $why }
procedure-error-too-large = El texto tiene { $bytes } bytes. El máximo es { $most }.
procedure-error-empty = El procedimiento no tiene pasos.
procedure-error-empty-field =
    { $step ->
        [0] { "" }
       *[other] Paso “{ $step }”:{ " " }
    }“{ $field }” está vacío.
procedure-error-no-language =
    { $step ->
        [0] { "" }
       *[other] Paso “{ $step }”:{ " " }
    }“{ $field }” está escrito para algo que no es un idioma.
procedure-error-bad-id = Paso “{ $step }”: el id de un paso se forma con a a z, 0 a 9 y _.
procedure-error-duplicate-id = Dos pasos tienen el id “{ $step }”.
procedure-error-stage-order = El paso “{ $step }” está después de un paso de una etapa posterior.
procedure-error-unknown-after = El paso “{ $step }” debe ir después de “{ $after }”, que no está antes de él.
procedure-error-bad-record = Paso “{ $step }”: no se puede leer un registro: { $why }
procedure-error-fitting = Paso “{ $step }”: lo que registra y los accesorios en que se repite no concuerdan.
procedure-error-holds = Paso “{ $step }”: “holds” nombra algo que no es respuesta de su registro.
procedure-error-sentence = El paso “{ $step }” tiene una frase, pero las frases de este procedimiento están en los catálogos.
procedure-error-unit = Paso “{ $step }”: la unidad no corresponde a lo que se mide.
procedure-error-law = Paso “{ $step }”: su ley no dice a quién obliga ni cómo se conoce.
procedure-error-interval = Paso “{ $step }”: el intervalo es de 1 a 1,440 minutos y se indica una vez.
procedure-error-order = Una regla de orden nombra “{ $step }”, que no es un paso que se repite en las líneas.
procedure-error-together = Pasos juntos «{ $group }»: { $why }.
procedure-error-gate = Punto de control “{ $rule }”: { $why }.
procedure-error-blocks-too-late = El paso “{ $step }” no puede bloquear “{ $gate }”: viene después de esa firma.
procedure-error-unknown-start = El texto no dice de qué edición incluida parte, o esta versión no tiene esa edición.
procedure-error-note = La nota sobre los pasos sigue siendo la de la edición de la que parte el texto.
procedure-error-step-unexplained = La ley pide el paso “{ $step }”. Indique por qué se omite o pide menos.
procedure-error-rule-unexplained = La ley pide el punto de control “{ $rule }”. Indique por qué se omite o pide menos.
procedure-error-left-out-unclear = Lo omitido nombra un paso o un punto de control y tiene un motivo: “{ $name }”.
procedure-error-left-out-stands = Se dice que “{ $name }” se omite, pero está en el texto.
procedure-error-essential = “{ $name }” no se puede omitir. Sin eso no se puede llevar ningún registro.
procedure-error-out-of-bounds = { $threshold }: indique de { $least } a { $most }.
procedure-error-other-digest = El texto publicado no es el que nombra su asiento.
procedure-gate-mistake-one-of-three = pide exactamente uno de registro (record), condición (condition) y paso (step)
procedure-gate-mistake-no-record = no pide ningún registro
procedure-gate-mistake-record-of-fitting = su registro es de un accesorio, pero la regla no se repite por accesorio
procedure-gate-mistake-event-of-fitting = su suceso es de un accesorio, pero la regla no se repite por accesorio
procedure-gate-mistake-no-slot = su registro no se puede buscar
procedure-gate-mistake-condition-each = su condición y “each” no concuerdan
procedure-gate-mistake-unknown-step = nombra un paso que el procedimiento no tiene
procedure-gate-mistake-no-gate = no nombra ningún control
procedure-gate-mistake-empty-sentence = tiene una frase vacía
procedure-gate-mistake-law-unclear = su ley no es clara: cómo se conoce, a quién obliga o cuándo se leyó
procedure-gate-mistake-law-and-because = “law” y “because” no van juntos
procedure-together-mistake-no-such-step = nombra un paso que no existe, o ninguno
procedure-together-mistake-order = sus pasos están en otro orden que en el procedimiento
procedure-together-mistake-two-groups = uno de sus pasos pertenece también a otro grupo
procedure-together-mistake-stages = sus pasos son de varias etapas
procedure-together-mistake-more-than-a-tap = un paso pide más que un toque; solo pueden hacerlo pasos que piden todos lecturas
procedure-together-mistake-not-over-lines = tiene una tecla por línea, y uno de sus pasos no se repite por línea
procedure-together-mistake-no-title = no tiene título o no dice qué hacer
procedure-read-syntax = aquí el texto no es TOML
procedure-read-unknown = “{ $name }” no se conoce aquí. Se conocen: { $known }
procedure-read-missing = falta “{ $name }”
procedure-read-twice = “{ $name }” está dos veces
procedure-read-other-kind = aquí hace falta un valor de otro tipo

## Qué cambia una edición

procedure-change-title = Título: { $title }
procedure-change-item = punto de control: { $item }
procedure-change-left-out =
    Se omite o pide menos: { $what }{ $laws ->
        [0] { "" }
       *[other] { " " }({ $laws })
    }.{ $because ->
        [0] { "" }
       *[other] { " " }Motivo: { $because }
    }
procedure-change-added = Paso nuevo: { $step }
procedure-change-words = Con otras palabras: { $step }
procedure-change-moved = Movido: { $step }
procedure-change-interval = Intervalo de { $step }: { $minutes } minutos
procedure-change-blocks = { $step } bloquea: { $gate }
procedure-change-threshold = { $threshold }: { $number }
procedure-change-threshold-usual = { $threshold }: lo usual

## Los números que fija una organización

procedure-threshold-reading_interval_minutes = Intervalo de lecturas, minutos
procedure-threshold-hold_minutes = Tiempo mínimo de la prueba de presión sostenida, minutos
procedure-threshold-final_pressure_span_psi = Rango máximo del manómetro para la presión final, psig
procedure-threshold-attendance_gap_minutes = Tiempo máximo sin señal de presencia, minutos
procedure-threshold-check_in_minutes = Todo bien: cada cuánto lo dice quien tiene el carro, minutos (vacío: no se pide)
