### Why a device may not record something, and who may.

authority-keep-site = Solo un dispositivo de la oficina puede cambiar un sitio.
authority-issue-seals = Solo un dispositivo de la oficina puede entregar sellos.
authority-keep-people = Solo un dispositivo de la oficina puede cambiar quién pertenece a la organización.
authority-publish-procedures = Solo un dispositivo de la oficina puede publicar procedimientos.
authority-admit = Solo un dispositivo de la oficina puede admitir entradas tardías.
authority-release = Este dispositivo no puede liberar un carro. Pregunte a la oficina.
authority-override = Este dispositivo no puede hacer excepciones a los puntos pendientes. Pregunte a la oficina.
authority-lift-hold = Este dispositivo no puede levantar una retención. Pregunte a la oficina.
authority-settle = Este dispositivo no puede corregir ni decidir sobre lo que otros anotaron. Pregunte a la oficina.
authority-not-this = Este dispositivo no puede anotar esto. Pregunte a la oficina.
authority-not-own = Solo la oficina puede anular lo que otro anotó. Anote lo que ve como una entrada nueva.
authority-misplaced = Esto no pertenece a este tipo de registro.
