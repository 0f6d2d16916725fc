### The page of shipping papers: files taken in, and papers without a record.

office-papers-title = Documentos de transporte
office-papers-unreadable = El archivo no se puede leer. { $why }. No se importó nada.
office-papers-lead = Importe los documentos de transporte como tabla: encabezados en la primera línea; coma, punto y coma o tabulador entre columnas. No se guarda nada antes de que usted revise la vista previa.
office-papers-file = Un archivo
office-papers-csv = CSV, hasta 2 MB
office-papers-preview = Vista previa
office-papers-text = O su texto
office-papers-name = Nombre
office-papers-lines = Líneas copiadas, primero los encabezados
office-papers-preview-text = Vista previa del texto
office-papers-files = Archivos importados
office-papers-no-files = Ninguno aún.
office-papers-files-label = Archivos
office-papers-file-head = Archivo
office-papers-taken = Importado
office-papers-taken-by = { $time }, por { $by }
office-papers-tables = Exportaciones
office-papers-tables-note = El mes como libro de cálculo, CSV o JSON:
office-papers-reconcile = Conciliación
office-papers-packets-note = Expedientes de evidencia de todo un mes:
office-papers-unmatched = Documentos de transporte de los últimos 100 días sin expediente
office-papers-of = { $count } de { $all }
office-papers-all-matched = Cada documento tiene su carro.
office-papers-paper = documento { $number }, { $day }, { $shipper }
office-papers-near = Un carácter de diferencia, sin documento propio:
office-papers-not-whole = El archivo regresó incompleto. Elíjalo de nuevo.
office-papers-choose = Elija un archivo o pegue su texto.
office-papers-as-last = Columnas como en el último archivo con estos encabezados.
office-papers-new-heads = Estos encabezados son nuevos. Elija las columnas.
office-papers-as-said = Columnas como usted las eligió.
office-papers-good = Se pueden importar { $good } de { $all } líneas. Las demás quedan en el archivo, que se conserva completo.
office-papers-no-column = no está en este archivo
office-papers-unit = Unidad de una cantidad sin unidad
office-papers-refresh = Actualizar
office-papers-take =
    { $count ->
        [one] Importar { $count } documento
       *[other] Importar { $count } documentos
    }
office-papers-lines-label = Líneas
office-papers-line = Línea
office-papers-paper-head = Documento
office-papers-car = Carro
office-papers-shipper = Remitente
office-papers-day = Día
office-papers-billed = Facturado
office-papers-wrong = Problema
office-papers-more =
    { $count ->
        [one] y { $count } línea más
       *[other] y { $count } líneas más
    }
office-papers-previewed = Documentos de transporte, vista previa
office-papers-first = Vea primero la vista previa del archivo.
office-papers-no-file = No existe tal archivo.
office-papers-no-heads = El archivo no tiene una primera línea con encabezados de columna. No se importó nada.

## Columns of a file of shipping papers

office-column-number = Número del documento
office-column-car = Número del carro
office-column-mark = Solo la inicial
office-column-shipper = Remitente
office-column-day = Día
office-column-billed = Cantidad facturada
office-column-density = Densidad relativa
office-column-un_number = Número UN
office-column-product = Designación oficial de transporte
office-column-odorised = Odorizado
office-column-grade = Grado
office-column-billed_by = Facturado por (tabla, medidor o báscula)
office-column-winter_fill = Llenado a límites de invierno
office-column-expected = Se espera el

## Documentos enviados a sitios

office-papers-says = Lo que dice el documento
office-papers-expected = Carro esperado
office-papers-send-to = Enviar a un sitio
office-papers-send-title = Enviar documentos de transporte a un sitio
office-papers-send-lead = Los teléfonos del sitio muestran entonces estos carros como esperados, con lo que { $file } dice de cada uno. En el carro, el número se sigue leyendo del carro, y se compara el documento en la mano.
office-papers-send-nothing = Ninguna línea de este archivo se puede enviar.
office-papers-send-site = Sitio
office-papers-send-choose = Elija un sitio
office-papers-send-note = Están elegidos los documentos recientes. Un carro que está dos veces en el archivo aparece aquí una vez, con su documento más reciente.
office-papers-send-do = Enviar los documentos elegidos
office-papers-send-choose-site = Elija el sitio al que van los documentos.
office-papers-send-choose-lines = Elija al menos un documento.
office-papers-send-too-many = Elija a lo más { $most } documentos.
office-papers-send-stand-there = Estos documentos ya están en el sitio. No se envió nada.
office-papers-sent = Enviados a sitios
office-papers-none-sent = No se envió nada a un sitio.
office-papers-site = Sitio
office-papers-sent-at = Enviado
office-papers-became = Llegada
office-papers-came = aquí desde { $day }
office-papers-waits = esperado
office-papers-waited = no llegó a tiempo; ya no se muestra
office-papers-two = Dos documentos de este carro difieren. Envíe otra vez el correcto.
office-papers-take-back = Retirar
office-papers-take-back-because = Por qué se retira
office-papers-take-back-do = Retirar este documento
office-papers-take-back-why = Diga en no más de 400 caracteres por qué se retira el documento.
office-papers-not-sent = Este documento no está en el sitio.
