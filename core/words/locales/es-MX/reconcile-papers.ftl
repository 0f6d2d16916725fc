### What is wrong with a file of shipping papers, and with a line of it.
reconcile-papers-too-large = El archivo pasa de { $most } MB
reconcile-papers-too-wide = El archivo tiene más de { $most } columnas
reconcile-papers-too-many = El archivo tiene más de { $columns } columnas o de { $lines } líneas
reconcile-papers-long-cell = Una celda tiene más de { $most } caracteres
reconcile-papers-control-characters = Una celda tiene caracteres de control
reconcile-papers-no-car = Sin número de carro
reconcile-papers-odd-car = “{ $text }” no es un número de carro
reconcile-papers-no-quantity = “{ $text }” no es una cantidad
reconcile-papers-no-day = “{ $text }” no es un día (AAAA-MM-DD o MM/DD/AAAA)
reconcile-papers-odd-density = «{ $text }» no es una densidad relativa de un gas licuado de petróleo (0.4 a 0.7)
reconcile-papers-odd-odorized = «{ $text }» no es ni sí ni no (odorizado)
reconcile-papers-odd-grade = «{ $text }» no es un grado conocido aquí (propano HD-5, propano comercial, butano comercial, mezcla butano-propano, isobutano, propileno)
reconcile-papers-odd-billed-by = «{ $text }» no es una forma de medir conocida aquí (tabla, medidor, báscula; por volumen puede ser tabla o medidor)
reconcile-papers-odd-winter = «{ $text }» no es ni invierno ni verano, ni sí ni no (llenado a límites de invierno)
reconcile-papers-in-column = columna { $column }, { $head }: { $fault }
