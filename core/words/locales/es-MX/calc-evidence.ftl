### The evidence of whether the liquid is out: each piece, and what to do next.
calc-empty-caution = Modelo, sin probar en campo. Pondera lo registrado y no conoce el carro. Una persona decide y firma; un carro enviado como remanente con líquido lastima a la siguiente persona que lo abre.

## Pieces

calc-empty-rod-bottom = La varilla está en su fondo: no hay líquido hasta donde llega. Un remanente líquido bajo su extremo, o lejos de ella en pendiente, no se ve.
calc-empty-rod-liquid = La varilla encuentra líquido.
calc-empty-valve-vapor = Vapor en la válvula de líquido: no hay líquido a la altura del extremo del tubo. Lo que queda debajo no puede salir.
calc-empty-valve-liquid = Sale líquido de la válvula de líquido.
calc-empty-above-liquid = { $read } contra { $condenses }, a la que { $product } se condensa a { $low }: { $margin }. Está incluso por encima de los { $highest } del líquido ahí; el vapor seco no puede estar tan alto. Hay líquido en un punto más caliente, gas inerte, o una mala lectura.
calc-empty-at-saturation = { $read } contra { $condenses }, a la que { $product } se condensa a { $low }: { $margin }. Igual o por encima dentro de las lecturas, como en un carro con líquido.
calc-empty-below-saturation = { $read } contra { $condenses }, a la que { $product } se condensa a { $low }: { $margin }. Por debajo: posible con vapor seco, y con líquido más frío en otra parte.
calc-empty-wet = { $low } en la parte baja del tanque menos { $condenses }, a la que { $product } se condensa a { $pressure }, da { $superheat } de sobrecalentamiento. Menos de { $bound }, como en un tanque mojado.
calc-empty-near-outside = { $low } en la parte baja del tanque menos { $condenses }, a la que { $product } se condensa a { $pressure }, da { $superheat } de sobrecalentamiento. Pero esa presión satura a menos de { $bound } de los { $outside } del exterior: no distingue mojado de seco.
calc-empty-no-outside = { $low } en la parte baja del tanque menos { $condenses }, a la que { $product } se condensa a { $pressure }, da { $superheat } de sobrecalentamiento. Sin la temperatura exterior no se sabe si esto distingue mojado de seco.
calc-empty-dry = { $low } en la parte baja del tanque menos { $condenses }, a la que { $product } se condensa a { $pressure }, da { $superheat } de sobrecalentamiento. Más de { $bound }, como en un tanque seco del modelo.
calc-empty-composition = { $low } en la parte baja del tanque menos { $condenses }, a la que { $product } se condensa a { $pressure }, da { $superheat } de sobrecalentamiento. Para { $other } sería { $most }: averigüe la composición.
calc-empty-between = { $low } en la parte baja del tanque menos { $condenses }, a la que { $product } se condensa a { $pressure }, da { $superheat } de sobrecalentamiento. Entre mojado y seco, o demasiado incierto para decir.
calc-empty-rebound = La presión cambió { $change } en { $minutes }. Más de { $bound }: hierve líquido en el carro.
calc-empty-no-rebound = La presión cambió { $change } en { $minutes }. No hubo gran aumento; eso no prueba nada: un remanente líquido ya tibio, o un compresor lento antes, tampoco lo muestra.

## What to do next

calc-next-liquid-off = Regrese a sacar líquido y luego a la recuperación; no desconecte como vacío.
calc-next-again = Después tome lecturas nuevas y pondere otra vez.
calc-next-pressure = Lea la presión en el carro con un manómetro de bajo alcance.
calc-next-low-temperature = Lea la temperatura en la parte baja del tanque, en el termopozo o bajo el casco, fuera del sol.
calc-next-outside = Registre la temperatura exterior a la sombra.
calc-next-liquid-valve = Abra apenas una válvula de líquido por la línea y vea qué sale: vapor o líquido.
calc-next-rod = Baje la varilla hasta el fondo.
calc-next-hold = Pare el compresor, cierre el carro y espere 15 min: un gran aumento significa líquido; que no suba no prueba nada.
calc-next-draw-down = Baje más la presión y lea otra vez la presión y la temperatura baja: el sobrecalentamiento dice más a menor presión.
calc-next-decide = Quien firma revisa cada dato de arriba y decide.
