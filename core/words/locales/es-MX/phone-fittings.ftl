### Words on the phone for fittings under the housing: names where room is short, and the keys of a fitting.

## Names where room is short

phone-fitting-liquid_a = Líquido A
phone-fitting-liquid_b = Líquido B
phone-fitting-vapour = Vapor
phone-fitting-vapour_two = Vapor 2
phone-fitting-gauging_device = Medidor de nivel
phone-fitting-thermometer_well = Termopozo
phone-fitting-sample_line = Muestreo
phone-fitting-relief_device = Válvula de alivio
phone-fitting-cover = Tapa

## The cover

phone-cover-open = Abierta
phone-cover-closed = Cerrada
phone-cover-pin_in = Con pasador
phone-cover-pin_out = Sin pasador
phone-cover-record = Anotar: { $what }
phone-cover-no_bolts = Sin tornillos, solo pasador
phone-cover-count = { $n } de { $of } tornillos
phone-cover-bolts = Pernos puestos
phone-cover-should = Pernos requeridos
phone-cover-more = { $what }: uno más
phone-cover-fewer = { $what }: uno menos

## The keys of a fitting

phone-effort-none = Torque
phone-effort-valve = Torque de la válvula
phone-effort-closure = Torque del tapón
phone-effort-high = Torque alto: cierre sin forzar y avise
phone-threads-word =
    { $n ->
        [one] rosca
       *[other] roscas
    }
phone-threads-none = Roscas
phone-threads-other = Otra
phone-look-right = Se ve bien
phone-look-wrong = No está bien
phone-line-put_on = Conectar
phone-line-take_off = Desconectar
phone-line-on = Manguera conectada
phone-line-off = Manguera desconectada
phone-listen-due = Cerrada después; escuche de nuevo
phone-fittings-there = Accesorios de este carro
