### Carros que se esperan según los documentos de la oficina.

phone-expected-title = Carros esperados
phone-expected-count =
    { $n ->
        [one] Se espera { $n } carro
       *[other] Se esperan { $n } carros
    }
phone-expected-on = se espera el { $day }
phone-expected-paper = documento { $number }
phone-expected-differ = Dos documentos de este carro difieren
phone-expected-more =
    { $n ->
        [one] { $n } carro esperado más
       *[other] { $n } carros esperados más
    }
phone-expected-less = Menos
phone-expected-look = El documento nombra este carro. Lea el número en el carro mismo.
phone-expected-same = El carro muestra { $car }
phone-expected-photo-first = Tome primero la foto del rótulo, o escriba el número.
phone-expected-read = Leído en el carro, igual que en el documento
phone-expected-other = El carro muestra otro número
phone-expected-is = Está en la lista de carros esperados
phone-expected-near = Se espera { $car }: un carácter de diferencia. Mire el carro y escriba el número otra vez.
phone-expected-not = El documento es de { $car }
phone-paper-check = Compare cada línea con el documento en la mano.
phone-paper-as_in_hand = Igual que el documento en la mano
phone-paper-not_so = No es así, o no todo
phone-paper-from = Leído por la oficina de { $file }, línea { $line }. Enviado por { $by }.
phone-paper-dated = Día del documento
phone-paper-filled = Llenado con el archivo de la oficina. Cambie lo que el documento en la mano dice de otro modo.
phone-paper-two = La oficina envió dos documentos de este carro que difieren. Escriba lo que dice el documento en la mano.
