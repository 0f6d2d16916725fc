### Words of the steps on paper, which office and phone print alike.

phone-strip-title = Pasos en papel
phone-strip-print = Imprimir los pasos
phone-strip-note = Para lugares donde no puede entrar un teléfono. Anote después lo escrito, con «Hecho antes».
phone-strip-now = Imprimir
phone-strip-aid = Ayuda en papel, no es el registro. Anote después en el teléfono lo que escribió, cada cosa con la hora en que se hizo.
phone-strip-first = Primero las instrucciones del propietario y las normas locales. Una marca no declara seguro el carro.
phone-strip-stop = Si un paso no es como se describe, deténgase. Si hay una fuga y crece, aléjese. Primero llame, después escriba.
phone-strip-car = Carro
phone-strip-site = Sitio
phone-strip-as_of = Marcado según lo anotado { $time }
phone-strip-digest = SHA-256 { $digest }
phone-strip-page = Página { $page } de { $pages }
phone-strip-strip = Tira { $n } de { $of }
phone-strip-done_at = Hecho a las
phone-strip-initials = Iniciales
phone-strip-not_so = No es como se describe
phone-strip-every = Otra vez cada { $minutes } min
phone-strip-aside = Si ocurre otra cosa
phone-strip-remarks = Observaciones
phone-strip-unknown = El texto exacto de este procedimiento no está aquí; se imprime el incluido.
phone-strip-instrument = Manómetro o instrumento
phone-strip-except = Excepto
phone-strip-residue = Como residuo
phone-strip-by = { $status }: { $by }
