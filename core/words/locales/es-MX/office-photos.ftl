### Photographs of a record: removed ones, and removing one.

office-photos-removed = Eliminada por { $by }, { $time }: { $why }
office-photos-remove = Eliminar esta fotografía
office-photos-remove-note = El archivo se borra aquí definitivamente. El expediente sigue indicando que se tomó y ningún teléfono la envía de nuevo. Los teléfonos que la tienen y los respaldos anteriores conservan sus copias.
office-photos-why = Por qué
office-photos-remove-it = Eliminar
office-photos-not-in-record = Esta fotografía no está en este expediente.
office-photos-say-why = Escriba por qué se elimina la fotografía.
office-photos-removed-before = Esta fotografía ya fue eliminada.
