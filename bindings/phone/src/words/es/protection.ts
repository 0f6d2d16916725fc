/** Spanish words about what protects this phone and its records: keys, PINs, the lock. */
import type { protection as english } from "../en/protection";

export const protection: Record<keyof typeof english, string> = {
  "pin.title": "Su PIN",
  "pin.head": "PIN",
  "pin.typed": "{n} de 6 cifras",
  "pin.act": "Firma lo que está por anotar.",
  "pin.shift": "Firma por usted hasta el fin del turno.",
  "pin.checking": "Un momento",
  "pin.without": "Seguir sin firmar",
  "pin.forgotten": "Olvidado",
  "pin.wrong": "PIN equivocado. Quedan {n} intentos.",
  "pin.wrong_one": "PIN equivocado. Queda un intento; después se pierde la clave de este teléfono.",
  "pin.waits": "Demasiados intentos. Otra vez a las {at}, o siga sin firmar.",
  "pin.locked":
    "Su clave de este teléfono se perdió tras diez intentos. Avise a la oficina y haga otro PIN. Lo " +
    "firmado sigue firmado.",
  "pin.ended": "La oficina dio fin a su clave de este teléfono. Haga otro PIN.",
  "pin.weak": "Es lo primero que alguien probaría. Elija otro.",
  "pin.make": "Hacer su PIN",
  "pin.choose": "Seis cifras que nadie adivine: ni cumpleaños ni teclas en fila.",
  "pin.six": "Seis cifras",
  "pin.again": "Otra vez",
  "pin.old": "Su PIN actual",
  "pin.two_differ": "No eran iguales. Elija de nuevo.",
  "pin.none": "Sin su firma",
  "pin.why": "Lo que anota aquí lleva su nombre por el teléfono, no su firma. Con un PIN propio, sí.",
  "pin.alone": "Solo usted lo sabe, ni siquiera la oficina. No lo diga a nadie.",
  "pin.short": "Para que lo que le obliga lleve su firma",
  "pin.have": "Con su firma",
  "pin.confirmed": "La oficina confirmó su clave.",
  "pin.not_confirmed": "La oficina le pedirá estas cifras por teléfono. No son secretas.",
  "pin.digits": "Su clave",
  "pin.change": "Cambiar el PIN",
  "pin.forgotten_title": "¿Olvidó el PIN?",
  "pin.forgotten_why":
    "Nadie puede devolverlo. La clave de este teléfono se tira y usted hace otra. Avise a la oficina: " +
    "da fin a la vieja. Lo firmado sigue firmado.",
  "pin.drop": "Tirarla",
  "pin.later": "Más tarde",
  "pin.lock": "Cerrar ya: fin del turno",
  "pin.holds": "{name} tiene este teléfono hasta las {at}",
  "pin.held": "lo tiene {name}",
  "pin.unsigned": "Con su nombre por el teléfono, sin su firma.",
  "pin.needed": "Su organización solo lo cuenta con su propia firma.",
  "guard.title": "Cómo se guarda este teléfono",
  "guard.key": "La clave de este teléfono",
  "guard.records": "Registros y fotos en él",
  "guard.wrapped": "La guarda el navegador; ninguna página la lee.",
  "guard.sealed": "Sellados. Quien se lleve solo sus archivos no lee nada.",
  "guard.open": "Legible para quien copie los archivos del teléfono.",
  "guard.aside": "Registros viejos que no se leen",
  "guard.aside_why": "El navegador perdió su clave. Quedan como están. Lo enviado vuelve de la oficina.",
  "guard.short": "Su clave, sus registros, su cierre",
  "lock.on": "Se abre con un PIN",
  "lock.on_why":
    "Copiar todo el teléfono cuesta días de intentos. A quién llamar queda a la vista, con vagón, " +
    "lugar y avisos.",
  "lock.off": "Se abre sin PIN",
  "lock.off_why":
    "Quien tenga el teléfono, o copia de todos sus archivos con los del navegador, tiene los registros.",
  "lock.cannot": "Un cierre taparía la pantalla sin proteger nada; por eso aquí no hay.",
  "lock.make": "Elegir el PIN del teléfono",
  "lock.old": "El PIN actual del teléfono",
  "lock.end": "Abrir sin PIN",
  "lock.now": "Cerrar ya",
  "lock.after": "Se cierra tras",
  "lock.title": "Cerrado",
  "lock.asks": "El PIN del teléfono",
  "lock.cars": "Cuidado con {n} vagones",
  "lock.wrong": "PIN equivocado. Otra vez.",
  "lock.waits": "Demasiados intentos. Otra vez a las {at}.",
  "lock.waits_a_while": "Demasiados intentos. Espere un rato.",
  "lock.failed": "No resultó. Nada cambió.",
  "lock.forgotten": "¿Olvidó el PIN?",
  "lock.forgotten_why":
    "Nadie puede devolverlo, ni la oficina. Pregunte a quien más usó este teléfono. Lo enviado está " +
    "en la oficina. Lo demás queda sellado en el teléfono y nunca se tira.",
  "lost.title": "Se perdió la clave de este teléfono",
  "lost.why":
    "El navegador la perdió. Los registros quedan como están, pero aquí no se pueden leer. Lo enviado " +
    "está en la oficina. Avise a la oficina antes de borrar nada.",
};
