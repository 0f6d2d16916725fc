### Letters that the office sends by e-mail: a line for each fact, then an extract of the record.

letters-subject = Car { $car }: { $what }
letters-subject-at = Car { $car }, { $fitting }: { $what }
letters-extract = Extract of the record of { $car } at { $site }
letters-stay = Stay { $stay }
letters-extract-holds = It lists what was recorded of this defect and its fitting. The packet of the stay has every entry, signed.
letters-by = { $name }, on { $device }
letters-entry = entry { $entry }
letters-car = Car: { $car }
letters-site = Site: { $site }
letters-fitting = Fitting: { $fitting }
letters-defect = Defect: { $what }
letters-noted = Noted: { $by }, { $time }
letters-waits = Waiting for: an approval. The car does not move before.
letters-approval = Approval: { $answer }
letters-reported = Reported before: { $sent }
letters-record = Record: { $visit }
letters-id = Defect’s id: { $id }
letters-photo-missing = Photograph { $sha256 } is not attached: not at the office yet, or too large.
