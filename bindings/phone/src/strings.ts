/**
 * Every word the shell itself says, in every language, in one file. Words about the work (step titles, reasons, blockers) come
 * from the core. `{name}` is filled in. A missing translation is a type error.
 */
const en = {
  "fitting.liquid_a": "Liquid A", "fitting.liquid_b": "Liquid B", "fitting.vapour": "Vapour", "fitting.vapour_two": "Vapour 2",
  "fitting.gauging_device": "Gauge rod", "fitting.thermometer_well": "Thermo well", "fitting.sample_line": "Sample", "fitting.relief_device": "Relief", "fitting.cover": "Cover",
  "valve.open": "Open", "valve.shut": "Shut", "valve.unknown": "?",
  "closure.open": "Out", "closure.hand_tight": "By hand", "closure.tool_tight": "Tight", "closure.unknown": "?",
  "plan.closure.open": "plug out", "plan.closure.hand_tight": "by hand", "plan.closure.tool_tight": "tight",
  "heard.quiet": "Quiet", "heard.hiss": "Hiss",
  "row.valve": "Valve", "row.closure": "Plug", "row.heard": "Heard",
  "plan.a_end": "A end", "plan.b_end": "B end", "plan.foot": "1 foot", "plan.typical": "typical layout", "plan.measured": "as measured", "plan.hose": "hose on", "plan.differ": "2 accounts",
  "plan.cover_open": "Cover open", "plan.cover_shut": "Cover shut", "plan.pin_out": "Pin out", "plan.bolts": "{in} of {required} bolts",
  "cover.open": "Open", "cover.closed": "Closed", "cover.pin_in": "Pin in", "cover.pin_out": "No pin", "cover.bolts": "Bolts in place", "cover.more": "One more bolt", "cover.fewer": "One bolt fewer",
  "effort.none": "Effort", "effort.usual": "usual {low} to {high}", "threads.word": "threads", "threads.none": "Threads",
  "hose.put_on": "Hose on", "hose.take_off": "Hose off", "history": "History", "look.right": "Looks right", "look.wrong": "Not right",
  "stage.receive": "Receive", "stage.gauge": "Gauge", "stage.connect": "Connect", "stage.transfer": "Transfer", "stage.recover": "Recover", "stage.empty_proof": "Empty proof", "stage.disconnect": "Disconnect", "stage.final_pressure": "Final pressure", "stage.close": "Close", "stage.release": "Release",
  "step.of": "step {n} of {of}", "step.not_done": "Not done, say why", "step.done": "Done",
  "law": "Law", "practice": "Practice", "caution": "Caution", "local_first": "Local codes and the owner's instructions come first.",
  "nav.back": "Back", "nav.help": "Help", "nav.next": "Next step", "nav.plan": "Car plan", "nav.cars": "Cars", "nav.more": "More",
  "only.here": "{n} only here", "only.none": "All sent",
  "cars.title": "Cars here", "cars.new": "New car", "cars.find": "Find", "cars.in_way": "{n} in the way", "cars.clear": "Nothing recorded in the way", "cars.differ": "{n} with two accounts", "cars.hold": "Hold", "cars.spot": "Spot {n}",
  "more.title": "This car", "gate.short": "in way", "gate.next": "Next", "cars.setup": "Phone", "to": "{a} to {b}", "new.title": "New car", "new.mark": "Letters", "new.number": "Number", "new.again": "Number again", "new.photo": "Photo of the stencil", "new.receiver": "Goes into", "new.fixed_tank": "Fixed tank", "new.truck": "Truck", "new.open": "Open this car", "new.differ": "The two numbers differ", "new.same": "Same both times", "more.proof": "Empty proof", "more.tally": "Things out", "more.seal": "Seal", "more.defect": "Defect", "more.differ": "Two accounts", "more.gate": "Release", "more.reading": "Reading",
  "reading.record": "Record {value} {unit}", "reading.type": "Type the reading", "reading.instrument": "Instrument", "reading.unit": "Unit", "reading.due": "due {date}", "reading.overdue": "past its date {date}", "key.erase": "Rub out", "key.sign": "Plus or minus",
  "proof.timer": "since the car was left still", "proof.of": "of {n} min", "proof.liquid": "liquid left", "proof.min": "min", "proof.seen": "Yes", "proof.not_seen": "No", "proof.read": "Take a reading", "proof.decide": "Decide", "proof.you": "You decide, with your reasons. The tool does not.",
  "tally.title": "Still out", "tally.none": "Nothing out", "tally.back": "It is back", "tally.since": "since {at}", "tally.for": "stands in for {fitting}", "tally.add": "Something out", "tally.name": "What is out?",
  "seal.title": "Seal", "seal.number": "Number", "seal.again": "Number again", "seal.scan": "Scan", "seal.same": "Same both times", "seal.different": "The two differ", "seal.kind": "Kind", "seal.place": "Place", "seal.photo": "Photo in place", "seal.record": "Record seal", "seal.found": "Found: {number}",
  "seal.plastic": "Plastic", "seal.metal_strap": "Strap", "seal.cable": "Cable", "seal.bolt": "Bolt", "seal.housing_pin": "Pin", "seal.housing_lug": "Lug", "seal.gauging_device": "Gauge", "seal.elsewhere": "Other",
  "defect.title": "Defect", "defect.threads": "Full threads engaged", "defect.one": "One or less: report it up. Do not change the plug or flange.", "defect.photo": "Photo", "defect.told": "Told by voice", "defect.wrote": "Told in writing", "defect.record": "Record defect", "defect.more": "Half a thread more", "defect.less": "Half a thread less", "defect.approval": "Needs an approval to move",
  "differ.look": "Go and look. Then record what you see.", "differ.saw": "I looked: {word}", "differ.later": "Cannot look now", "differ.why": "Both accounts stay in the record.",
  "gate.in_way": "in the way", "gate.none": "Nothing recorded stands in the way", "gate.hold": "Hold to sign", "gate.anyway": "Hold to sign anyway", "gate.holding": "Keep holding", "gate.tap": "Cannot hold? Tap twice", "gate.tap_again": "Tap again to sign", "gate.note": "This is what was written down. It does not say the car is safe.", "gate.reason": "Your reason", "gate.reason_missing": "Say why first",
  "here.title": "Only on this phone", "here.entries": "entries", "here.photos": "photos, {size}", "here.free": "{size} free", "here.receipt": "Last receipt from the office {at}", "here.send": "Send now", "here.carry": "Carry file",
  "find.title": "Find a car", "find.type": "Car or seal number", "find.none": "No such number here",
  "help.title": "Call first, record later", "help.shut": "Shut off", "help.guide": "Guide", "help.leave": "If it grows, leave. Upwind, away from low ground.", "help.back": "Back to the car",
  "setup.title": "This phone", "setup.operator": "Operator", "setup.site": "Site", "setup.text": "Text size", "setup.look": "Look", "setup.day": "Day", "setup.night": "Night", "setup.auto": "Auto", "setup.lang": "Language", "setup.pressure": "Pressure", "setup.temperature": "Temperature", "setup.enrol": "Enrol with a code", "setup.enrolled": "Enrolled", "setup.keep": "Done", "setup.normal": "A", "setup.large": "A+", "setup.huge": "A++", "setup.lang_other": "Español",
  "carry.title": "Carry by hand", "carry.out": "Make a carry file", "carry.in": "Take one in", "carry.note": "For when there is no signal between two phones. The file is signed; nothing is lost if it is taken in twice.", "carry.photos": "With photos",
  "refused.title": "Cannot record here", "refused.why": "This browser window forgets everything when it closes. Open the app from the home screen, not in a private window.", "refused.help": "Help still works",
  "history.usual": "Usual effort {low} to {high} {unit}", "history.corrected": "corrected", "history.correct": "Correct", "update.ready": "A new version is ready", "update.take": "Take it now", "recorded": "Recorded",
} as const;

