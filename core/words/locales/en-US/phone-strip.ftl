### Words of the steps on paper, which office and phone print alike.

phone-strip-title = Steps on paper
phone-strip-print = Print the steps
phone-strip-note = For places where no phone may go. Enter afterwards what was written, with “Done earlier”.
phone-strip-now = Print
phone-strip-aid = A paper aid, not the record. Enter what you wrote on the phone afterwards, each thing with the time it was done.
phone-strip-first = The owner’s instructions and local codes come first. A tick does not declare the car safe.
phone-strip-stop = If a step is not as described, stop. If something leaks and grows, leave. Call first, write later.
phone-strip-car = Car
phone-strip-site = Site
phone-strip-as_of = Ticked as recorded { $time }
phone-strip-digest = SHA-256 { $digest }
phone-strip-page = Page { $page } of { $pages }
phone-strip-strip = Strip { $n } of { $of }
phone-strip-done_at = Done at
phone-strip-initials = Initials
phone-strip-not_so = Not as described
phone-strip-every = Again every { $minutes } min
phone-strip-aside = If something else happens
phone-strip-remarks = Remarks
phone-strip-unknown = The exact text of this procedure is not here; the built-in one is printed.
phone-strip-instrument = Gauge or instrument
phone-strip-except = Except
phone-strip-residue = As residue
phone-strip-by = { $status }: { $by }
