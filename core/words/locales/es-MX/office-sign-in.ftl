### Signing in, the code of the second factor, and the door of an inspector's link.

office-sign-in-title = Iniciar sesión
office-sign-in-name = Nombre
office-sign-in-password = Contraseña
office-sign-in-made = Las cuentas se crean en el servidor:
office-sign-in-wait =
    { $count ->
        [one] Demasiados intentos fallidos. Espere { $count } segundo e intente de nuevo.
       *[other] Demasiados intentos fallidos. Espere { $count } segundos e intente de nuevo.
    }
office-sign-in-many = Muchas personas están iniciando sesión. Espere unos segundos e intente de nuevo.
office-sign-in-wrong = Nombre o contraseña incorrectos.
office-sign-in-code-title = Su código
office-sign-in-code-lead = Escriba los seis dígitos que su teléfono muestra ahora para Farsiding. Si perdió el teléfono, escriba un código de recuperación.
office-sign-in-code = Código
office-sign-in-code-neither = ¿Sin teléfono ni código de recuperación? Pida a un administrador que restablezca el segundo factor y luego
office-sign-in-code-again = inicie sesión de nuevo
office-sign-in-code-late = Tardó más de cinco minutos. Inicie sesión de nuevo.
office-sign-in-code-wrong = Este código es incorrecto o ya se usó. Escriba el siguiente código que muestre su teléfono.
office-sign-in-link-title = Tiene acceso a un expediente
office-sign-in-link-for = Para { $label }, de { $by }, hasta { $until }.
office-sign-in-link-note = El enlace abre un expediente y su expediente de evidencia. La oficina ve que usted lo consultó y cuándo.
office-sign-in-link-open = Abrir el expediente
office-sign-in-link-over = Este enlace no abre nada: venció, fue revocado o está incompleto. Pida uno nuevo a la oficina.