export type Key = keyof typeof en;

const es: Record<Key, string> = {
  "fitting.liquid_a": "Líquido A", "fitting.liquid_b": "Líquido B", "fitting.vapour": "Vapor", "fitting.vapour_two": "Vapor 2",
  "fitting.gauging_device": "Varilla", "fitting.thermometer_well": "Termopozo", "fitting.sample_line": "Muestra", "fitting.relief_device": "Alivio", "fitting.cover": "Tapa",
  "valve.open": "Abierta", "valve.shut": "Cerrada", "valve.unknown": "?",
  "closure.open": "Fuera", "closure.hand_tight": "A mano", "closure.tool_tight": "Firme", "closure.unknown": "?",
  "plan.closure.open": "sin tapón", "plan.closure.hand_tight": "a mano", "plan.closure.tool_tight": "firme",
  "heard.quiet": "Silencio", "heard.hiss": "Silba",
  "row.valve": "Válvula", "row.closure": "Tapón", "row.heard": "Oído",
  "plan.a_end": "Lado A", "plan.b_end": "Lado B", "plan.foot": "1 pie", "plan.typical": "plano típico", "plan.measured": "medido", "plan.hose": "con manguera", "plan.differ": "2 versiones",
  "plan.cover_open": "Tapa abierta", "plan.cover_shut": "Tapa cerrada", "plan.pin_out": "Sin pasador", "plan.bolts": "{in} de {required} pernos",
  "cover.open": "Abierta", "cover.closed": "Cerrada", "cover.pin_in": "Pasador", "cover.pin_out": "Sin él", "cover.bolts": "Pernos puestos", "cover.more": "Un perno más", "cover.fewer": "Un perno menos",
  "effort.none": "Esfuerzo", "effort.usual": "normal {low} a {high}", "threads.word": "hilos", "threads.none": "Hilos",
  "hose.put_on": "Conectar", "hose.take_off": "Soltar", "history": "Historial", "look.right": "Se ve bien", "look.wrong": "No está bien",
  "stage.receive": "Recibir", "stage.gauge": "Medir", "stage.connect": "Conectar", "stage.transfer": "Trasvasar", "stage.recover": "Recuperar", "stage.empty_proof": "Prueba de vacío", "stage.disconnect": "Desconectar", "stage.final_pressure": "Presión final", "stage.close": "Cerrar", "stage.release": "Liberar",
  "step.of": "paso {n} de {of}", "step.not_done": "No se hizo, diga por qué", "step.done": "Hecho",
  "law": "Ley", "practice": "Práctica", "caution": "Cuidado", "local_first": "Primero las normas locales y las instrucciones del dueño.",
  "nav.back": "Atrás", "nav.help": "Ayuda", "nav.next": "Siguiente paso", "nav.plan": "Plano", "nav.cars": "Vagones", "nav.more": "Más",
  "only.here": "{n} solo aquí", "only.none": "Todo enviado",
  "cars.title": "Vagones aquí", "cars.new": "Vagón nuevo", "cars.find": "Buscar", "cars.in_way": "{n} pendientes", "cars.clear": "Nada anotado lo impide", "cars.differ": "{n} con dos versiones", "cars.hold": "Detenido", "cars.spot": "Puesto {n}",
  "more.title": "Este vagón", "gate.short": "faltan", "gate.next": "Sigue", "cars.setup": "Teléfono", "to": "{a} a {b}", "new.title": "Vagón nuevo", "new.mark": "Letras", "new.number": "Número", "new.again": "Número otra vez", "new.photo": "Foto del rótulo", "new.receiver": "Va a", "new.fixed_tank": "Tanque fijo", "new.truck": "Camión", "new.open": "Abrir este vagón", "new.differ": "Los números no coinciden", "new.same": "Igual las dos veces", "more.proof": "Prueba de vacío", "more.tally": "Piezas fuera", "more.seal": "Precinto", "more.defect": "Defecto", "more.differ": "Dos versiones", "more.gate": "Liberar", "more.reading": "Lectura",
  "reading.record": "Anotar {value} {unit}", "reading.type": "Escriba la lectura", "reading.instrument": "Instrumento", "reading.unit": "Unidad", "reading.due": "vence {date}", "reading.overdue": "venció {date}", "key.erase": "Borrar", "key.sign": "Más o menos",
  "proof.timer": "desde que quedó quieto", "proof.of": "de {n} min", "proof.liquid": "queda líquido", "proof.min": "min", "proof.seen": "Sí", "proof.not_seen": "No", "proof.read": "Tomar lectura", "proof.decide": "Decidir", "proof.you": "Usted decide, con sus razones. La herramienta no.",
  "tally.title": "Aún fuera", "tally.none": "Nada fuera", "tally.back": "Ya volvió", "tally.since": "desde {at}", "tally.for": "en lugar de {fitting}", "tally.add": "Algo sale", "tally.name": "¿Qué salió?",
  "seal.title": "Precinto", "seal.number": "Número", "seal.again": "Otra vez", "seal.scan": "Escanear", "seal.same": "Igual las dos veces", "seal.different": "No coinciden", "seal.kind": "Tipo", "seal.place": "Lugar", "seal.photo": "Foto puesto", "seal.record": "Anotar precinto", "seal.found": "Hallado: {number}",
  "seal.plastic": "Plástico", "seal.metal_strap": "Fleje", "seal.cable": "Cable", "seal.bolt": "Perno", "seal.housing_pin": "Pasador", "seal.housing_lug": "Oreja", "seal.gauging_device": "Varilla", "seal.elsewhere": "Otro",
  "defect.title": "Defecto", "defect.threads": "Hilos completos enroscados", "defect.one": "Uno o menos: avise. No cambie el tapón ni la brida.", "defect.photo": "Foto", "defect.told": "Avisé de voz", "defect.wrote": "Avisé por escrito", "defect.record": "Anotar defecto", "defect.more": "Medio hilo más", "defect.less": "Medio hilo menos", "defect.approval": "Necesita permiso para moverse",
  "differ.look": "Vaya a mirar. Luego anote lo que ve.", "differ.saw": "Miré: {word}", "differ.later": "Ahora no puedo mirar", "differ.why": "Las dos versiones quedan en el registro.",
  "gate.in_way": "pendientes", "gate.none": "Nada anotado lo impide", "gate.hold": "Mantenga para firmar", "gate.anyway": "Mantenga para firmar igual", "gate.holding": "Siga pulsando", "gate.tap": "¿No puede mantener? Toque dos veces", "gate.tap_again": "Toque otra vez para firmar", "gate.note": "Esto es lo que se anotó. No dice que el vagón sea seguro.", "gate.reason": "Su razón", "gate.reason_missing": "Primero diga por qué",
  "here.title": "Solo en este teléfono", "here.entries": "anotaciones", "here.photos": "fotos, {size}", "here.free": "{size} libres", "here.receipt": "Último recibo de la oficina {at}", "here.send": "Enviar ahora", "here.carry": "Archivo a mano",
  "find.title": "Buscar un vagón", "find.type": "Número de vagón o precinto", "find.none": "No hay ese número aquí",
  "help.title": "Llame primero, anote después", "help.shut": "Cortar", "help.guide": "Guía", "help.leave": "Si crece, váyase. Contra el viento, lejos de zonas bajas.", "help.back": "Volver al vagón",
  "setup.title": "Este teléfono", "setup.operator": "Operador", "setup.site": "Sitio", "setup.text": "Tamaño de letra", "setup.look": "Aspecto", "setup.day": "Día", "setup.night": "Noche", "setup.auto": "Auto", "setup.lang": "Idioma", "setup.pressure": "Presión", "setup.temperature": "Temperatura", "setup.enrol": "Inscribir con código", "setup.enrolled": "Inscrito", "setup.keep": "Listo", "setup.normal": "A", "setup.large": "A+", "setup.huge": "A++", "setup.lang_other": "English",
  "carry.title": "Llevar a mano", "carry.out": "Hacer archivo", "carry.in": "Recibir archivo", "carry.note": "Para cuando no hay señal entre dos teléfonos. El archivo va firmado; nada se pierde si se recibe dos veces.", "carry.photos": "Con fotos",
  "refused.title": "Aquí no se puede anotar", "refused.why": "Esta ventana olvida todo al cerrarse. Abra la aplicación desde la pantalla de inicio, no en una ventana privada.", "refused.help": "La ayuda sí funciona",
  "history.usual": "Esfuerzo normal {low} a {high} {unit}", "history.corrected": "corregido", "history.correct": "Corregir", "update.ready": "Hay una versión nueva", "update.take": "Tomarla ahora", "recorded": "Anotado",
};

export const languages = { en, es } as const;
export type Lang = keyof typeof languages;
export type Say = (key: Key, fill?: Record<string, string | number>) => string;

/** The speaker for one language. */
export function speaker(lang: Lang): Say {
  const table: Record<Key, string> = languages[lang];
  return (key, fill) => table[key].replace(/\{(\w+)\}/g, (whole, name: string) => String(fill?.[name] ?? whole));
}
