### What was refused of devices, and records kept out of the lists.

office-quarantine-title = Refused data
office-quarantine-lead = Data from devices that could not be accepted, and records that no enrolled device opened. The devices were told. Nothing here changes what was accepted.
office-quarantine-refused = Refused
office-quarantine-none = Nothing was refused.
office-quarantine-when = When
office-quarantine-from = From
office-quarantine-bytes = Bytes
office-quarantine-why = Reason
office-quarantine-unknown = not known
office-quarantine-kept = Only the first 4096 bytes of each are kept. This command writes them to files:
office-quarantine-sure = Nobody needs to look into them any more
office-quarantine-purge = Delete all of it
office-quarantine-hidden = Hidden from the lists
office-quarantine-no-hidden = No record is hidden.
office-quarantine-tick = Check the box to confirm. Nothing was deleted.
office-quarantine-did = Hidden by { $by }, { $time }: { $why }
office-quarantine-show = Show it in the lists again
office-quarantine-phantom = No enrolled device opened this record
office-quarantine-phantom-note = You can hide it from the office’s lists. Its entries stay, also in the log. It comes back when an enrolled device opens it.
office-quarantine-hide = Hide it from the lists
office-quarantine-say-why = Enter why it is hidden.
office-quarantine-enrolled = An enrolled device opened this record, so it stays in the lists.
