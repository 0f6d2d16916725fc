### Words on the phone for the record of a car: entries, who made them, what became of them.

phone-history = History
phone-history-all = Event log
phone-history-none = Nothing recorded here yet
phone-recorded = Recorded
phone-record = Record
phone-gone = This is no longer here
phone-entry-withdraw = Void
phone-entry-correct = Correct
phone-entry-note = Both stay in the record, with your reason.
phone-entry-who = Who
phone-entry-when = When
phone-entry-device = Device
phone-entry-stands = Status
phone-entry-office = Office
phone-entry-receipted = Receipt signed by the office
phone-entry-place = Place
phone-instead-of = Corrects:
phone-instead-why = Why was it wrong?
phone-instead-leave = Keep the entry as it was
phone-clock-fast = clock { $by } fast
phone-clock-slow = clock { $by } slow
phone-span-minutes = { $n } min
phone-span-hours =
    { $n ->
        [one] 1 hour
       *[other] { $n } hours
    }
phone-span-days =
    { $n ->
        [one] 1 day
       *[other] { $n } days
    }
phone-span-years =
    { $n ->
        [one] 1 year
       *[other] { $n } years
    }
