### Why a page is refused, and what to do.

office-refused-to-sign-in = Iniciar sesión
office-refused-to-today = Ir a Hoy
office-refused-unchanged = No se cambió nada
office-refused-account = Su cuenta no tiene acceso
office-refused-no-right = Su cuenta no tiene este derecho: { $right }. Pídalo a un administrador.
office-refused-again = Inicie sesión de nuevo
office-refused-over = La sesión terminó.
office-refused-you = Sin acceso
office-refused-not-yours = Inició sesión, pero no para esta página. Un enlace abre un solo expediente y su expediente de evidencia.
office-refused-no-token = El formulario no es de una página de esta sesión. Regrese, cargue la página de nuevo y envíelo.
office-refused-other-site = Otro sitio web envió este formulario. Cierre sesión si usted no quería enviarlo.
office-refused-not-here = No se encontró
office-refused-failed = El servidor no pudo hacerlo
office-refused-no-page = No existe tal página.
office-refused-form = El formulario está incompleto. Regrese, cargue la página de nuevo y envíelo.
office-refused-too-large = El formulario es demasiado grande o no llegó completo.
office-refused-not-text = El archivo no es texto UTF-8. Guárdelo como “CSV UTF-8”. No se importó nada.
office-refused-desk-revoked = El dispositivo de la oficina fue revocado. No se puede firmar nada con él.
office-language-unknown = Elija uno de los idiomas de la lista.

## Failures of the server

office-problem-failed = El servidor falló. Intente más tarde.
office-problem-busy = El servidor está ocupado. Intente en un momento.
office-problem-too-often = Llegaron demasiadas solicitudes de su dirección. Intente en un momento.
office-problem-full = El disco del servidor está lleno.
office-problem-ledger = Por ahora no se puede escribir en los registros del servidor. No se perdió nada. Intente más tarde.
office-problem-not-found = No hay nada en esta dirección.
office-problem-not-here = Esta fotografía no ha llegado al servidor.
