### The plan of the fittings under the housing, drawn alike on the phone and at the office: labels of a small drawing, with a capital where a line begins.

plan-fitting-liquid_a = Líquido A
plan-fitting-liquid_b = Líquido B
plan-fitting-vapour = Vapor
plan-fitting-vapour_two = Vapor 2
plan-fitting-gauging_device = Medidor de nivel
plan-fitting-thermometer_well = Termopozo
plan-fitting-sample_line = Muestreo
plan-fitting-relief_device = Válvula de alivio
plan-valve-open = Abierta
plan-valve-shut = Cerrada
plan-closure-tool_tight = apretado
plan-closure-hand_tight = a mano
plan-closure-open = retirado
plan-hose = manguera
plan-leaking = Fuga
plan-differ = difieren
plan-label = Plano de los accesorios bajo la caja protectora. La lista de accesorios dice lo mismo en palabras.
plan-a-end = Extremo A
plan-b-end = Extremo B
plan-foot = 1 pie
plan-typical = plano típico
plan-cover-unknown = Tapa: ?
plan-cover-open = Tapa abierta
plan-cover-closed = Tapa cerrada
plan-pin-out = Sin pasador
plan-bolts = { $there } de { $wanted } pernos
