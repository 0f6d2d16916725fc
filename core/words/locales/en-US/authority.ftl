### Why a device may not record something, and who may.

authority-keep-site = Only a device of the office can change a site.
authority-issue-seals = Only a device of the office can issue seals.
authority-keep-people = Only a device of the office can change who belongs to the organization.
authority-publish-procedures = Only a device of the office can publish procedures.
authority-admit = Only a device of the office can admit late entries.
authority-release = This device may not release a car. Ask the office.
authority-override = This device may not override open items. Ask the office.
authority-lift-hold = This device may not lift a hold. Ask the office.
authority-settle = This device may not correct or decide on what others recorded. Ask the office.
authority-not-this = This device may not record this. Ask the office.
authority-not-own = Only the office can void what another recorded. Record what you see as a new entry.
authority-misplaced = This does not belong in this kind of record.
