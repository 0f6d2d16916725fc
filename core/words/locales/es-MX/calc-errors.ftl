### Why a formula has no result, and the limits of its inputs.

## Errors

calc-error-missing = Falta { $input }; indíquelo en { $wanted }.
calc-error-not-a-number = { $input } no es un número: { $found }
calc-error-out-of-range = { $input } es { $value }; los límites son { $low } a { $high }
calc-error-because = { $said } ({ $why })
calc-error-above-saturation = { $pressure } no está por debajo de { $saturation }, a la que el vapor se condensa a { $temperature }: hay líquido, o una lectura está mal.
calc-error-wrong-unit = { $input } está en { $found }; debe poder convertirse a { $wanted }.
calc-error-not-converged = No se encontró solución para { $what }. Revise los datos; no use una estimación en su lugar.

## What was solved for

calc-solved-saturation = la saturación de { $mix }
calc-solved-boiling = la temperatura de ebullición
calc-solved-density = la densidad del vapor
calc-solved-formula = la fórmula

## Limits

calc-limits-tool = límites de esta herramienta
calc-limits-sidings = ninguna espuela queda fuera de ellos
calc-limits-scale = la escala del manómetro
calc-limits-half-diameter = cuando mucho la mitad del diámetro
calc-limits-diameter = de 0 al diámetro interior
calc-limits-hold = cuánto puede durar la prueba
calc-limits-plus-minus = ± al 95 %, no negativo
calc-limits-rows = las filas de la tabla
calc-limits-base-density = densidades a 60 °F de 0.3500 a 0.6880, API MPMS 11.2.4
calc-limits-metric = API MPMS 11.2.4 / GPA TP-27; límites de memoria e iguales a los de la Tabla 24E
calc-limits-critical = a esa densidad el líquido termina en su temperatura pseudocrítica
calc-limits-boiling = entre −80 °F y la temperatura más alta cubierta para { $mix }
calc-limits-near-critical = demasiado cerca del punto crítico de { $mix }

## Inputs that contradict each other

calc-plus-minus-too-wide = El ± de { $input } es más amplio que lo que cubre la fórmula. Indíquelo mejor.
calc-heads-hold-more = Las tapas de un casco de { $diameter } solas contienen { $heads }, más que los { $total } indicados para todo.
calc-liquid-over-capacity = { $liquid } de líquido no caben en una capacidad de { $capacity }.
calc-net-over-shell = { $net } netos nunca cupieron en un casco de { $shell }, por frío que se cargara.
calc-slope-points = { $count } puntos no dan pendiente aquí (2 a 2,000).
calc-slope-one-place = Todos los puntos están en el mismo lugar: no hay pendiente.
calc-torque-band = Un intervalo de { $low } a { $high } está vacío.
calc-level-times = Las horas de las lecturas de nivel no aumentan, o por menos de un segundo.
calc-recovery-end = El final, { $end }, no está por debajo del inicio, { $start }.
calc-recovery-never-pays = Una hora de recuperación cuesta más de lo que rinde, aun al inicio.
calc-recovery-always-pays = Una hora de recuperación todavía conviene a 1 psia: otra cosa fija el paro.
calc-mix-twice = { $fluid } aparece dos veces en la mezcla.
calc-mix-sum = Las fracciones molares de la mezcla suman { $sum }; deben sumar 1.
calc-no-composition = No se conoce composición para el grado.
calc-not-for-propylene = La Tabla 24E no es válida para propileno ({ $mix }): se desvía de −1.7 % a −40 °F hasta +3.0 % a 130 °F. Use la relación de densidades de la ecuación de estado (density_ratio).

## Outage tables

calc-table-not-a-row = Línea { $line }: “{ $text }” no es un espacio vacío y un volumen.
calc-table-not-monotone = Línea { $line }: con un espacio vacío de { $outage } el volumen { $volume } no concuerda con la fila anterior. Una de las dos está mal escrita.
calc-table-repeated = Línea { $line }: el espacio vacío { $outage } aparece dos veces.
calc-table-too-few = Una tabla de espacios vacíos necesita cuatro filas o más; esta tiene { $count }.
calc-table-impossible = Línea { $line }: { $text } no puede ser un espacio vacío y un volumen de un carro.
calc-table-units = Una tabla de espacios vacíos va en una longitud y un volumen, no en { $outage } y { $volume }.
calc-table-needs-total = Una tabla de volúmenes de espacio vacío necesita el volumen total del casco.
