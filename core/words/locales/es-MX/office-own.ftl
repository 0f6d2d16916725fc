### A person's own account: language, second factor, password.

office-own-title = Su cuenta
office-own-role = Rol: { $role }. Permite: { $allows }.
office-own-factor-missing = Su organización exige un segundo factor a todas las personas que inician sesión. Configúrelo abajo para abrir las demás páginas.
office-own-language = Idioma
office-own-language-label = Idioma de estas páginas
office-own-language-organisation = El de la organización: { $language }
office-own-language-keep = Guardar
office-own-factor = Segundo factor
office-own-factor-lead = Una aplicación de autenticación en su teléfono genera códigos. Quien conozca su contraseña aun así no podrá iniciar sesión.
office-own-your-password = Su contraseña
office-own-factor-set-up = Configurar
office-own-factor-since = Configurado { $time }. Al iniciar sesión se pide un código de su teléfono.
office-own-codes-left =
    { $count ->
        [one] Queda { $count } código de recuperación.
       *[other] Quedan { $count } códigos de recuperación.
    }
office-own-codes-few = Genere nuevos, o un teléfono perdido le cerrará el acceso.
office-own-codes-new = Códigos de recuperación nuevos
office-own-codes-note = Los códigos anteriores dejan de ser válidos.
office-own-codes-make = Generar códigos nuevos
office-own-factor-required = Su organización exige un segundo factor, por eso no se puede desactivar aquí. Para cambiar de teléfono, pida a un administrador que lo restablezca.
office-own-factor-off-or = Desactivarlo o cambiar de teléfono
office-own-factor-off-code = Un código de su teléfono o un código de recuperación
office-own-factor-turn-off = Desactivar
office-own-password = Contraseña
office-own-password-old = Contraseña actual
office-own-password-new =
    { $count ->
        [one] Contraseña nueva, al menos { $count } carácter
       *[other] Contraseña nueva, al menos { $count } caracteres
    }
office-own-password-again = Contraseña nueva otra vez
office-own-password-change = Cambiar la contraseña
office-own-password-note = Una frase corta es fácil de recordar. Una contraseña nueva termina sus sesiones en otros navegadores.
office-own-password-others =
    { $count ->
        [one] Ahora hay { $count } otra sesión abierta.
       *[other] Ahora hay otras { $count } sesiones abiertas.
    }
office-own-password-wrong = Esa no es su contraseña actual.
office-own-password-differ = Las dos contraseñas nuevas no son iguales.
office-own-password-same = La contraseña nueva es la actual.
office-own-password-length = Una contraseña necesita de { $shortest } a { $longest } caracteres. Una frase corta es fácil de recordar.
office-own-password-changed = Su contraseña cambió
office-own-password-signed-out = Se cerró su sesión en todos los demás navegadores.
office-own-back = Ir a su cuenta
office-own-factor-title = Configurar el segundo factor
office-own-factor-how = Escanee la imagen con la aplicación de autenticación de su teléfono, o escriba en ella estas letras.
office-own-factor-code = Los seis dígitos que muestra ahora
office-own-factor-works = Confirmar
office-own-factor-until = El inicio de sesión no cambia hasta que aquí se confirme un código de su teléfono.
office-own-factor-not-now = Ese no es el código actual. Revise el reloj del teléfono y escriba el siguiente código.
office-own-factor-none-begun = No se está configurando ningún segundo factor. Comience en su propia página.
office-own-factor-done = El segundo factor está configurado
office-own-codes-lead = Cada código de recuperación le da acceso una vez si pierde el teléfono. Solo se muestran ahora: anótelos y guárdelos lejos del teléfono.
office-own-codes-have = Ya los anoté
office-own-factor-none = Aún no hay segundo factor.
office-own-factor-exists = Ya hay un segundo factor. Desactívelo primero.
office-own-factor-failed = No se puede configurar el segundo factor: { $why }
office-own-factor-kept = Su organización exige un segundo factor. Un administrador puede restablecerlo.
office-own-code-wrong = Este código es incorrecto o ya se usó.
office-own-factor-is-off = El segundo factor está desactivado
office-own-factor-password-alone = Ahora su contraseña sola abre esta cuenta.
