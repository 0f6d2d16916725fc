### Photographs of a record: removed ones, and removing one.

office-photos-removed = Removed by { $by }, { $time }: { $why }
office-photos-remove = Remove this photograph
office-photos-remove-note = The file is deleted here for good. The record still says that it was taken, and no phone sends it again. Phones that have it and earlier backups keep their copies.
office-photos-why = Why
office-photos-remove-it = Remove
office-photos-not-in-record = This photograph is not in this record.
office-photos-say-why = Enter why the photograph is removed.
office-photos-removed-before = This photograph was removed before.
