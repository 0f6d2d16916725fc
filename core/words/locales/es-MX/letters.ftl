### Letters that the office sends by e-mail: a line for each fact, then an extract of the record.

letters-subject = Carro { $car }: { $what }
letters-subject-at = Carro { $car }, { $fitting }: { $what }
letters-extract = Extracto del expediente de { $car } en { $site }
letters-stay = Estadía { $stay }
letters-extract-holds = Contiene lo registrado sobre este defecto y su accesorio. El expediente de evidencia de la estadía tiene todos los registros, firmados.
letters-by = { $name }, en { $device }
letters-entry = registro { $entry }
letters-car = Carro: { $car }
letters-site = Sitio: { $site }
letters-fitting = Accesorio: { $fitting }
letters-defect = Defecto: { $what }
letters-noted = Anotado: { $by }, { $time }
letters-waits = En espera de: una autorización. El carro no se mueve antes.
letters-approval = Autorización: { $answer }
letters-reported = Informado antes: { $sent }
letters-record = Expediente: { $visit }
letters-id = Id. del defecto: { $id }
letters-photo-missing = La fotografía { $sha256 } no se adjunta: aún no está en la oficina o es demasiado grande.
