### C

office-chart-label = Gráfica. La tabla de lecturas tiene los valores.
office-chart-elsewhere =
    { $count ->
        [one] { $count } lectura de otra hora no se dibuja
       *[other] { $count } lecturas de otra hora no se dibujan
    }
office-chart-over = H sobrante
office-chart-short = H faltante
office-chart-no-signal = Ninguna suma rebasa su intervalo.
office-chart-signal = Una suma rebasa su intervalo en { $car }.
office-chart-signals =
    { $count ->
        [one] Una suma rebasa su intervalo primero en { $car } y { $count } vez más tras reiniciar en 0.
       *[other] Una suma rebasa su intervalo primero en { $car } y { $count } veces más tras reiniciar en 0.
    }
office-chart-sums =
    { $count ->
        [one] Sumas acumuladas de { $name } en { $count } carro. { $says }
       *[other] Sumas acumuladas de { $name } en { $count } carros. { $says }
    }
office-chart-read = Puntos: diferencia de cada carro. { $says } Valor de referencia K { $reference } gal (EUA), intervalo de decisión H { $interval } gal (EUA), σ de un carro { $sigma } gal (EUA).
