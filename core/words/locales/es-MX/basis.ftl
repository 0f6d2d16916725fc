### On what ground something is asked for.

basis-read = { $cites } (texto leído; consulte el texto vigente)
basis-read-on = { $cites } (texto leído { $day }; verifique el texto vigente)
basis-laws = { $laws }
basis-law = { $cites }, para { $whom }
basis-except = { $cites } (no en sitios que { $except } exceptúa)
basis-binds-others = práctica común aquí; { $cites }
basis-from-memory = { $cites } (de memoria; confirme antes de basarse en ello)
basis-practice = práctica común, sin fuente
basis-transloading-only = práctica común; { $cites } lo pide solo al descargar en autotanques (interpretaciones 06-0114, 07-0136, 10-0104)
basis-contradiction = un registro con dos entradas que difieren no prueba ninguna
basis-unreadable = una entrada ilegible puede ser una retención
basis-car-number = todo se archiva con el número del carro
basis-alarm = una alarma sigue en pie hasta que alguien la responda con una razón
basis-unloaded-as-far-as-practicable = 49 CFR 173.29(a) con la interpretación 14-0024: descargado hasta donde sea practicable
