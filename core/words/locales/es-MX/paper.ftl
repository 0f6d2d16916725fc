### Documentos que la oficina envió a un sitio: de dónde se leyeron y qué difiere de ellos.

paper-source = { $file }, línea { $line }, enviado por { $by }, { $at }
paper-differs = { $fact }: { $here } registrado, { $there } en el archivo
paper_fact-car = carro
paper_fact-number = número del documento
paper_fact-un_number = número UN
paper_fact-billed = cantidad facturada
paper_fact-relative_density = densidad relativa
paper_fact-odorised = odorizado
paper_fact-grade = grado
paper_fact-billed_by = medido por
paper_fact-winter_fill = llenado a límites de invierno
paper_odorized-yes = sí
paper_odorized-no = no
